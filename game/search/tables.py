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

from game.cube import geometry, symmetry
from game.cube.geometry import FACES
from game.cube.pair import CROSS_EDGES, SLOTS
from game.search.coordinates import (
    CORNER_MOVES,
    CROSSES,
    EDGE_MOVES,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
    PLACES,
    SLOT_HOMES,
    Coordinate,
    Numbers,
    corner_fours,
    edge_four_moves,
    edge_fours,
    inverse_turn,
    turns_of,
)
from game.search.masks import EVERY, Masks, mask_move, moved, unpacked

Distances = NDArray[np.uint8]
"""Turns to solved. Of a table: shape (190080, 24), cross by place."""
UNREACHED = 255
"""The distance of what is no state, or cannot be solved by the faces allowed."""
KINDS = ("corner", "edge")
"""What a table joins to the cross."""


class Nodes(Protocol):
    """The numbers of many nodes, all of one shape, worked out when asked for."""

    @property
    def cross(self) -> Numbers:
        """The crosses."""

    @property
    def corners(self) -> Numbers:
        """The slots' corners."""

    @property
    def edges(self) -> Numbers:
        """The slots' edges."""

    def place(self, kind: str, slot: str) -> NDArray[np.uint8]:
        """The places of the slot's corner or edge; cheaper than all four, if no more is asked."""


class Bound(Protocol):
    """Something known of how far nodes are from the goal at least."""

    @property
    def reach(self) -> int:
        """The most turns for which it ever says that a node is farther."""

    def within(self, nodes: Nodes, turns: int) -> NDArray[np.bool_]:
        """Whether each node may be at most so many turns from the goal, in the nodes' shape."""


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
    crosses = {turn: np.ascontiguousarray(edge_four_moves()[:, turn]) for turn in turns}
    permuted = {turn: mask_move(piece_moves[:, turn]) for turn in turns}
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
                step[crosses[turn].take(sources)] |= moved(bits, permuted[turn])
        else:
            gained = np.zeros(len(targets), dtype=np.uint32)
            for turn in turns:
                bits = new.take(crosses[inverse_turn(turn)].take(targets))
                gained |= moved(bits, permuted[turn])
            step[targets] = gained
        new = step & ~reached
        reached |= new
        levels.append(new)
    return _by_level(levels)


def _piece(kind: str, slot: str) -> tuple[Coordinate, int]:
    if kind == "corner":
        return CORNER_MOVES, HOME_CORNER[slot]
    return EDGE_MOVES, HOME_EDGE[slot]


def _possible(kind: str) -> Masks:
    """Shape (190080,): the places that the piece can have beside each cross, as bits."""
    possible = np.full(CROSSES, EVERY, dtype=np.uint32)
    if kind == "edge":
        for places in edge_fours().places:
            possible &= ~(np.uint32(3) << (places // 2 * 2).astype(np.uint32))
    return possible


def _by_level(levels: list[Masks]) -> Distances:
    """The level at which each bit is set, shape (190080, 24); `UNREACHED` where it never is."""
    found = np.full((CROSSES, PLACES), UNREACHED, dtype=np.uint8)
    for distance, level in enumerate(levels):
        rows = np.flatnonzero(level)
        bits = unpacked(level[rows])
        found[rows] += bits * np.uint8((distance - UNREACHED) % 256)  # wraps round to `distance`
    return found


# -- the small tables ----------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class TableBound:
    """The distance of the cross with one piece. table: shape (190080 * 24,)."""

    kind: str
    slot: str
    table: Distances
    reach: int

    def within(self, nodes: Nodes, turns: int) -> NDArray[np.bool_]:
        """Whether that part is at most so many turns from solved."""
        state = nodes.cross * np.int32(PLACES)
        state += nodes.place(self.kind, self.slot)
        return self.table.take(state, mode="clip") <= turns


@dataclass(frozen=True, eq=False)
class CrossBound:
    """The distance of the cross alone. table: shape (190080,)."""

    table: Distances
    reach: int

    def within(self, nodes: Nodes, turns: int) -> NDArray[np.bool_]:
        """Whether the cross is at most so many turns from solved."""
        return self.table.take(nodes.cross, mode="clip") <= turns


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
    _reaches: dict[tuple[str, str, str], int] = field(default_factory=dict, repr=False)

    def bounds(self, slots: tuple[str, ...], faces: str) -> Iterator[Bound]:
        """Two bounds for each slot; that of the cross alone where there is no slot."""
        for slot in slots:
            for kind in KINDS:
                table = self.table(kind, slot, faces).reshape(-1)
                yield TableBound(kind, slot, table, self._reach(kind, slot, faces))
        if not slots:
            crosses = self.crosses(faces)
            yield CrossBound(crosses, _reach(crosses))

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

    def _reach(self, kind: str, slot: str, faces: str) -> int:
        same = "FR" if faces == FACES else slot  # with all faces the slots are alike
        if (kind, same, faces) not in self._reaches:
            self._reaches[kind, same, faces] = _reach(self.table(kind, same, faces))
        return self._reaches[kind, same, faces]

    def crosses(self, faces: str) -> Distances:
        """Shape (190080,): the distances of the cross alone, those with the nearest corner."""
        if ("cross", faces) not in self._made:
            self._made["cross", faces] = self.table("corner", "FR", faces).min(axis=1)
        return self._made["cross", faces]


def _reach(table: Distances) -> int:
    """One less than the largest distance of all states that can be solved."""
    return int(table.max(where=table != UNREACHED, initial=0)) - 1


def _seen_from(table: Distances, kind: str, slot: str) -> Distances:
    """The table of a slot, from that of FR: the same cube, turned until the slot is at FR."""
    turned = geometry.transpose(symmetry.to_slot(slot))
    fours, homes = corner_fours() if kind == "corner" else edge_fours(), SLOT_HOMES[kind]
    places = next(to for known, to in fours.carried(turned, homes) if SLOTS[known] == slot)
    crosses = edge_fours().seen_by(turned, CROSS_EDGES)
    return table[:, places][crosses]


def build_tables() -> PairTables:
    """The small tables, built from nothing."""
    return PairTables(distances("corner"), distances("edge"))
