"""Near sets as they grow, held against published counts and plain search."""

from __future__ import annotations

import itertools

import pytest

from game.cube.moves import FACE_MOVES
from game.search.growth import Growing, Growth, near_sets
from game.search.near import CROSS_PAIR, PARTS, THREE_EDGES, Part
from game.search.workers import Cancelled
from tests.breadth_first import level_sizes
from tests.search.conftest import SMALL_PARTS
from tests.search.test_near import STICKERS

CROSS_PAIRS_BY_DISTANCE = [
    *(1, 15, 172, 1950, 21535, 220368, 1989591, 13431990, 40963892, 16325184, 36022)
]
"""Computed. Mean and largest are published: forum post of May 2009; L. Vandenbergh, 2026."""


def nothing() -> None:
    """A check that lets everything go on."""


def sizes(part: Part, turns: int) -> list[int]:
    """How many states lie at distance 0, 1, ... up to so many turns."""
    growth = Growth(part)
    found = [growth.states]
    for _ in range(turns):
        before = growth.states
        growth.grow(nothing)
        found.append(growth.states - before)
    return found


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
def test_levels_are_as_large_as_plain_search_finds_them(part: Part) -> None:
    """To four turns, as many states at each distance as a plain breadth-first search counts."""
    assert sizes(part, 4) == level_sizes(STICKERS[part], FACE_MOVES, 4)


def test_crosses_with_a_pair_by_distance() -> None:
    """All 72,990,720 lie as far as is known: 7.976 turns in the mean, 10 at most.

    Mean and largest: forum post of May 2009; L. Vandenbergh, XCross study, 2026.
    """
    found = sizes(CROSS_PAIR, 11)
    assert found == [*CROSS_PAIRS_BY_DISTANCE, 0]
    assert sum(found) == CROSS_PAIR.states
    mean = sum(turns * count for turns, count in enumerate(found)) / sum(found)
    assert round(mean, 3) == 7.976


def test_progress_is_real_and_only_grows() -> None:
    """States, turns and work done never shrink; the largest set is announced, the end near 1."""
    part = SMALL_PARTS[0]
    told: list[Growing] = []
    assert [turns for turns, _ in near_sets(part, told.append)] == [3, 4]
    for one, next_ in itertools.pairwise(told):
        assert (one.turns, one.states) <= (next_.turns, next_.states)
    assert {growing.last for growing in told} == {4}
    assert told[-1].states == sum(CROSS_PAIRS_BY_DISTANCE[:5])
    assert all(0 <= growing.done <= 1 for growing in told)
    assert told[-1].done > 0.9


def test_growing_can_be_cancelled() -> None:
    """Cancelled at once or in the middle of a turn, it ends."""
    for patience in (0, 3, 40):
        asked = iter(range(1000))
        with pytest.raises(Cancelled):
            list(near_sets(THREE_EDGES, cancelled=lambda: next(asked) >= patience))  # noqa: B023
