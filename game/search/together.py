"""Many short searches at once: every shortest way from each of many nodes to one goal.

A search of one pair looks at so few nodes that most of its time goes into calling NumPy. So nodes
with the same goal are searched together, by the same deepening as in `game.search.shortest`: at
each length those that may be so near are the roots of one tree; those solved drop out. All faces
may turn, so every one of them comes to its end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import FACE_MOVES
from game.search.coordinates import Coordinate
from game.search.nodes import Block, Goal, followers, goal, joined
from game.search.sieve import Sieve
from game.search.tables import Bound, Tables
from game.search.workers import Cancelled

BLOCK = 1 << 12
"""Nodes that are expanded together at most."""
PIECE = 1 << 14
"""Nodes whose children are put together at most."""
NO_TURN = -1
"""In place of a turn, after the end of a way."""

Turns = NDArray[np.int8]
"""Ways, one a row: numbers of turns, shape (n, longest), filled up with `NO_TURN`."""


@dataclass(frozen=True, eq=False)
class Ways:
    """Every shortest way of many nodes.

    pars: shape (nodes,), turns of a shortest way; node: shape (ways,), which one each way is of,
    growing; turns: the ways.
    """

    pars: NDArray[np.int8]
    node: Coordinate
    turns: Turns


def line_of(turns: NDArray[np.int8]) -> Line:
    """A row of `Ways.turns`."""
    return tuple(FACE_MOVES[turn] for turn in turns if turn != NO_TURN)


def ways(
    nodes: Block, slots: tuple[str, ...], tables: Tables, cancelled: Callable[[], bool]
) -> Ways:
    """The shortest ways from each node to where the cross and these slots are solved.

    cancelled: asked often, every 0.2 s or less. Raises Cancelled when it says so.
    """
    tree = _Tree(goal(slots), list(tables.bounds(slots, FACES)), cancelled)
    pars = np.full(len(nodes), -1, dtype=np.int8)
    pars[tree.goal.reached(nodes)] = 0
    found = [(np.flatnonzero(pars == 0), np.zeros((np.count_nonzero(pars == 0), 0), np.int8))]
    length = 0
    while (pars < 0).any():
        length += 1
        open_ = np.flatnonzero(pars < 0)
        for rows, turns in tree.ways(nodes.part(open_), length):
            found.append((open_[rows], turns))
            pars[open_[rows]] = length
    node = np.concatenate([rows for rows, _ in found])
    order = np.argsort(node, kind="stable")
    turns = np.concatenate([filled(turns, length) for _, turns in found])
    return Ways(pars, node[order], turns[order])


def filled(turns: Turns, length: int) -> Turns:
    """The same ways in rows of so many turns."""
    return np.pad(turns, ((0, 0), (0, length - turns.shape[1])), constant_values=NO_TURN)


class _Tree:
    """The lines from many roots. cancelled: see `ways`."""

    def __init__(self, goal_: Goal, bounds: list[Bound], cancelled: Callable[[], bool]) -> None:
        self.goal = goal_
        self._sieve = Sieve(followers(FACES), bounds)
        self._cancelled = cancelled

    def ways(self, roots: Block, length: int) -> Iterator[tuple[Coordinate, Turns]]:
        """The ways of exactly so many turns, some at a time, with the rows of their roots."""
        near = np.ones(len(roots), dtype=bool)
        for bound in self._sieve.bounds:
            if bound.reach >= length:
                near &= bound.within(roots, length)
        rows = np.flatnonzero(near)
        for first, part in roots.part(rows).parts(PIECE):
            for found, turns in self._below(part, length, ()):
                yield rows[first + found], turns

    def _below(
        self, block: Block, remaining: int, above: tuple[Block, ...]
    ) -> Iterator[tuple[Coordinate, Turns]]:
        """The same for the nodes of a block. above: the pieces from which it comes."""
        for _, piece in block.parts(PIECE):
            children = self._children(piece, remaining - 1)
            if remaining > 1:
                if len(children):
                    yield from self._below(children, remaining - 1, (*above, piece))
                continue
            rows = self.goal.reached(children)
            if len(rows):
                yield _traced(children, rows, (*above, piece))

    def _children(self, piece: Block, turns: int) -> Block:
        """The children of a piece that may be at most so many turns from the goal."""
        found = []
        for row, block in piece.parts(BLOCK):
            if self._cancelled():
                raise Cancelled
            found.append(self._sieve.sift(block, turns).block(row))
        return joined(found)


def _traced(
    children: Block, rows: Coordinate, above: tuple[Block, ...]
) -> tuple[Coordinate, Turns]:
    """The roots of some children of the last piece, and the turns that lead to them."""
    turns = np.empty((len(rows), len(above)), dtype=np.int8)
    for column in reversed(range(len(above))):
        block = children if column == len(above) - 1 else above[column + 1]
        turns[:, column] = block.turn[rows]
        rows = block.parent[rows].astype(np.intp)
    return rows, turns
