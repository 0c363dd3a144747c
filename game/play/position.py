"""A position: a cube, the slots that must be solved at the end, the faces that may turn, the view.

Its text is the key of every record and what packs, deals and codes come down to:

    cornerstates/edgestates/slots/faces/view
    ..un..xw/.btu.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus    (R U R', all slots to solve)

One letter a..x per piece says where its reference sticker lies, as an index into the 24 corner or
edge stickers; the eight corners and twelve edges stand in the order of `CORNERS` and `EDGES`. In
the view `focus` a piece that is neither of the cross nor of a slot to solve is a dot: it is shown
grey and may lie anywhere, so equal puzzles have equal texts. Every position has exactly one text.
A position has no grip: it starts with the centres at home.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from string import ascii_lowercase
from typing import NamedTuple

from game.cube import pair, symmetry
from game.cube.cube import (
    CORNERS,
    EDGES,
    PIECE_OF,
    SOLVED,
    Cube,
    cube_of,
    impossibility,
    is_odd,
    turned,
)
from game.cube.geometry import CORNER_STICKERS, EDGE_STICKERS, FACES, Matrix
from game.cube.moves import Move
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS, PairPlace
from game.errors import PositionError, did_you_mean, printable

VIEWS = ("focus", "full")
MAX_POSITION_TEXT = 60
"""Characters of a position's text at most."""


@dataclass(frozen=True)
class Position:
    """A cube with its centres at home and what is asked of it. Make one with `position_of`."""

    cube: Cube
    solve: tuple[str, ...]
    faces: str
    view: str

    @property
    def open(self) -> tuple[str, ...]:
        """Slots whose content does not matter at the end."""
        return tuple(slot for slot in SLOTS if slot not in self.solve)

    @cached_property
    def pairs(self) -> tuple[str, ...]:
        """Slots to solve that are not solved at the start: the pairs in play."""
        return tuple(s for s in self.solve if not pair.is_pair_solved(self.cube, s))

    @property
    def kept(self) -> tuple[str, ...]:
        """Slots to solve that are solved at the start."""
        return tuple(slot for slot in self.solve if slot not in self.pairs)

    @property
    def hand_faces(self) -> str:
        """The faces at the hands: the top and both sides of the slots in play, where allowed."""
        at_hand = "U" + "".join(self.pairs)
        return "".join(face for face in self.faces if face in at_hand)

    def is_goal(self, cube: Cube) -> bool:
        """Whether the cube, in any grip, has the cross and the slots to solve done."""
        return pair.is_goal(cube, self.solve)

    def image(self, symmetry_: Matrix) -> Position:
        """The position as a symmetry that keeps the cross below shows it."""
        return position_of(
            self.cube.image(symmetry_),
            (symmetry.slot_image(slot, symmetry_) for slot in self.solve),
            symmetry.faces_image(self.faces, symmetry_),
            self.view,
        )

    @cached_property
    def text(self) -> str:
        """The position's one canonical text."""
        return _text(self.cube, self.solve, self.faces, self.view)


def position_of(
    cube: Cube, solve: Iterable[str] = SLOTS, faces: str = FACES, view: str = "focus"
) -> Position:
    """The position of a cube in any grip; it is turned back until its centres are at home.

    In the view `focus`, pieces that do not matter are put where they lie in the text's reading.
    Raises PositionError when the cube cannot be reached by turning, or for an unknown slot, face or
    view.
    """
    fault = impossibility(cube.upright)
    if fault:
        raise PositionError(f"turning cannot reach this cube: {fault}")
    return _position(cube, solve, faces, view)


def _position(cube: Cube, solve: Iterable[str], faces: str, view: str) -> Position:
    """The same of a cube that turning can reach."""
    upright = cube.upright
    slots, allowed = pair.parse_slots(" ".join(solve)), pair.parse_faces(faces)
    if _checked(view) == "focus":
        known = _pieces_that_matter(slots)
        upright = _completed({i: upright.where[i] for i in known})
    return Position(upright, slots, allowed, view)


