"""A cube: where each of its 54 stickers lies.

`cube.where[i]` is the place where the sticker whose home is `i` now lies, so a cube and a turn
are the same kind of thing, and turning is `geometry.then(cube.where, permutation(move))`.
Centres count too, so a rotation is an ordinary move; `upright` turns the whole cube back until
every centre is at home, and `grip` is the rotation that was undone.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property

from game.cube import geometry
from game.cube.geometry import (
    CENTRES,
    CORNER_STICKERS,
    EDGE_STICKERS,
    IDENTITY,
    ROTATIONS,
    STICKERS,
    Matrix,
    Permutation,
)
from game.cube.moves import Move, table
from game.errors import PositionError


@dataclass(frozen=True)
class Cube:
    """`where[i]`: the place (0..53) of the sticker whose home is `i`."""

    where: Permutation = IDENTITY

    def turn(self, moves: Iterable[Move]) -> Cube:
        """The cube after the moves."""
        where = bytes(self.where)
        for move in moves:
            where = where.translate(table(move))
        return Cube(tuple(where))

    @cached_property
    def at(self) -> Permutation:
        """`at[p]`: the home of the sticker that now lies at `p`."""
        return geometry.inverse(self.where)

    @cached_property
    def grip(self) -> Matrix:
        """The rotation that took the centres from home to where they are."""
        return _grips()[self.where[_CENTRES]]

    @property
    def upright(self) -> Cube:
        """The same cube, turned as a whole until every centre is at home."""
        return self if self.where[_CENTRES] == IDENTITY[_CENTRES] else self._turned_back

    @cached_property
    def _turned_back(self) -> Cube:
        back = geometry.whole(geometry.transpose(self.grip))
        return Cube(geometry.then(self.where, back))

    def image(self, symmetry: Matrix) -> Cube:
        """The cube as a symmetry of space shows it; colours take the place of their images."""
        p = geometry.whole(symmetry)
        return Cube(geometry.then(geometry.then(geometry.inverse(p), self.where), p))

    def is_solved(self) -> bool:
        """Whether every sticker is at home, in any grip."""
        return self.upright.where == IDENTITY


SOLVED = Cube()
_CENTRES = slice(CENTRES["F"], None, 9)
"""The six centres among the 54 stickers."""


@cache
def _grips() -> dict[Permutation, Matrix]:
    """The places of the six centres -> the rotation that took them there."""
    return {tuple(geometry.image(m, c) for c in CENTRES.values()): m for m in ROTATIONS}


# -- pieces --------------------------------------------------------------------------------------


def _pieces(stickers: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """The stickers of each piece, its reference sticker first, then clockwise round the piece.

    The reference sticker of a corner lies on U or D; of an edge on U, D or else F, B.
    """
    pieces = []
    by_place: dict[geometry.Vector, list[int]] = {}
    for i in stickers:
        by_place.setdefault(STICKERS[i].place, []).append(i)
    for members in by_place.values():
        members.sort(key=lambda i: "UDFBRL".index(STICKERS[i].face))
        if len(members) == 3:
            a, b, c = (STICKERS[i].normal for i in members)
            if geometry.dot(geometry.cross(a, b), c) == 1:  # a, b, c anticlockwise from outside
                members[1:] = members[2], members[1]
        pieces.append(tuple(members))
    return tuple(pieces)


CORNERS = _pieces(CORNER_STICKERS)
"""Eight corners as (U or D sticker, the next clockwise, the next)."""
EDGES = _pieces(EDGE_STICKERS)
"""Twelve edges as (U or D sticker, else F or B sticker; the other sticker)."""

PIECE_OF: dict[int, tuple[int, ...]] = {i: piece for piece in CORNERS + EDGES for i in piece}
"""Sticker -> the stickers of the piece place it belongs to, reference sticker first."""
_NUMBER = {i: n for kind in (CORNERS, EDGES) for n, piece in enumerate(kind) for i in piece}
"""Sticker -> the number of its piece place among the corners or among the edges."""
_SHIFT = {i: shift for piece in CORNERS + EDGES for shift, i in enumerate(piece)}
"""Sticker -> how many stickers clockwise from the reference sticker of its place it lies."""


def cube_of(places: dict[int, int]) -> Cube:
    """The cube, centres at home, in which each piece's reference sticker lies at the given place.

    places: home of a reference sticker -> its place, for all 8 corners and 12 edges.
    Raises PositionError when two pieces claim one place or turning cannot reach the cube.
    """
    where = list(IDENTITY)
    for piece in CORNERS + EDGES:
        place = places[piece[0]]
        target = PIECE_OF[place]
        if len(target) != len(piece):
            one, other = ("a corner", "an edge") if len(piece) == 3 else ("an edge", "a corner")
            raise PositionError(f"{one} cannot lie where {other} belongs")
        shift = _SHIFT[place]
        for i, there in zip(piece, target[shift:] + target[:shift], strict=True):
            where[i] = there
    if len(set(where)) != len(where):
        raise PositionError("two pieces lie at one place")
    cube = Cube(tuple(where))
    fault = impossibility(cube)
    if fault:
        raise PositionError(f"turning cannot reach this cube: {fault}")
    return cube


def impossibility(cube: Cube) -> str:
    """Why turning cannot reach this upright cube from the solved one, or nothing if it can.

    The three invariants: twists of the corners sum to a whole turn, flips of the edges are even,
    and the permutations of corners and edges have the same parity (common practice, no source;
    the tests count the group they leave against the published order).
    """
    if turned(cube.where, CORNERS) % 3:
        return "one corner is twisted"
    if turned(cube.where, EDGES) % 2:
        return "one edge is flipped"
    if is_odd(cube.where, CORNERS) != is_odd(cube.where, EDGES):
        return "two pieces are exchanged"
    return ""


Places = Mapping[int, int] | Permutation
"""Home of a sticker -> where it lies, for the reference stickers at least."""


def turned(places: Places, pieces: tuple[tuple[int, ...], ...]) -> int:
    """The sum of the twists or flips of these pieces, all corners or all edges."""
    return sum(_SHIFT[places[piece[0]]] for piece in pieces)


def is_odd(places: Places, pieces: tuple[tuple[int, ...], ...]) -> bool:
    """The parity of how these pieces, all corners or all edges, are permuted."""
    target = [_NUMBER[places[piece[0]]] for piece in pieces]
    swaps = 0
    for i in range(len(target)):
        while target[i] != i:
            j = target[i]
            target[i], target[j] = target[j], target[i]
            swaps += 1
    return swaps % 2 == 1
