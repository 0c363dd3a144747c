"""A contest as far as one player has played it, and the text that the records keep of it.

Each position is played once, in order. What was seen cannot be unseen: when a position is first
shown, that moment is kept, and if it is left before its end its clock is taken to have run on.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from game.deal.five import is_day
from game.errors import ContestError, PairwrightError
from game.friends.codes import Addressed, invite_code, key, read_invite
from game.friends.contest import Card, Contest
from game.play.result import Result

_FORMAT = 1
LONGEST = 3 * 24 * 3600
"""Seconds for which a clock is taken to have run on at most: three days."""
LATEST = 2**40
"""Seconds since 1970 that are taken for a moment at most."""


class ContestTry(NamedTuple):
    """A result at a position (its text), as the records give it back."""

    position: str
    result: Result


@dataclass(frozen=True)
class ContestProgress:
    """A contest and the player's results, of its positions in order.

    day: the date, where it is a day's five; begun: when the next position was first shown, in
    seconds since 1970, or None. Raises ContestError for more results than positions.
    """

    contest: Contest
    day: str = ""
    results: tuple[Result, ...] = ()
    begun: int | None = None

    def __post_init__(self) -> None:
        if len(self.results) > len(self.contest.positions):
            raise ContestError("more results than positions")

    @property
    def kind(self) -> str:
        """What its cards name it by: the date of a day's five, else the contest's key."""
        return self.day or key(self.contest)

    @property
    def number(self) -> int:
        """How many positions are played; the next one, counted from 0."""
        return len(self.results)

    @property
    def is_finished(self) -> bool:
        """Whether every position is played."""
        return self.number == len(self.contest.positions)

    def beginning(self, now: int) -> ContestProgress:
        """Once the next position is shown; the first time counts. now: seconds since 1970."""
        return self if self.begun is not None else replace(self, begun=now)

    def gone(self, now: int) -> int:
        """Seconds since the next position was first shown, `LONGEST` at most; 0 if it was not."""
        return 0 if self.begun is None else min(max(0, now - self.begun), LONGEST)

    def after(self, result: Result) -> ContestProgress:
        """After the next position has been played."""
        return replace(self, results=(*self.results, result), begun=None)

    def card(self, name: str) -> Addressed:
        """The player's card. Raises ContestError before the end, and for a name that cannot be."""
        if not self.is_finished:
            raise ContestError("a card is for a contest that is played to its end")
        return Addressed(self.kind, Card(name, self.results))

    def own_card(self, name: str) -> tuple[Card, ...]:
        """The card for standings seen by the player alone, once all is played; else none."""
        return (Card(name or "you", self.results),) if self.is_finished else ()


def progress_text(entered: ContestProgress) -> str:
    """What is kept besides the attempts."""
    begun = None if entered.begun is None else [entered.number, entered.begun]
    kept = {
        "format": _FORMAT,
        "invite": invite_code(entered.contest),
        "day": entered.day,
        "begun": begun,
    }
    return json.dumps(kept, separators=(",", ":"))


def progress_of(text: str, tries: Iterable[ContestTry] = ()) -> ContestProgress:
    """The same again, with the attempts, the oldest first; one that does not follow is passed over.

    Raises ContestError for any other text.
    """
    try:
        entered, begun = _read(json.loads(text))
    except (ValueError, TypeError, LookupError, AttributeError, RecursionError) as fault:
        problem = str(fault) if isinstance(fault, PairwrightError) else "no text of a contest"
        raise ContestError(problem) from None
    for position, result in tries:
        follows = not entered.is_finished
        if follows and entered.contest.positions[entered.number].text == position:
            entered = entered.after(result)
    number, moment = begun
    is_begun = number == entered.number and not entered.is_finished
    return entered.beginning(moment) if is_begun else entered


def _read(found: Any) -> tuple[ContestProgress, tuple[int, int]]:
    """What was entered, and the position begun last and when; raises whatever there is to raise."""
    if found["format"] != _FORMAT:
        raise ContestError("a contest kept by another version")
    contest, day, begun = read_invite(found["invite"]), found["day"], found["begun"]
    if not isinstance(day, str) or (day and not is_day(day)):
        raise ContestError("a day that is not a date of the day's five")
    number, moment = (-1, 0) if begun is None else begun
    if type(number) is not int or type(moment) is not int or not 0 <= moment <= LATEST:
        raise ContestError("a moment before 1970, or not a number")
    return ContestProgress(contest, day), (number, moment)
