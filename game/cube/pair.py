"""Slots and the pair of pieces that belongs in each; cross, solved, joined, placements.

A slot is named by its edge: FR, FL, BL, BR. Its pair is the corner below and the edge beside it.
Where a pair lies is two numbers: the places of the corner's cross sticker (home on D) and of one
edge sticker (for FR the one on F; for the others its image under the rotation that takes FR to
them). There are 24 x 24 such states; with the cross done the edge has only 16, which makes 384.

A *placement* is where a pair lies relative to its slot, whatever the top layer's turn: 168, of
which 42 have no piece in another slot:

    corner above, edge above     24      corner at home, edge above     6
    corner above, edge at home    6      both at home (one is solved)   6
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from game.cube import geometry, symmetry
from game.cube.cube import Cube
from game.cube.geometry import ROTATIONS, STICKERS, sticker
from game.errors import PositionError, did_you_mean, printable

SLOTS = ("FR", "FL", "BL", "BR")
CROSS_EDGES: tuple[int, ...] = tuple(
    sticker("D", r, c) for r, c in ((0, 1), (1, 2), (2, 1), (1, 0))
)
"""Homes of the cross edges' stickers on D, in the order DF, DR, DB, DL."""


class PairPlace(NamedTuple):
    """Places (0..53) of a pair's corner sticker and edge sticker."""

    corner: int
    edge: int


class Slot(NamedTuple):
    """A slot: its name and its pair's home."""

    name: str
    home: PairPlace


def _slot(name: str) -> Slot:
    turn = geometry.whole(symmetry.to_slot(name))
    return Slot(name, PairPlace(turn[sticker("D", 0, 2)], turn[sticker("F", 1, 2)]))


SLOT: dict[str, Slot] = {name: _slot(name) for name in SLOTS}


def parse_slots(text: str) -> tuple[str, ...]:
    """Slots written like `FR,BL` (commas or spaces), in the order of `SLOTS`, each once.

    Raises PositionError for a word that is no slot.
    """
    words = text.replace(",", " ").split()
    for word in words:
        if word.upper() not in SLOTS:
            hint = did_you_mean(word.upper(), SLOTS)
            problem = f'unknown slot "{printable(word)}"'
            raise PositionError(problem + (hint or "; expected FR, FL, BL or BR"))
    wanted = {word.upper() for word in words}
    return tuple(slot for slot in SLOTS if slot in wanted)


def parse_faces(text: str) -> str:
    """Faces written like `RU`, in the order F B R L U D, each once.

    Raises PositionError for anything that is no face, and when none is named.
    """
    wanted = [c for c in text.upper() if c not in ", "]
    for face in wanted:
        if face not in geometry.FACES:
            problem = f'unknown face "{printable(face)}"'
            raise PositionError(f"{problem}; expected letters of F B R L U D")
    if not wanted:
        raise PositionError("no face may turn; expected letters of F B R L U D")
    return "".join(face for face in geometry.FACES if face in wanted)


# The functions below take a cube in any grip and look at it with its centres at home.


def pair_place(cube: Cube, slot: str) -> PairPlace:
    """Where the slot's pair lies."""
    home = SLOT[slot].home
    where = cube.upright.where
    return PairPlace(where[home.corner], where[home.edge])


def is_cross_solved(cube: Cube) -> bool:
    """Whether the four cross edges are at home."""
    home = geometry.whole(cube.grip)  # cheaper than the upright cube: mostly the first edge tells
    return all(cube.where[i] == home[i] for i in CROSS_EDGES)


def is_pair_solved(cube: Cube, slot: str) -> bool:
    """Whether both pieces of the slot are at home."""
    return pair_place(cube, slot) == SLOT[slot].home


def is_goal(cube: Cube, slots: Iterable[str]) -> bool:
    """Whether the cross and these slots are solved, in any grip."""
    return is_cross_solved(cube) and all(is_pair_solved(cube, slot) for slot in slots)


@cache
def _joined_places(slot: str) -> frozenset[PairPlace]:
    home = SLOT[slot].home
    return frozenset(
        PairPlace(geometry.image(turn, home.corner), geometry.image(turn, home.edge))
        for turn in ROTATIONS
    )


def is_joined(cube: Cube, slot: str) -> bool:
    """Whether the pair's pieces lie side by side exactly as in their solved slot, anywhere.

    Exact: the one rotation of the whole cube that takes the home corner sticker to where it lies
    must take the home edge sticker to where that lies.
    """
    return pair_place(cube, slot) in _joined_places(slot)


def in_top(place: int) -> bool:
    """Whether a sticker's piece is in the top layer."""
    return STICKERS[place].place[1] == 1


def slot_at(place: int) -> str:
    """The slot whose corner or edge place this sticker belongs to; nothing for any other place."""
    x, y, z = STICKERS[place].place
    if y == 1 or x == 0 or z == 0:
        return ""
    return ("F" if z == 1 else "B") + ("R" if x == 1 else "L")


# -- placements ----------------------------------------------------------------------------------


class Placement(NamedTuple):
    """A pair's place seen from its slot: turned so that the slot is FR, least over top turns."""

    corner: int
    edge: int


@cache
def _top_turns() -> tuple[geometry.Permutation, ...]:
    layer = frozenset((1,))
    return tuple(geometry.permutation(m, layer, 1) for m in symmetry.VERTICAL)


def placement(place: PairPlace, slot: str) -> Placement:
    """The placement of a pair that lies at `place` and belongs in `slot`."""
    to_fr = geometry.whole(geometry.transpose(symmetry.to_slot(slot)))
    seen = [to_fr[i] for i in place]
    return min(Placement(turn[seen[0]], turn[seen[1]]) for turn in _top_turns())


@cache
def placements() -> tuple[Placement, ...]:
    """All 168 placements with the cross done, the 42 without a piece in another slot first.

    Those in order: both above, the corner only, the edge only, both at home.
    """
    cross_free = [i for i in geometry.EDGE_STICKERS if in_top(i) or slot_at(i)]
    found = {placement(PairPlace(c, e), "FR") for c in geometry.CORNER_STICKERS for e in cross_free}

    def order(p: Placement) -> tuple[bool, bool, bool, Placement]:
        corner_low, edge_low = not in_top(p.corner), not in_top(p.edge)
        return (is_astray(p), corner_low, edge_low, p)

    return tuple(sorted(found, key=order))


def is_astray(p: Placement) -> bool:
    """Whether a piece of the pair lies in a slot that is not its own."""
    return any(slot_at(i) not in ("", "FR") for i in p)


SOLVED_PLACEMENT = Placement(*SLOT["FR"].home)
