"""Contests that a player has entered, as the records keep them: a run each, with its attempts."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime

from game.errors import PairwrightError
from game.friends.entry import ContestProgress, ContestTry, progress_of, progress_text
from game.modes import CONTEST, DAY
from game.play.attempt import replay
from game.play.position import parse_position
from game.play.result import Result
from game.play.times import cut_both
from game.records import KeptRun, Record, Records


@dataclass(frozen=True)
class Entry:
    """A contest as far as it is played. run: its number in the records, None while it is not kept.

    began: when it was entered, None while it is not kept.
    """

    entered: ContestProgress
    run: int | None = None
    began: datetime | None = None

    @property
    def rank(self) -> tuple[bool, bool, int]:
        """The least is the one that counts: what is over, then what is begun, then the first."""
        entered = self.entered
        is_begun = entered.number > 0 or entered.begun is not None
        return not entered.is_finished, not is_begun, self.run or 0

    @property
    def mode(self) -> str:
        """What attempts at it are recorded as."""
        return DAY if self.entered.day else CONTEST


def entries_in(records: Records, mode: str, kind: str | None = None) -> tuple[Entry, ...]:
    """The entries of a mode, and of a kind if one is given, the newest first, one a contest.

    What cannot be read is left out. kind: the contest's key, or the date of a day's five.
    """
    counts: dict[str, Entry] = {}
    for entry in sorted(_all_in(records, mode, kind), key=lambda entry: entry.rank):
        counts.setdefault(entry.entered.kind, entry)
    return tuple(sorted(counts.values(), key=lambda entry: -(entry.run or 0)))


def entry_in(records: Records, number: int) -> Entry | None:
    """The entry of a run by its number; None if that run does not exist or cannot be read."""
    run = records.run(number)
    try:
        return _entry(records, run) if run is not None else None
    except PairwrightError:
        return None


def enter(records: Records, entry: Entry) -> int:
    """Keep an entry unless there is one for the same contest already; the number of its run."""
    entered = entry.entered

    def is_same(text: str) -> bool:
        try:
            return progress_of(text).kind == entered.kind
        except PairwrightError:
            return False

    return records.enter_run(entry.mode, entered.kind, progress_text(entered), is_same)


def _all_in(records: Records, mode: str, kind: str | None) -> Iterator[Entry]:
    runs = (*records.open_runs(), *records.ended_runs(mode, kind))
    for run in runs:
        if run.mode == mode and kind in (None, run.kind):
            with suppress(PairwrightError):
                entry = _entry(records, run)
                if entry.entered.kind == run.kind:
                    yield entry


def result_of(record: Record) -> Result:
    """The result that an attempt was. Raises PairwrightError where it can be none.

    Its two times add up to the whole time, cut to hundredths once.
    """
    seeing, doing = cut_both(record.seeing_ms or 0, record.doing_ms or 0)
    return Result(
        line=replay(parse_position(record.position), record.events).written,
        seeing=seeing,
        doing=doing,
        called=bool(record.called),
        solved=record.is_solved,
        inspection=record.inspection or 0,
    )


def _entry(records: Records, run: KeptRun) -> Entry:
    entered = progress_of(run.text, map(_try, records.attempts_of(run.number)))
    return Entry(entered, run.number, run.began)


def _try(record: Record) -> ContestTry:
    return ContestTry(record.position, settled(result_of(record)))


def settled(result: Result) -> Result:
    """A result as a card has it: of a position that was not solved no times, for none count.

    So the card is the same whether the game was left meanwhile or not.
    """
    return result if result.solved else replace(result, seeing=0, doing=0)
