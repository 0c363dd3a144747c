"""A cube as a few small numbers, and what the 18 face turns do to them.

    corner   0..23       place of a pair's corner sticker      index into `CORNER_PLACES`
    edge     0..23       place of a pair's edge sticker        index into `EDGE_PLACES`
    cross    0..190079   places of the four cross edges        12 * 11 * 10 * 9 * 2**4

Places are those of an upright cube, the same for every slot. A cross is numbered by the places of
its four stickers on D (homes DF, DR, DB, DL), read as one number in base 24, counted over the
numbers whose four pieces differ. Turns are numbered as in `FACE_MOVES`: 3 * face + quarters - 1.

All arrays here are derived from `game.cube.moves.permutation`; none is typed in.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from game.cube import geometry, symmetry
from game.cube.cube import CORNERS, EDGES, Cube
from game.cube.geometry import FACES, Permutation
from game.cube.moves import FACE_MOVES, permutation
from game.cube.pair import CROSS_EDGES, SLOT, pair_place

CORNER_PLACES: tuple[int, ...] = tuple(i for piece in CORNERS for i in piece)
"""The 24 corner stickers, three in a row to a piece place."""
EDGE_PLACES: tuple[int, ...] = tuple(i for piece in EDGES for i in piece)
"""The 24 edge stickers, two in a row to a piece place."""
PLACES = 24
CROSSES = 190_080

Coordinate = NDArray[np.intp]
"""Coordinates of many nodes, of any shape."""


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


# -- the cross -----------------------------------------------------------------------------------

_BASE = PLACES ** np.arange(3, -1, -1)


@cache
def _numbering() -> tuple[Coordinate, NDArray[np.int32]]:
    """The four places of each cross, shape (4, 190080); and base-24 number -> cross, else -1."""
    places = np.indices((PLACES,) * 4).reshape(4, -1)
    piece = places // 2
    differ = np.ones(places.shape[1], dtype=bool)
    for a in range(4):
        for b in range(a):
            differ &= piece[a] != piece[b]
    number = np.full(PLACES**4, -1, dtype=np.int32)
    number[differ] = np.arange(CROSSES)
    return places[:, differ], number


def cross_places() -> Coordinate:
    """Shape (4, 190080): the edge places (0..23) of the cross edges DF, DR, DB, DL."""
    return _numbering()[0]


def _renumbered(places: Coordinate) -> NDArray[np.int32]:
    """The crosses whose edges lie at these places, shape (4, n)."""
    crosses: NDArray[np.int32] = _numbering()[1][_BASE @ places]
    return crosses


def cross_of(cube: Cube) -> int:
    """The cross of a cube in any grip."""
    where = cube.upright.where
    places = np.array([[EDGE_PLACES.index(where[i])] for i in CROSS_EDGES])
    return int(_renumbered(places)[0])


HOME_CROSS = cross_of(Cube())
"""The solved cross."""


@cache
def cross_moves() -> NDArray[np.int32]:
    """Shape (190080, 18): the cross after each turn."""
    places = cross_places()
    moves = np.empty((CROSSES, len(FACE_MOVES)), dtype=np.int32)
    for first in range(0, len(FACE_MOVES), 3):
        quarter = _renumbered(EDGE_MOVES[places, first])
        half = quarter[quarter]
        moves[:, first] = quarter
        moves[:, first + 1] = half
        moves[:, first + 2] = half[quarter]
    return moves


# -- seen from another slot ----------------------------------------------------------------------


def _seen_from(slot: str) -> Permutation:
    """What the rotation about the vertical that takes the slot to FR does to the stickers."""
    return geometry.whole(geometry.transpose(symmetry.to_slot(slot)))


def cross_seen_from(slot: str) -> NDArray[np.int32]:
    """Shape (190080,): the cross that each cross becomes when the slot is turned to FR."""
    image = _seen_from(slot)
    place_image = np.array([EDGE_PLACES.index(image[place]) for place in EDGE_PLACES])
    edge_image = [CROSS_EDGES.index(image[home]) for home in CROSS_EDGES]
    turned = np.empty_like(cross_places())
    turned[edge_image] = place_image[cross_places()]
    return _renumbered(turned)


def places_seen_from(slot: str, places: tuple[int, ...]) -> Coordinate:
    """Shape (24,): the corner or edge place that each becomes when the slot is turned to FR."""
    image = _seen_from(slot)
    return np.array([places.index(image[place]) for place in places], dtype=np.intp)


# -- a cube's pairs ------------------------------------------------------------------------------


def corner_of(cube: Cube, slot: str) -> int:
    """The corner coordinate of the slot's pair."""
    return CORNER_PLACES.index(pair_place(cube, slot).corner)


def edge_of(cube: Cube, slot: str) -> int:
    """The edge coordinate of the slot's pair."""
    return EDGE_PLACES.index(pair_place(cube, slot).edge)


HOME_CORNER: dict[str, int] = {s: CORNER_PLACES.index(SLOT[s].home.corner) for s in SLOT}
HOME_EDGE: dict[str, int] = {s: EDGE_PLACES.index(SLOT[s].home.edge) for s in SLOT}
