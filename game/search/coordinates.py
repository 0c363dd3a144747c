"""A cube as a few small numbers, and what the 18 face turns do to them.

    cross      0..190079    places of the four cross edges        12 * 11 * 10 * 9 * 2**4
    edges      0..190079    places of the four slots' edges       the same
    corners    0..136079    places of the four slots' corners     8 * 7 * 6 * 5 * 3**4

    corner     0..23        place of one pair's corner sticker    index into `CORNER_PLACES`
    edge       0..23        place of one pair's edge sticker      index into `EDGE_PLACES`

Places are those of an upright cube, the same for every slot. Four pieces of a kind are numbered
by the places of one sticker of each, read as one number in base 24, counted over the numbers
whose four pieces differ. Those of the cross are the stickers on D (homes DF, DR, DB, DL), those of
the slots the ones of `game.cube.pair`, in the order of `SLOTS`. Turns are numbered as in
`FACE_MOVES`: 3 * face + quarters - 1.

All arrays here are derived from `game.cube.moves.permutation`; none is typed in.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cache

import numpy as np
from numpy.typing import NDArray

from game.cube import geometry
from game.cube.cube import CORNERS, EDGES, PIECE_OF, SOLVED, Cube
from game.cube.geometry import FACES, Matrix
from game.cube.moves import FACE_MOVES, permutation
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS

CORNER_PLACES: tuple[int, ...] = tuple(i for piece in CORNERS for i in piece)
"""The 24 corner stickers, three in a row to a piece place."""
EDGE_PLACES: tuple[int, ...] = tuple(i for piece in EDGES for i in piece)
"""The 24 edge stickers, two in a row to a piece place."""
PLACES = 24
FACE_TURNS = len(FACE_MOVES)
FOUR = 4

Coordinate = NDArray[np.intp]
"""Coordinates of many nodes, of any shape."""
Numbers = NDArray[np.int32]
"""The same, in half the room."""


def turns_of(faces: str) -> list[int]:
    """The numbers of the turns of these faces, in the order of `FACE_MOVES`."""
    return [3 * FACES.index(face) + k for face in FACES if face in faces for k in range(3)]


def inverse_turn(turn: int) -> int:
    """The number of the turn that undoes this one."""
    return 3 * (turn // 3) + 2 - turn % 3


def _place_moves(places: tuple[int, ...]) -> Coordinate:
    index = {place: k for k, place in enumerate(places)}
    moves = [[index[permutation(move)[place]] for move in FACE_MOVES] for place in places]
    return np.array(moves, dtype=np.intp)


CORNER_MOVES = _place_moves(CORNER_PLACES)
"""Shape (24, 18): the place of a corner sticker after each turn."""
EDGE_MOVES = _place_moves(EDGE_PLACES)
"""Shape (24, 18): the place of an edge sticker after each turn."""


# -- four pieces of a kind -----------------------------------------------------------------------


def as_number(places: Sequence[NDArray[np.integer]] | NDArray[np.uint8]) -> Numbers:
    """Places of several pieces, each of shape (n,), read as one number in base 24."""
    number = np.zeros(len(places[0]), dtype=np.int32)
    for place in places:
        number *= PLACES
        number += place.astype(np.int32)
    return number


@dataclass(frozen=True, eq=False)
class Fours:
    """The arrangements of any four pieces of a kind.

    stickers: the 24 places, as stickers; places: shape (4, count), the places 0..23 of the four.
    """

    stickers: tuple[int, ...]
    places: NDArray[np.uint8]
    _number: Numbers = field(repr=False)

    @property
    def count(self) -> int:
        """How many arrangements there are."""
        return len(self.places[0])

    def numbered(self, places: NDArray[np.uint8]) -> Numbers:
        """The arrangements with the pieces at these places, shape (4, n); -1 for none."""
        return self._number.take(as_number(places))

    def moves(self) -> Numbers:
        """Shape (count, 18): the arrangement after each turn."""
        after = _place_moves(self.stickers).astype(np.uint8)
        moves = np.empty((self.count, FACE_TURNS), dtype=np.int32)
        for first in range(0, FACE_TURNS, 3):
            quarter = self.numbered(after[:, first].take(self.places))
            half = quarter.take(quarter)
            moves[:, first] = quarter
            moves[:, first + 1] = half
            moves[:, first + 2] = half.take(quarter)
        return moves

    def carried(
        self, symmetry: Matrix, homes: tuple[int, ...]
    ) -> tuple[tuple[int, NDArray[np.uint8]], ...]:
        """What a symmetry of the whole cube makes of some pieces, for each of their stickers.

        homes: of the stickers whose places are meant; the symmetry must permute their pieces. For
        each: which of them is carried to it, and where, shape (24,), for each place of that one.
        """
        image = geometry.whole(symmetry)
        index = {sticker: place for place, sticker in enumerate(self.stickers)}
        found = []
        for home in homes:
            before = image.index(home)
            known = next(k for k, other in enumerate(homes) if before in PIECE_OF[other])
            shown = [image[_beside(homes[known], at, before)] for at in self.stickers]
            found.append((known, np.array([index[at] for at in shown], dtype=np.uint8)))
        return tuple(found)

    def seen_by(self, symmetry: Matrix, homes: tuple[int, ...]) -> Numbers:
        """Shape (count,): what each arrangement of the four pieces is, shown by the symmetry."""
        carried = self.carried(symmetry, homes)
        return self.numbered(np.array([to.take(self.places[known]) for known, to in carried]))


def _beside(sticker: int, place: int, other: int) -> int:
    """Where another sticker of the same piece lies when the sticker lies at the place."""
    home, target = PIECE_OF[sticker], PIECE_OF[place]
    shift = home.index(other) - home.index(sticker)
    return target[(target.index(place) + shift) % len(target)]


def _fours(pieces: tuple[tuple[int, ...], ...]) -> Fours:
    stickers = tuple(i for piece in pieces for i in piece)
    places = np.indices((PLACES,) * FOUR, dtype=np.uint8).reshape(FOUR, -1)
    piece = places // len(pieces[0])
    differ = np.ones(places.shape[1], dtype=bool)
    for a in range(FOUR):
        for b in range(a):
            differ &= piece[a] != piece[b]
    number = np.full(PLACES**FOUR, -1, dtype=np.int32)
    number[differ] = np.arange(np.count_nonzero(differ))
    return Fours(stickers, np.ascontiguousarray(places[:, differ]), number)


@cache
def edge_fours() -> Fours:
    """The 190080 arrangements of four edges."""
    return _fours(EDGES)


@cache
def corner_fours() -> Fours:
    """The 136080 arrangements of four corners."""
    return _fours(CORNERS)


@cache
def edge_four_moves() -> Numbers:
    """Shape (190080, 18): four edges after each turn."""
    return edge_fours().moves()


@cache
def corner_four_moves() -> Numbers:
    """Shape (136080, 18): four corners after each turn."""
    return corner_fours().moves()


# -- a cube's numbers ----------------------------------------------------------------------------

SLOT_HOMES: dict[str, tuple[int, ...]] = {
    "corner": tuple(SLOT[slot].home.corner for slot in SLOTS),
    "edge": tuple(SLOT[slot].home.edge for slot in SLOTS),
}
"""The homes of the slots' corners and edges, those stickers whose places are meant."""


def _four_of(cube: Cube, homes: tuple[int, ...], fours: Callable[[], Fours]) -> int:
    where = cube.upright.where
    places = np.array([[fours().stickers.index(where[home])] for home in homes], dtype=np.uint8)
    return int(fours().numbered(places)[0])


def cross_of(cube: Cube) -> int:
    """The cross of a cube in any grip."""
    return _four_of(cube, CROSS_EDGES, edge_fours)


def edges_of(cube: Cube) -> int:
    """The slots' edges of a cube in any grip."""
    return _four_of(cube, SLOT_HOMES["edge"], edge_fours)


def corners_of(cube: Cube) -> int:
    """The slots' corners of a cube in any grip."""
    return _four_of(cube, SLOT_HOMES["corner"], corner_fours)


CROSSES = 190_080
HOME_CROSS = cross_of(SOLVED)
"""The solved cross."""
HOME_CORNER: dict[str, int] = {s: CORNER_PLACES.index(SLOT[s].home.corner) for s in SLOT}
HOME_EDGE: dict[str, int] = {s: EDGE_PLACES.index(SLOT[s].home.edge) for s in SLOT}