def position_after(
    setup: Iterable[Move], open_: Iterable[str] = (), faces: str = FACES, view: str = "focus"
) -> Position:
    """The position that a setup makes of a solved cube, all slots but the open ones to solve."""
    left_open = pair.parse_slots(" ".join(open_))
    solve = (slot for slot in SLOTS if slot not in left_open)
    return _position(SOLVED.turn(setup), solve, faces, view)


def text_after(
    setup: Iterable[Move], open_: Iterable[str] = (), faces: str = FACES, view: str = "focus"
) -> str:
    """The text of `position_after`, without making the position: a quarter of the work."""
    left_open = pair.parse_slots(" ".join(open_))
    solve = tuple(slot for slot in SLOTS if slot not in left_open)
    return _text(SOLVED.turn(setup).upright, solve, pair.parse_faces(faces), _checked(view))


def position_with(
    places: Mapping[int, int],
    solve: Iterable[str] = SLOTS,
    faces: str = FACES,
    view: str = "focus",
) -> Position:
    """The position with some pieces at given places and all others that matter at home.

    places: home of one sticker of a piece, of a corner or an edge -> where that sticker lies.
    Raises PositionError as `position_of` does, and when two pieces would lie at one place.
    """
    slots, allowed = pair.parse_slots(" ".join(solve)), pair.parse_faces(faces)
    known = _pieces_that_matter(slots)
    full = {home: home for home in known}
    for home, place in places.items():
        piece, there = PIECE_OF[home], PIECE_OF[place]
        if len(piece) != len(there):
            raise PositionError("a corner and an edge cannot take each other's places")
        full[piece[0]] = there[(there.index(place) - piece.index(home)) % len(there)]
    if _checked(view) == "focus":
        full = {home: full[home] for home in known}
    return Position(_completed(full), slots, allowed, view)


def parse_position(text: str) -> Position:
    """The position of a canonical text. Raises PositionError for anything else."""
    if len(text) > MAX_POSITION_TEXT:
        problem = f"at most {MAX_POSITION_TEXT} are read"
        raise PositionError(f"a position of {len(text)} characters; {problem}")
    parts = text.split("/")
    if len(parts) != 5:
        raise PositionError(f"a position of {len(parts)} parts; expected 5 with / between")
    corners, edges, slots, faces, view = parts
    solve = () if slots == "cross" else pair.parse_slots(slots.replace("+", ","))
    places = _places(corners, CORNERS, CORNER_STICKERS) | _places(edges, EDGES, EDGE_STICKERS)
    cube = _completed(places)
    found = position_of(cube, solve, faces, view)
    if found.text != text:
        raise PositionError(f"not the canonical text of a position; that would be {found.text}")
    return found


class Glance(NamedTuple):
    """What a text says: where each pair in play lies; whether the cross is done."""

    places: dict[str, PairPlace]
    has_cross: bool


def glance(text: str) -> Glance:
    """The pairs in play of a canonical text, read from its letters alone.

    A hundred times faster than `parse_position`, which also proves that the cube can be. Raises
    PositionError where a letter that is needed is not there.
    """
    try:
        corners, edges, slots, _, _ = text.split("/")
        lies = {
            slot: PairPlace(
                CORNER_STICKERS[ascii_lowercase.index(corners[corner])],
                places[ascii_lowercase.index(edges[edge])],
            )
            for slot, (corner, edge, places) in _LETTERS_OF.items()
            if slot in slots
        }
        has_cross = all(edges[at] == letter for at, letter in _CROSS_LETTERS)
    except (ValueError, IndexError):
        raise PositionError("not the text of a position") from None
    in_play = {slot: place for slot, place in lies.items() if place != SLOT[slot].home}
    return Glance(in_play, has_cross)


def _letters_of(slot: str) -> tuple[int, int, tuple[int, ...]]:
    """Where a slot's corner and edge stand among the letters; the edge sticker of each letter.

    A letter says where the piece's reference sticker lies; a corner's is its cross sticker.
    """
    home = SLOT[slot].home
    edge = EDGES.index(PIECE_OF[home.edge])
    other = EDGES[edge].index(home.edge)
    beside = (PIECE_OF[i][PIECE_OF[i].index(i) - other] for i in EDGE_STICKERS)
    return CORNERS.index(PIECE_OF[home.corner]), edge, tuple(beside)


