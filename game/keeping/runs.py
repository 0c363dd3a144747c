"""Timed runs in the records: begun, left open, taken up again, closed; the best of a kind."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date, datetime
from secrets import token_hex
from typing import TYPE_CHECKING

from game.deal.selection import Selection, parse_selection
from game.errors import SelectionError
from game.keeping.keeper import Keeper
from game.modes import TIMED
from game.play.times import cut_both
from game.runs import Done, Run, best, parse_run, run_text

if TYPE_CHECKING:
    from game.packs import Pack
    from game.records import Brief, KeptRun, Record, Records


@dataclass(frozen=True)
class NumberedRun:
    """A run and its number in the records; None where they cannot be used.

    began: when it was begun.
    """

    run: Run
    number: int | None
    began: datetime | None = None


def begin(keeper: Keeper, run: Run) -> NumberedRun:
    """A new run is kept from now on."""
    terms = run.terms
    number = keeper.record(
        lambda records: records.begin_run(terms.mode, terms.kind, run_text(run)), None
    )
    return NumberedRun(run, number)


def new_seed() -> str:
    """A seed that nobody has had."""
    return token_hex(8)


def end(keeper: Keeper, entry: NumberedRun) -> None:
    """The run is over."""
    number = entry.number
    if number is not None:
        keeper.record(lambda records: records.end_run(number), None)


def drop(keeper: Keeper, entry: NumberedRun) -> None:
    """Nothing was seen of the run: it never was."""
    number = entry.number
    if number is not None:
        keeper.record(lambda records: records.drop_run(number), None)


def taken_up(keeper: Keeper, entry: NumberedRun) -> NumberedRun:
    """A run that was left goes on; that it was left is kept with it."""
    run = replace(entry.run, breaks=entry.run.breaks + 1)
    number = entry.number
    if number is not None:
        keeper.record(lambda records: records.amend_run(number, run_text(run)), None)
    return replace(entry, run=run)


def left_open(keeper: Keeper) -> NumberedRun | None:
    """The run that was left last and is not over."""
    if not keeper.has_records:
        return None
    keeper.record(_close_unreadable, None)
    return keeper.record(lambda records: next(_entries(records, records.open_runs()), None), None)


def _close_unreadable(records: Records) -> None:
    """End the runs that nobody could take up, so that they are not told of as left for ever."""
    for kept in records.open_runs():
        if kept.mode in TIMED:
            try:
                parse_run(kept.text)
            except SelectionError:
                records.end_run(kept.number)


def best_of(keeper: Keeper, kind: str, mode: str) -> tuple[Run | None, int]:
    """The best run of a kind, and how many of it were played to their end."""
    if not keeper.has_records:
        return None, 0
    found: list[Run] = keeper.record(lambda records: _ended(records, mode, kind), [])
    runs = [run for run in found if run.is_finished]
    return best(runs), len(runs)


def _ended(records: Records, mode: str, kind: str) -> list[Run]:
    """The runs of a kind that are over, with what was done in them."""
    done: dict[int, list[Done]] = {}
    for brief in records.briefs(mode, kind):
        done.setdefault(brief.run, []).append(done_of(brief))
    runs = []
    for kept in records.ended_runs(mode, kind):
        with suppress(SelectionError):
            runs.append(replace(parse_run(kept.text), done=tuple(done.get(kept.number, ()))))
    return runs


def last(keeper: Keeper) -> Run | None:
    """The run that was begun last and is over."""
    if not keeper.has_records:
        return None
    kept = keeper.record(lambda records: [r for m in TIMED for r in records.ended_runs(m)[:1]], [])
    newest = max(kept, key=lambda run: run.number, default=None)
    try:
        return parse_run(newest.text) if newest is not None else None
    except SelectionError:
        return None


def played(keeper: Keeper, entry: NumberedRun, at: int) -> Record | None:
    """What was played at a position of a run; None where it is not kept."""
    number = entry.number
    if number is None:
        return None
    none: tuple[Record, ...] = ()
    return next(iter(keeper.record(lambda records: records.attempts_of(number), none)[at:]), None)


def selection_of(packs: tuple[Pack, ...], run: Run) -> Selection:
    """What a run plays. Raises SelectionError when that is no longer there."""
    return parse_selection(run.terms.selection, packs, date.fromisoformat)


def _entries(records: Records, kept: tuple[KeptRun, ...]) -> Iterator[NumberedRun]:
    """Those of the runs that are timed and can be read, with what was done in them."""
    for each in kept:
        if each.mode in TIMED:
            try:
                run = parse_run(each.text)
            except SelectionError:
                continue
            done = map(done_of, records.attempts_of(each.number))
            yield NumberedRun(replace(run, done=tuple(done)), each.number, each.began)


def done_of(record: Record | Brief) -> Done:
    """What an attempt of a run came to."""
    seeing, doing = cut_both(record.seeing_ms or 0, record.doing_ms or 0)
    return Done(
        position=record.position,
        turns=record.turns,
        par=record.par,
        seeing=seeing,
        doing=doing,
        inspection=record.inspection or 0,
        solved=record.is_solved,
    )
