"""Nodes of a search tree, in blocks that are expanded together.

A node is a cube as the search sees it, three numbers: its cross, the slots' corners and the slots'
edges; and the turn that led to it. Its children are reached by the turns that may follow:

* never the same face twice in a row: those two turns would be one;
* of two opposite faces, whose turns commute, F before B, R before L, U before D.

So every set of turns that differ only in the order of neighbouring opposite turns is one line, and
"all shortest solutions" counts it once.

Every node after each of the 18 turns makes a grid of cells, shape (n, 18): the numbers of a whole
row of cells lie side by side in the tables of moves, and are copied from there at once.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache, cached_property
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from game.cube.cube import Cube
from game.cube.geometry import FACES, OPPOSITE
from game.cube.moves import FACE_MOVES, turned_face
from game.cube.pair import SLOTS
from game.search.coordinates import (
    CORNER_MOVES,
    EDGE_MOVES,
    FACE_TURNS,
    HOME_CROSS,
    SLOT_HOMES,
    Coordinate,
    Numbers,
    corner_four_moves,
    corner_fours,
    corners_of,
    cross_of,
    edge_four_moves,
    edge_fours,
    edges_of,
    turns_of,
)

T = TypeVar("T", np.int32, np.uint8)

START = FACE_TURNS
"""In place of a turn: the node is where the search starts."""

Places = NDArray[np.uint8]
"""Places (0..23) of one piece in many nodes."""
Followers = NDArray[np.bool_]
"""Shape (19, 18): whether a turn may follow a turn, or the start."""


@cache
def followers(faces: str) -> Followers:
    """Which turns of these faces may follow each other."""
    follows = np.zeros((FACE_TURNS + 1, FACE_TURNS), dtype=bool)
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

    turn: the last turn made, or `START`; parent: row in the block that this one comes from.
    """

    cross: Numbers
    corners: Numbers
    edges: Numbers
    turn: NDArray[np.int8]
    parent: Numbers

    def __len__(self) -> int:
        return len(self.cross)

    def place(self, kind: str, slot: str) -> Places:
        """The places of the slot's corner or edge."""
        if kind == "corner":
            fours, four = corner_fours(), self.corners
        else:
            fours, four = edge_fours(), self.edges
        places: Places = fours.places[SLOTS.index(slot)].take(four, mode="clip")
        return places

    def part(self, rows: slice | Coordinate | NDArray[np.bool_]) -> Block:
        """Some of them."""
        return Block(
            self.cross[rows],
            self.corners[rows],
            self.edges[rows],
            self.turn[rows],
            self.parent[rows],
        )

    def parts(self, size: int) -> Iterator[tuple[int, Block]]:
        """All of them, at most `size` at a time, each with the row of its first."""
        for first in range(0, len(self), size):
            yield first, self.part(slice(first, first + size))


def start(cube: Cube) -> Block:
    """One node: the cube, in any grip."""
    numbers = (cross_of(cube), corners_of(cube), edges_of(cube))
    cross, corners, edges = (np.array([number], dtype=np.int32) for number in numbers)
    return Block(cross, corners, edges, np.array([START], np.int8), np.array([0], np.int32))


def joined(blocks: Sequence[Block]) -> Block:
    """Blocks one after the other; at least one."""
    if len(blocks) == 1:
        return blocks[0]
    return Block(
        np.concatenate([block.cross for block in blocks]),
        np.concatenate([block.corners for block in blocks]),
        np.concatenate([block.edges for block in blocks]),
        np.concatenate([block.turn for block in blocks]),
        np.concatenate([block.parent for block in blocks]),
    )


_PLACE_MOVES = {"corner": CORNER_MOVES.astype(np.uint8), "edge": EDGE_MOVES.astype(np.uint8)}
_MOVES: dict[str, Callable[[], Numbers]] = {
    "cross": edge_four_moves,
    "corners": corner_four_moves,
    "edges": edge_four_moves,
}