_LETTERS_OF = {slot: _letters_of(slot) for slot in SLOTS}
_CROSS_LETTERS = tuple(
    (EDGES.index(PIECE_OF[i]), ascii_lowercase[EDGE_STICKERS.index(i)]) for i in CROSS_EDGES
)


def _checked(view: str) -> str:
    """The view. Raises PositionError for one that is not."""
    if view not in VIEWS:
        hint = did_you_mean(view, VIEWS) or "; expected focus or full"
        raise PositionError(f'unknown view "{printable(view)}"{hint}')
    return view


_LETTER = {
    i: letter
    for stickers in (CORNER_STICKERS, EDGE_STICKERS)
    for i, letter in zip(stickers, ascii_lowercase, strict=False)
}
"""Place of a sticker -> the letter of a piece whose reference sticker lies there."""


def _text(cube: Cube, solve: tuple[str, ...], faces: str, view: str) -> str:
    """The text of a position; in the view `focus`, pieces that do not matter may lie anywhere."""
    known = _pieces_that_matter(solve) if view == "focus" else None
    corners, edges = _letters(cube, CORNERS, known), _letters(cube, EDGES, known)
    return f"{corners}/{edges}/{'+'.join(solve) or 'cross'}/{faces}/{view}"


def _letters(cube: Cube, pieces: tuple[tuple[int, ...], ...], known: frozenset[int] | None) -> str:
    return "".join(
        [
            _LETTER[cube.where[piece[0]]] if known is None or piece[0] in known else "."
            for piece in pieces
        ]
    )


def _places(
    letters: str, pieces: tuple[tuple[int, ...], ...], stickers: tuple[int, ...]
) -> dict[int, int]:
    """Home of each lettered piece's reference sticker -> its place."""
    kind = "corners" if len(pieces) == 8 else "edges"
    if len(letters) != len(pieces):
        raise PositionError(f"{len(letters)} {kind} in a position; expected {len(pieces)}")
    places = {}
    for letter, piece in zip(letters, pieces, strict=True):
        if letter == ".":
            continue
        index = ascii_lowercase.find(letter)
        if not 0 <= index < len(stickers):
            raise PositionError(f"{letter!r} among the {kind} of a position; expected a to x")
        places[piece[0]] = stickers[index]
    return places


@cache
def _pieces_that_matter(solve: tuple[str, ...]) -> frozenset[int]:
    """Homes of the reference stickers of the cross edges and of the pairs to solve."""
    stickers = list(pair.CROSS_EDGES)
    for slot in solve:
        stickers += SLOT[slot].home
    return frozenset(PIECE_OF[i][0] for i in stickers)


def _completed(places: dict[int, int]) -> Cube:
    """A cube with the given pieces where they are and the others, in order, in the places left.

    The last free corner is twisted, the last free edge flipped and the last two free edges
    exchanged as needed. Raises PositionError when no cube has the given pieces there.
    """
    taken = [PIECE_OF[place] for place in places.values()]
    if len(set(taken)) != len(taken):
        raise PositionError("two pieces of a position lie at one place")
    full = dict(places)
    free_edges: list[int] = []
    free_corners: list[int] = []
    for pieces, free in ((CORNERS, free_corners), (EDGES, free_edges)):
        free += [piece[0] for piece in pieces if piece[0] not in places]
        left = [piece[0] for piece in pieces if piece not in taken]
        full |= dict(zip(free, left, strict=True))
    if free_corners:
        last = free_corners[-1]
        full[last] = PIECE_OF[full[last]][-turned(full, CORNERS) % 3]
    if free_edges:
        last = free_edges[-1]
        full[last] = PIECE_OF[full[last]][turned(full, EDGES) % 2]
    if len(free_edges) > 1 and is_odd(full, CORNERS) != is_odd(full, EDGES):
        a, b = free_edges[-2:]
        full[a], full[b] = full[b], full[a]
    return cube_of(full)
