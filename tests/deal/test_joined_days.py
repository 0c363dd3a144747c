"""Days in a row."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.deal.joined_days import Joined, Played, joined_days


@pytest.mark.parametrize(
    ("played", "joined"),
    [
        ([], (0, 0)),
        ([(100, 100)], (1, 1)),
        ([(98, 98), (99, 99), (100, 100)], (3, 3)),
        ([(98, 98), (99, 99)], (2, 2)),  # today is still to come
        ([(97, 97), (98, 98)], (2, 2)),  # yesterday can still be made good
        ([(96, 96), (97, 97)], (0, 2)),  # too late
        ([(98, 98), (99, 100), (100, 100)], (3, 3)),  # made good the day after
        ([(98, 98), (99, 101), (100, 100)], (1, 1)),  # two days late joins nothing
        ([(100, 99)], (0, 0)),  # played before its day: a clock put back
        ([(101, 101)], (0, 0)),  # a day that is still to come
        ([(90, 90), (91, 91), (92, 92), (100, 100)], (1, 3)),
        ([(100, 100), (99, 99), (100, 100)], (2, 2)),  # order and repetition do not matter
    ],
)
def test_joined_days(played: list[tuple[int, int]], joined: tuple[int, int]) -> None:
    """Seen from day 100."""
    assert joined_days((Played(*p) for p in played), 100) == Joined(*joined)


@given(st.sets(st.integers(0, 60)))
def test_joined_days_follow_from_any_days(days: set[int]) -> None:
    """The most is the longest stretch without a gap, counted plainly."""
    longest = max(
        (n for start in days for n in range(1, 62) if set(range(start, start + n)) <= days),
        default=0,
    )
    assert joined_days((Played(d, d) for d in days), 60).most == longest