class _Lazy(ABC):
    """Numbers of nodes that are worked out at their first use. made: those that are."""

    made: dict[str, Numbers]

    @property
    def cross(self) -> Numbers:
        """The crosses."""
        return self._numbers("cross")

    @property
    def corners(self) -> Numbers:
        """The slots' corners."""
        return self._numbers("corners")

    @property
    def edges(self) -> Numbers:
        """The slots' edges."""
        return self._numbers("edges")

    def _numbers(self, name: str) -> Numbers:
        if name not in self.made:
            self.made[name] = self._worked_out(name)
        return self.made[name]

    @abstractmethod
    def _worked_out(self, name: str) -> Numbers:
        """These numbers, once they are asked for."""


@dataclass(frozen=True, eq=False)
class Cells(_Lazy):
    """The nodes of a block after every turn, shape (n, 18), numbered row by row."""

    parents: Block
    made: dict[str, Numbers] = field(default_factory=dict, repr=False)

    def place(self, kind: str, slot: str) -> Places:
        """The places of the slot's corner or edge."""
        return _PLACE_MOVES[kind].take(self.parents.place(kind, slot), axis=0, mode="clip")

    def _worked_out(self, name: str) -> Numbers:
        before: Numbers = getattr(self.parents, name)
        return _MOVES[name]().take(before, axis=0, mode="clip")


FEW = 1 / 6
"""The part of the cells up to which numbers are looked up one by one, not by rows."""


@dataclass(frozen=True, eq=False)
class Children(_Lazy):
    """Some of the cells. cell: their numbers, shape (n,), growing."""

    cells: Cells
    cell: Coordinate
    made: dict[str, Numbers] = field(default_factory=dict, repr=False)

    @cached_property
    def row(self) -> Coordinate:
        """The rows of their parents."""
        return self.cell // FACE_TURNS

    @cached_property
    def turn(self) -> Coordinate:
        """The turns that led to them."""
        return self.cell - self.row * FACE_TURNS

    def _worked_out(self, name: str) -> Numbers:
        few = len(self) < FEW * FACE_TURNS * len(self.cells.parents)
        if few and name not in self.cells.made:
            before: Numbers = getattr(self.cells.parents, name)
            return self._after(before, _MOVES[name]())
        numbers: Numbers = getattr(self.cells, name)
        return numbers.reshape(-1).take(self.cell, mode="clip")

    def place(self, kind: str, slot: str) -> Places:
        """The places of the slot's corner or edge."""
        return self._after(self.cells.parents.place(kind, slot), _PLACE_MOVES[kind])

    def _after(self, before: NDArray[T], moves: NDArray[T]) -> NDArray[T]:
        """What a number or place of the parents becomes. before: shape (n,); moves: (m, 18)."""
        move = before.take(self.row, mode="clip").astype(np.intp) * FACE_TURNS + self.turn
        return moves.reshape(-1).take(move, mode="clip")

    def __len__(self) -> int:
        return len(self.cell)

    def where(self, keep: NDArray[np.bool_]) -> Children:
        """Those that are kept."""
        rows = np.flatnonzero(keep)
        if len(rows) == len(self):
            return self
        made = {name: numbers.take(rows, mode="clip") for name, numbers in self.made.items()}
        return Children(self.cells, self.cell.take(rows, mode="clip"), made)

    def block(self, first: int = 0) -> Block:
        """The same as nodes. first: added to the rows of their parents."""
        parent = (self.row + first).astype(np.int32)
        return Block(self.cross, self.corners, self.edges, self.turn.astype(np.int8), parent)


@dataclass(frozen=True, eq=False)
class Goal:
    """The cross and some slots solved. corners, edges: whether each arrangement has them home."""

    corners: NDArray[np.bool_]
    edges: NDArray[np.bool_]

    def reached(self, block: Block) -> Coordinate:
        """The rows of the nodes at the goal."""
        rows = np.flatnonzero(block.cross == HOME_CROSS)
        at_home = self.corners.take(block.corners[rows]) & self.edges.take(block.edges[rows])
        return rows[at_home]


@cache
def goal(slots: tuple[str, ...]) -> Goal:
    """The cross and these slots solved."""
    at_home = []
    for fours, kind in ((corner_fours(), "corner"), (edge_fours(), "edge")):
        home = np.ones(fours.count, dtype=bool)
        for slot in slots:
            row = SLOTS.index(slot)
            home &= fours.places[row] == fours.stickers.index(SLOT_HOMES[kind][row])
        at_home.append(home)
    return Goal(*at_home)
