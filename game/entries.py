"""Contests that a player has entered, as the records keep them: a run each, with its attempts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from game.attempt import replay
from game.contest import Result
from game.entered import Entered, Try, entered_of
from game.errors import PairwrightError
from game.position import parse_position
from game.records import KeptRun, Record, Records
from game.runs.times import cut

CONTEST, DAY = "contest", "day"
"""Modes of runs and attempts: contests by invite, and days' fives."""


@dataclass(frozen=True)
class Entry:
    """A contest as far as it is played. run: its number in the records, None while it is not kept.

    began: when it was entered, None while it is not kept.
    """

    entered: Entered
    run: int | None = None
    began: datetime | None = None

    @property
    def mode(self) -> str:
        """What attempts at it are recorded as."""
        return DAY if self.entered.day else CONTEST


def entries_in(records: Records, mode: str, kind: str | None = None) -> Iterator[Entry]:
    """The entries of a mode, and of a kind if one is given, the newest first.

    What cannot be read is left out. kind: the contest's key, or the date of a day's five.
    """
    runs = (*records.open_runs(), *records.ended_runs(mode, kind))
    wanted = [run for run in runs if run.mode == mode and kind in (None, run.kind)]
    for run in sorted(wanted, key=lambda run: -run.number):
        try:
            yield Entry(_entered(records, run), run.number, run.began)
        except PairwrightError:
            continue


def result_of(record: Record) -> Result:
    """The result that an attempt was. Raises PairwrightError where it can be none.

    Its two times add up to the whole time, cut to hundredths once.
    """
    seeing, doing = record.seeing_ms or 0, record.doing_ms or 0
    return Result(
        line=replay(parse_position(record.position), record.events).written,
        seeing=cut(seeing),
        doing=cut(seeing + doing) - cut(seeing),
        called=bool(record.called),
        solved=record.is_solved,
        inspection=record.inspection or 0,
    )


def _entered(records: Records, run: KeptRun) -> Entered:
    return entered_of(run.text, map(_try, records.attempts_of(run.number)))


def _try(record: Record) -> Try:
    return Try(record.position, settled(result_of(record)))


def settled(result: Result) -> Result:
    """A result as a card has it: of a position that was not solved no times, for none count.

    So the card is the same whether the game was left meanwhile or not.
    """
    return result if result.solved else replace(result, seeing=0, doing=0)
