"""The day's five: five positions that belong to a date, the same for everybody.

They are dealt from the date's text by `game.deal.dice`, so that every machine, version and time
zone deals alike; the date is the player's own and is handed in. The first asks for three turns, the
next ones for more, and the last has two pairs. Each par that is named is proven, not hoped for:
positions are dealt until one has it.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from game.cube.pair import SLOTS
from game.deal.deal import deal_at
from game.deal.dice import Dice
from game.deal.near_par import par_if_near
from game.errors import DayError
from game.play.position import Position

if TYPE_CHECKING:
    from datetime import date

FIRST_DAY, LAST_DAY = "2026-01-01", "2099-12-31"
"""The days that have five positions."""
SEED = "the day's five 1"
"""Stands before the date; its number changes with the way of dealing, which it never should."""


class Step(NamedTuple):
    """What one of the five asks for.

    pairs: in play; open: slots left open; pars: that it may have, None for more than can be
    proven without the large search (`meeting.FARTHEST`).
    """

    pairs: int
    open: int
    pars: tuple[int | None, ...]


STEPS = (
    Step(1, 0, (3,)),
    Step(1, 1, (4, 5)),
    Step(1, 0, (6,)),
    Step(1, 1, (7,)),
    Step(2, 0, (None,)),
)

_DAY = re.compile(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", re.ASCII)


def five_of(date: date) -> tuple[Position, ...]:
    """The five positions of a date. Raises DayError for a date that has none."""
    text = day_text(date)
    dice = Dice(f"{SEED}\n{text}")
    slots = dice.shuffled(SLOTS)
    positions = []
    for at, step in enumerate(STEPS):
        first = at % len(slots)  # so the single pairs come from all four slots
        positions.append(_dealt(step, slots[first:] + slots[:first], dice))
    return tuple(positions)


def _dealt(step: Step, slots: list[str], dice: Dice) -> Position:
    """The first position dealt that the step allows; the first of the slots are in play."""
    in_play, rest = slots[: step.pairs], slots[step.pairs :]
    while True:
        position = deal_at(in_play, rest[: step.open], dice)
        if par_if_near(position) in step.pars:
            return position


# -- dates ---------------------------------------------------------------------------------------


def day_text(date: date) -> str:
    """A date as it is written everywhere here: 2026-11-25. Raises DayError as `five_of` does."""
    text = f"{date.year:04}-{date.month:02}-{date.day:02}"
    if not FIRST_DAY <= text <= LAST_DAY:
        raise DayError(f"there are five positions for each day from {FIRST_DAY} to {LAST_DAY}")
    return text


def is_day(text: str) -> bool:
    """Whether a text is a date that has five positions, as `day_text` writes it."""
    if not _DAY.fullmatch(text) or not FIRST_DAY <= text <= LAST_DAY:
        return False
    year, month, number = map(int, text.split("-"))
    is_leap = year % 4 == 0  # of the years that there are, as the calendar has it
    short = {2: 28 + is_leap, 4: 30, 6: 30, 9: 30, 11: 30}
    return number <= short.get(month, 31)
