"""Exact distances of parts of the cube: lower bounds for the whole.

The cross with one corner of a pair, and the cross with its edge, are small enough to know how
many turns each of their states is from solved: 190080 x 24 bytes a table. A position is at least
as far from its goal as each of its parts is.

The distances come from a breadth-first search that takes a step from all states at once: for each
cross, one bit for each place of the piece says whether that state has been reached. A turn moves
whole rows (the cross) and permutes the bits of each (the piece).

`Tables` is what a search needs; larger tables only have to give closer bounds.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from game.cube.geometry import FACES
from game.search import coordinates
from game.search.coordinates import (
    CORNER_MOVES,
    CORNER_PLACES,
    CROSSES,
    EDGE_MOVES,
    EDGE_PLACES,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
    PLACES,
    Coordinate,
    cross_moves,
    inverse_turn,
    turns_of,
)

Distances = NDArray[np.uint8]
"""Turns to solved. Of a table: shape (190080, 24), cross by place."""
UNREACHED = 255
"""The distance of what is no state, or cannot be solved by the faces allowed."""
KINDS = ("corner", "edge")
"""What a table joins to the cross."""


class Nodes(Protocol):
    """Coordinates of many nodes, all of one shape, worked out when asked for."""

    @property
    def cross(self) -> NDArray[np.int32]:
        """The crosses."""

    def corner(self, slot: str) -> Coordinate:
        """The places of the slot's corner."""

    def edge(self, slot: str) -> Coordinate:
        """The places of the slot's edge."""


class Bound(Protocol):
    """A lower bound on the turns that nodes are away from the goal."""

    def __call__(self, nodes: Nodes) -> Distances:
        """The bounds, of the nodes' shape."""


class Tables(Protocol):
    """Where a search gets its bounds from."""

    def bounds(self, slots: tuple[str, ...], faces: str) -> Iterator[Bound]:
        """Bounds for solving the cross and these slots by turns of these faces, one by one."""


# -- distances -----------------------------------------------------------------------------------


def distances(kind: str, slot: str = "FR", faces: str = FACES) -> Distances:
    """Turns from each state of the cross and the slot's corner or edge to solved, by these faces.

    kind: "corner" or "edge". Shape (190080, 24); `UNREACHED` where no turns of these faces do.
    Each step goes on from the rows with new states, or, once they are fewer, looks back from the
    rows that still lack some.
    """
    piece_moves, home = _piece(kind, slot)
    turns = turns_of(faces)
    crosses = {turn: np.ascontiguousarray(cross_moves()[:, turn]) for turn in turns}
    permuted = {turn: _bit_permutation(piece_moves[:, turn]) for turn in turns}
    possible = _possible(kind)
    reached = np.zeros(CROSSES, dtype=np.uint32)
    reached[HOME_CROSS] = 1 << home
    new = reached.copy()
    levels = [new]
    while new.any():
        sources = np.flatnonzero(new)
        targets = np.flatnonzero(reached != possible)
        step = np.zeros_like(reached)
        if len(sources) <= len(targets):
            bits = new.take(sources)
            for turn in turns:
                step[crosses[turn].take(sources)] |= _permute(bits, permuted[turn])
        else:
            gained = np.zeros(len(targets), dtype=np.uint32)
            for turn in turns:
                bits = new.take(crosses[inverse_turn(turn)].take(targets))
                gained |= _permute(bits, permuted[turn])
            step[targets] = gained
        new = step & ~reached
        reached |= new
        levels.append(new)
    return _by_level(levels)


def _piece(kind: str, slot: str) -> tuple[Coordinate, int]:
    if kind == "corner":
        return CORNER_MOVES, HOME_CORNER[slot]
    return EDGE_MOVES, HOME_EDGE[slot]


