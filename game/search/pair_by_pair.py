"""The best total when pairs are solved one after another, as people play.

*Pair by pair* means: each step solves one pair more, and at its end all pairs solved before are
solved again, and so is the cross. Each step is a shortest one: it takes no more turns than solving
this pair beside those needs from there. Over all orders of the pairs and all shortest ways of each
step, the total is the least that can come out. (A step one turn longer than need be can make a
later step more than one turn shorter; such ways are left out, so par may be far below, and other
ways of playing pair by pair may be, too.) Where the cross is not solved, it is the first step.

All of it is tried, step by step for all orders together. Two ways that leave the same pairs solved
and the pieces of the others in the same places are alike from there on, so only the shorter is gone
on with. Which ways a step has depends on what is solved already and on where the two pieces of the
next pair lie, so that each such case is searched once, and those of one step all together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from game.cube import pair
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.pair import SLOTS
from game.search.coordinates import (
    FACE_TURNS,
    HOME_CROSS,
    PLACES,
    Coordinate,
    Numbers,
    corner_four_moves,
    edge_four_moves,
)
from game.search.nodes import START, Block, joined, start
from game.search.outcome import Stopped
from game.search.tables import Tables
from game.search.together import NO_TURN, Turns, Ways, filled, line_of, ways
from game.search.workers import Cancelled


@dataclass(frozen=True)
class PairByPair:
    """The best total, and one way to come to it.

    total: turns; order: the slots in the order in which they are solved; steps: a line for each,
    by centres, one before the next; cross: the line that solves the cross, where it was not solved.
    """

    total: int
    order: tuple[str, ...]
    steps: tuple[Line, ...]
    cross: Line


Found = PairByPair | Stopped


def pair_by_pair(
    cube: Cube,
    solve: Iterable[str],
    *,
    tables: Tables,
    cancelled: Callable[[], bool] | None = None,
) -> Found:
    """The best total for solving these slots' pairs one after another, all faces turning.

    cube: in any grip; cancelled: asked often, every 0.2 s or less. Stopped when it says so.
    Raises PositionError for a word that is no slot.
    """
    slots = pair.parse_slots(",".join(solve))
    done = tuple(slot for slot in slots if pair.is_pair_solved(cube, slot))
    try:
        return _Steps(slots, tables, cancelled or _never).best(start(cube), done)
    except Cancelled:
        return Stopped(0)


def _never() -> bool:
    return False


Done = tuple[str, ...]
"""The slots whose pairs are solved, in the order of `SLOTS`."""


@dataclass(frozen=True, eq=False)
class _Stands:
    """The different ways to stand with the same pairs solved. All arrays have shape (n, ...).

    nodes: where the pieces lie; cost: turns up to here; before: the number in `came` of the pairs
    that were solved one step ago, row: where among the stands with those; turns: of that step.
    """

    nodes: Block
    cost: Numbers
    before: Numbers
    row: Coordinate
    turns: Turns
    came: tuple[Done, ...]


class _Steps:
    """All steps of all orders."""

    def __init__(
        self, slots: tuple[str, ...], tables: Tables, cancelled: Callable[[], bool]
    ) -> None:
        self._slots = slots
        self._tables = tables
        self._cancelled = cancelled
        self._reached: dict[Done, list[_Stands]] = {}
        self._stands: dict[Done, _Stands] = {}

    def best(self, root: Block, done: Done) -> PairByPair:
        """The best total from a node where these pairs are solved."""
        crosses = ways(root, done, self._tables, self._cancelled)
        nothing = np.zeros(1, dtype=np.int32)
        begin = _Stands(root, nothing, nothing, nothing.astype(np.intp), crosses.turns[:0], ())
        self._reach(done, begin, (), crosses, np.zeros(1, dtype=np.intp))
        open_ = [slot for slot in self._slots if slot not in done]
        for count in range(len(open_) + 1):
            for more in combinations(open_, count):
                here = _in_order((*done, *more))
                self._stands[here] = self._merged(here)
                for slot in open_:
                    if slot not in more:
                        self._step(here, slot)
        return self._told(done)

    def _step(self, done: Done, slot: str) -> None:
        """Solve this pair next, from all stands with those pairs solved."""
        stands = self._stands[done]
        nodes = stands.nodes
        lies = nodes.place("corner", slot).astype(np.int32) * PLACES + nodes.place("edge", slot)
        _, first, case = np.unique(lies, return_index=True, return_inverse=True)
        goal = _in_order((*done, slot))
        found = ways(nodes.part(first), goal, self._tables, self._cancelled)
        self._reach(goal, stands, done, found, case)

    def _reach(
        self, goal: Done, stands: _Stands, done: Done, found: Ways, case: Coordinate
    ) -> None:
        """Go each way from each stand. case: shape (stands,), which of the ways' nodes it is."""
        counts = np.bincount(found.node, minlength=len(found.pars))
        firsts = np.cumsum(counts) - counts
        if set(goal) >= set(self._slots):  # nothing comes after: one way is as good as another
            counts = np.ones_like(counts)
        times = counts[case]
        row = np.repeat(np.arange(len(case)), times)
        number = np.arange(len(row)) - np.repeat(np.cumsum(times) - times, times)
        turns = found.turns[firsts[case[row]] + number]
        nodes = _after(stands.nodes.part(row), turns)
        cost = stands.cost[row] + found.pars[case[row]]
        reached = _Stands(nodes, cost, np.zeros_like(cost), row, turns, (done,))
        self._reached.setdefault(goal, []).append(self._least(goal, reached))

    def _merged(self, done: Done) -> _Stands:
        """The stands with these pairs solved, from wherever they were reached."""
        parts = self._reached.pop(done)
        longest = max(part.turns.shape[1] for part in parts)
        together = _Stands(
            joined([part.nodes for part in parts]),
            np.concatenate([part.cost for part in parts]),
            np.repeat(np.arange(len(parts), dtype=np.int32), [len(part.row) for part in parts]),
            np.concatenate([part.row for part in parts]),
            np.concatenate([filled(part.turns, longest) for part in parts]),
            tuple(part.came[0] for part in parts),
        )
        return self._least(done, together)

    def _least(self, done: Done, stands: _Stands) -> _Stands:
        """Of stands in which the pieces still to come lie alike, the one with the fewest turns."""
        lies = np.zeros(len(stands.cost), dtype=np.int64)
        for slot in self._slots:
            if slot not in done:
                for kind in ("corner", "edge"):
                    lies = lies * PLACES + stands.nodes.place(kind, slot)
        order = np.lexsort((stands.cost, lies))
        kept = order[np.diff(lies[order], prepend=-1) != 0]
        return _Stands(
            stands.nodes.part(kept),
            stands.cost[kept],
            stands.before[kept],
            stands.row[kept],
            stands.turns[kept],
            stands.came,
        )

    def _told(self, begun: Done) -> PairByPair:
        """The best of all, back from the end."""
        done, row = _in_order((*begun, *self._slots)), 0
        total = int(self._stands[done].cost[0])
        order: list[str] = []
        steps: list[Line] = []
        while done != begun:
            stands = self._stands[done]
            before = stands.came[stands.before[row]]
            order.extend(set(done) - set(before))
            steps.append(line_of(stands.turns[row]))
            done, row = before, int(stands.row[row])
        cross = line_of(self._stands[begun].turns[row])
        return PairByPair(total, tuple(reversed(order)), tuple(reversed(steps)), cross)


def _in_order(slots: Iterable[str]) -> Done:
    wanted = set(slots)
    return tuple(slot for slot in SLOTS if slot in wanted)


def _after(nodes: Block, turns: Turns) -> Block:
    """Each node after the turns of its own row."""
    corners, edges = nodes.corners.copy(), nodes.edges.copy()
    corner_moves, edge_moves = corner_four_moves().reshape(-1), edge_four_moves().reshape(-1)
    for turn in turns.T:
        rows = np.flatnonzero(turn != NO_TURN)
        made = turn[rows].astype(np.intp)
        corners[rows] = corner_moves.take(corners[rows].astype(np.intp) * FACE_TURNS + made)
        edges[rows] = edge_moves.take(edges[rows].astype(np.intp) * FACE_TURNS + made)
    count = len(corners)
    return Block(
        np.full(count, HOME_CROSS, dtype=np.int32),
        corners,
        edges,
        np.full(count, START, dtype=np.int8),
        np.zeros(count, dtype=np.int32),
    )
