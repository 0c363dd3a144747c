"""The day's five as a contest: by turns, without inspection, under the title of its date."""

from __future__ import annotations

from typing import TYPE_CHECKING

from game.deal.five import day_text, five_of
from game.friends.contest import TURNS, Contest, Rules

if TYPE_CHECKING:
    from datetime import date


def day(date: date) -> Contest:
    """The contest of a date. Raises DayError for a date that has none."""
    return Contest(f"Five {day_text(date)}", five_of(date), Rules(by=TURNS, inspection=False))