def _possible(kind: str) -> NDArray[np.uint32]:
    """Shape (190080,): the places that the piece can have beside each cross, as bits."""
    possible = np.full(CROSSES, (1 << PLACES) - 1, dtype=np.uint32)
    if kind == "edge":
        for places in coordinates.cross_places():
            possible &= ~(np.uint32(3) << (places // 2 * 2).astype(np.uint32))
    return possible


_HALF = PLACES // 2


def _bit_permutation(move: Coordinate) -> NDArray[np.uint32]:
    """Shape (2, 4096): what a move of places makes of the lower and the upper twelve bits."""
    bits = (np.arange(1 << _HALF)[:, None] >> np.arange(_HALF)) & 1
    images = (1 << move).reshape(2, _HALF)
    return (images @ bits.T).astype(np.uint32)


def _permute(bits: NDArray[np.uint32], permutation: NDArray[np.uint32]) -> NDArray[np.uint32]:
    lower, upper = permutation
    permuted: NDArray[np.uint32] = lower.take(bits & ((1 << _HALF) - 1), mode="clip")
    permuted |= upper.take(bits >> _HALF, mode="clip")
    return permuted


def _by_level(levels: list[NDArray[np.uint32]]) -> Distances:
    """The level at which each bit is set, shape (190080, 24); `UNREACHED` where it never is."""
    found = np.full((CROSSES, PLACES), UNREACHED, dtype=np.uint8)
    for distance, level in enumerate(levels):
        rows = np.flatnonzero(level)
        octets = level[rows].astype("<u4").view(np.uint8).reshape(-1, 4)
        bits = np.unpackbits(octets, axis=1, count=PLACES, bitorder="little")
        found[rows] += bits * np.uint8((distance - UNREACHED) % 256)  # wraps round to `distance`
    return found


# -- the small tables ----------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class TableBound:
    """The distance of the cross with one piece. table: shape (190080 * 24,)."""

    kind: str
    slot: str
    table: Distances

    def __call__(self, nodes: Nodes) -> Distances:
        """The exact distances of that part."""
        place = nodes.corner(self.slot) if self.kind == "corner" else nodes.edge(self.slot)
        return self.table.take(nodes.cross * np.int32(PLACES) + place, mode="clip")


@dataclass(frozen=True, eq=False)
class CrossBound:
    """The distance of the cross alone. table: shape (190080,)."""

    table: Distances

    def __call__(self, nodes: Nodes) -> Distances:
        """The exact distances of the cross."""
        return self.table.take(nodes.cross, mode="clip")


FEW_FACES_KEPT = 16
"""Tables for fewer than six faces that are kept in memory: two searches of four slots, 73 MB."""
_distances_by_few_faces = lru_cache(maxsize=FEW_FACES_KEPT)(distances)


@dataclass(frozen=True, eq=False)
class PairTables:
    """The cross with one corner and with one edge, for any slot and any faces.

    corner, edge: the distances for FR and all six faces. Those for the other slots are the same
    seen from there, made at their first use and kept; those for fewer faces are built when asked
    for, and the last ones are kept.
    """

    corner: Distances
    edge: Distances
    _made: dict[tuple[str, str], Distances] = field(default_factory=dict, repr=False)

    def bounds(self, slots: tuple[str, ...], faces: str) -> Iterator[Bound]:
        """Two bounds for each slot; that of the cross alone where there is no slot."""
        for slot in slots:
            for kind in KINDS:
                yield TableBound(kind, slot, self.table(kind, slot, faces).reshape(-1))
        if not slots:
            yield CrossBound(self.crosses(faces))

    def table(self, kind: str, slot: str, faces: str) -> Distances:
        """The distances of the cross with a slot's corner or edge, by turns of these faces."""
        if faces != FACES:
            return _distances_by_few_faces(kind, slot, faces)
        home = self.corner if kind == "corner" else self.edge
        if slot == "FR":
            return home
        if (kind, slot) not in self._made:
            self._made[kind, slot] = _seen_from(home, kind, slot)
        return self._made[kind, slot]

    def crosses(self, faces: str) -> Distances:
        """Shape (190080,): the distances of the cross alone, those with the nearest corner."""
        if ("cross", faces) not in self._made:
            self._made["cross", faces] = self.table("corner", "FR", faces).min(axis=1)
        return self._made["cross", faces]


def _seen_from(table: Distances, kind: str, slot: str) -> Distances:
    """The table of a slot, from that of FR."""
    places = CORNER_PLACES if kind == "corner" else EDGE_PLACES
    columns = coordinates.places_seen_from(slot, places)
    return table[:, columns][coordinates.cross_seen_from(slot)]


def build_tables() -> PairTables:
    """The small tables, built from nothing."""
    return PairTables(distances("corner"), distances("edge"))
