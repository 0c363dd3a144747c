"""Nodes of a search tree, in blocks that are expanded together.

A node is a cube as the search sees it: its cross, the corner and edge of each slot to solve, and
the turn that led to it. Its children are reached by the turns that may follow:

* never the same face twice in a row: those two turns would be one;
* of two opposite faces, whose turns commute, F before B, R before L, U before D.

So every set of turns that differ only in the order of neighbouring opposite turns is one line, and
"all shortest solutions" counts it once.

Everything is looked up with `take`. Every index is in range by construction; `mode="clip"` spares
NumPy checking each of them, which takes three times as long.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from game.cube.cube import Cube
from game.cube.geometry import FACES, OPPOSITE
from game.cube.moves import FACE_MOVES, turned_face
from game.search.coordinates import (
    CORNER_MOVES,
    EDGE_MOVES,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
    Coordinate,
    corner_of,
    cross_moves,
    cross_of,
    edge_of,
    turns_of,
)
from game.search.tables import Bound

TURNS = len(FACE_MOVES)
START = TURNS
"""In place of a turn: the node is where the search starts."""

Followers = NDArray[np.bool_]
"""Shape (19, 18): whether a turn may follow a turn, or the start."""


@cache
def followers(faces: str) -> Followers:
    """Which turns of these faces may follow each other."""
    follows = np.zeros((TURNS + 1, TURNS), dtype=bool)
    for turn in turns_of(faces):
        face = turned_face(FACE_MOVES[turn])
        follows[:, turn] = True
        for before in turns_of(face + OPPOSITE[face]):
            earlier = FACES.index(turned_face(FACE_MOVES[before])) < FACES.index(face)
            follows[before, turn] = earlier
    return follows


@dataclass(frozen=True, eq=False)
class Block:
    """n nodes. All arrays have shape (n,).

    corners, edges: by slot; turn: the last turn made, or `START`; parent: row in the block that
    this one was expanded from.
    """

    cross: NDArray[np.int32]
    corners: dict[str, Coordinate]
    edges: dict[str, Coordinate]
    turn: NDArray[np.intp]
    parent: NDArray[np.intp]

    def corner(self, slot: str) -> Coordinate:
        """The places of the slot's corner."""
        return self.corners[slot]

    def edge(self, slot: str) -> Coordinate:
        """The places of the slot's edge."""
        return self.edges[slot]

    def __len__(self) -> int:
        return len(self.cross)


def start(cube: Cube, slots: Sequence[str]) -> Block:
    """One node: the cube, in any grip."""
    return Block(
        np.array([cross_of(cube)], dtype=np.int32),
        {slot: np.array([corner_of(cube, slot)], dtype=np.intp) for slot in slots},
        {slot: np.array([edge_of(cube, slot)], dtype=np.intp) for slot in slots},
        np.array([START], dtype=np.intp),
        np.array([0], dtype=np.intp),
    )


@dataclass(frozen=True, eq=False)
class _AllChildren:
    """Every node after every turn, shape (n, 18); its coordinates are worked out when asked for."""

    parents: Block
    cross: NDArray[np.int32]

    def corner(self, slot: str) -> Coordinate:
        return CORNER_MOVES.take(self.parents.corners[slot], axis=0, mode="clip")

    def edge(self, slot: str) -> Coordinate:
        return EDGE_MOVES.take(self.parents.edges[slot], axis=0, mode="clip")


@dataclass(frozen=True, eq=False)
class Children:
    """Some nodes after some turns. row: of the parent; turn: the turn made; shape (n,) each."""

    parents: Block
    row: NDArray[np.intp]
    turn: NDArray[np.intp]
    cross: NDArray[np.int32]

    def corner(self, slot: str) -> Coordinate:
        """The places of the slot's corner."""
        return self._moved(self.parents.corners[slot], CORNER_MOVES)

    def edge(self, slot: str) -> Coordinate:
        """The places of the slot's edge."""
        return self._moved(self.parents.edges[slot], EDGE_MOVES)

    def _moved(self, places: Coordinate, moves: Coordinate) -> Coordinate:
        return moves.take(places.take(self.row, mode="clip") * TURNS + self.turn, mode="clip")

    def __len__(self) -> int:
        return len(self.row)

    def where(self, keep: NDArray[np.bool_]) -> Children:
        """Those that are kept."""
        return self._only(np.flatnonzero(keep))

    def _only(self, which: NDArray[np.intp]) -> Children:
        return Children(
            self.parents,
            self.row.take(which, mode="clip"),
            self.turn.take(which, mode="clip"),
            self.cross.take(which, mode="clip"),
        )

    def blocks(self, size: int) -> Iterator[Block]:
        """The same nodes as blocks of at most `size`, made one by one."""
        for first in range(0, len(self), size):
            some = self._only(np.arange(first, min(first + size, len(self))))
            yield Block(
                some.cross,
                {slot: some.corner(slot) for slot in self.parents.corners},
                {slot: some.edge(slot) for slot in self.parents.edges},
                some.turn,
                some.row,
            )

    def solved(self) -> Children:
        """Those at the goal."""
        keep = self.cross == HOME_CROSS
        for slot in self.parents.corners:
            keep &= self.corner(slot) == HOME_CORNER[slot]
            keep &= self.edge(slot) == HOME_EDGE[slot]
        return self.where(keep)


def expand(block: Block, follows: Followers, bounds: Sequence[Bound], remaining: int) -> Children:
    """The children that may be at most `remaining` turns away from the goal.

    bounds: at least one; the first is looked up for all children, each of the others for those
    that the ones before have left.
    """
    crosses = cross_moves().take(block.cross, axis=0, mode="clip")
    keep = bounds[0](_AllChildren(block, crosses)) <= remaining
    keep &= follows.take(block.turn, axis=0, mode="clip")
    child = np.flatnonzero(keep)
    row = child // TURNS
    children = Children(block, row, child - row * TURNS, crosses.take(child, mode="clip"))
    for bound in bounds[1:]:
        if not len(children):
            break
        keep = bound(children) <= remaining
        if not keep.all():
            children = children.where(keep)
    return children
