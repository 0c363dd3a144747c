"""All states that the turns of few faces can reach, by breadth-first search with merging.

A state is the cross and the pairs to solve, as one whole number. Turns are undone by turns, so a
step from one level leads back to the level before, stays, or leads on; two levels are enough to
tell what is new.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from game.search.coordinates import (
    CORNER_MOVES,
    EDGE_MOVES,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
    PLACES,
    cross_moves,
)
from game.search.nodes import Block

MAX_STATES = 500_000
"""States that are kept before the search gives up: at most 100 MB."""

Numbers = NDArray[np.int64]


@dataclass(frozen=True)
class Reached:
    """What was seen. states: how many; exhausted: these are all; goal_at: turns to the goal, if
    it was seen; none_up_to: no solution has so many turns or fewer.
    """

    states: int
    exhausted: bool
    goal_at: int | None
    none_up_to: int


def reach(start: Block, turns: list[int], check: Callable[[], None]) -> Reached:
    """Goes on until the goal is seen, all states are, or there are more than `MAX_STATES`.

    start: one node; check: called often, may raise to stop.
    """
    slots = tuple(start.corners)
    goal = _goal(slots)
    before: Numbers = np.empty(0, dtype=np.int64)
    level = _numbers(start)
    states, depth = 1, 0
    while len(level):
        if goal in level:
            return Reached(states, False, depth, depth - 1)
        if states > MAX_STATES:
            return Reached(states, False, None, depth)
        found = []
        for turn in turns:
            check()
            found.append(np.unique(_turned(level, slots, turn)))
        after = np.unique(np.concatenate(found))
        after = after[~np.isin(after, level) & ~np.isin(after, before)]
        before, level = level, after
        states += len(level)
        depth += 1
    return Reached(states, True, None, depth - 1)


def _goal(slots: tuple[str, ...]) -> int:
    number = HOME_CROSS
    for slot in slots:
        number = (number * PLACES + HOME_CORNER[slot]) * PLACES + HOME_EDGE[slot]
    return number


def _numbers(block: Block) -> Numbers:
    number = block.cross.astype(np.int64)
    for slot in block.corners:
        number = (number * PLACES + block.corners[slot]) * PLACES + block.edges[slot]
    return number


def _turned(numbers: Numbers, slots: tuple[str, ...], turn: int) -> Numbers:
    """The states after a turn. Read from the last digit to the first."""
    turned = np.zeros_like(numbers)
    unit = 1
    for _ in slots:
        for moves in (EDGE_MOVES, CORNER_MOVES):
            numbers, place = np.divmod(numbers, PLACES)
            turned += moves[place, turn] * unit
            unit *= PLACES
    turned += cross_moves()[numbers, turn].astype(np.int64) * unit
    return turned
