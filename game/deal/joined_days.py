"""Days in a row: side by side without a gap, as the two pieces of a pair are joined."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple


class Played(NamedTuple):
    """A day whose five were all played, and the date on which the last was; as day numbers."""

    day: int
    on: int


class Joined(NamedTuple):
    """Days that follow each other without a gap: up to now, and the most there ever were."""

    now: int
    most: int


GRACE = 1
"""Days after its own on which a day's five still join it to the day before."""


def counted_days(played: Iterable[Played], today: int) -> frozenset[int]:
    """The days that count: those whose five were played on their own date, or the day after."""
    return frozenset(p.day for p in played if 0 <= p.on - p.day <= GRACE and p.day <= today)


def joined_days(played: Iterable[Played], today: int) -> Joined:
    """How many days are joined, as a pair is: side by side, with no gap between them.

    An evening missed can be made good the day after. What is joined up to now may end at the day
    before yesterday: today and yesterday can still be played.
    """
    counted = counted_days(played, today)
    runs: dict[int, int] = {}
    for number in sorted(counted):
        runs[number] = runs.get(number - 1, 0) + 1
    last = max(counted, default=today)
    now = runs.get(last, 0) if last >= today - GRACE - 1 else 0
    return Joined(now, max(runs.values(), default=0))
