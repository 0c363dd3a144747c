"""The contests that a player has entered, as the records keep them: a run each, open to its end."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from game.deal.five import is_day
from game.deal.joined_days import Played
from game.friends.card_text import contest_name, day_name
from game.friends.chat import Chat
from game.friends.contest import Contest
from game.friends.entry import ContestProgress, progress_text
from game.keeping.entries import Entry, enter, entries_in, entry_in, settled
from game.keeping.keeper import Keeper
from game.modes import CONTEST, DAY
from game.play.result import Result


def entries(keeper: Keeper) -> tuple[Entry, ...]:
    """Every contest by invite that was entered, the newest first."""
    return _looked_up(keeper, CONTEST)


def entry_for(keeper: Keeper, contest: Contest, day: str = "") -> Entry:
    """The entry for a contest: the one that is kept, else a new one that is not kept yet."""
    new = Entry(ContestProgress(contest, day))
    return next(iter(_looked_up(keeper, new.mode, new.entered.kind)), new)


def name_of(keeper: Keeper, chat: Chat, kind: str) -> str:
    """What the contest of this key or date is called; nothing where it is not known."""
    if "-" in kind:
        return day_name(kind) if is_day(kind) else ""
    entry = entry_of(keeper, chat, kind)
    return contest_name(entry.entered.contest) if entry is not None else ""


def entry_of(keeper: Keeper, chat: Chat, key: str) -> Entry | None:
    """The entry for a contest by its key, kept or pasted; None where it is not known."""
    kept = _looked_up(keeper, CONTEST, key)
    pasted = chat.contests.get(key)
    new = Entry(ContestProgress(pasted)) if pasted is not None else None
    return kept[0] if kept else new


def days_played(keeper: Keeper) -> tuple[Played, ...]:
    """The days whose five were all played, and when the last of each was."""
    if not keeper.has_records:
        return ()
    runs = keeper.record(lambda records: records.ended_runs(DAY), ())
    return tuple(
        Played(date.fromisoformat(run.kind).toordinal(), run.ended.toordinal())
        for run in runs
        if is_day(run.kind) and run.ended is not None
    )


def keep(keeper: Keeper, entry: Entry) -> Entry:
    """The stored entry. An entry that is not stored yet is stored first.

    Another copy of the game may have entered the contest, or played more of it.
    """
    number = entry.run
    if number is None:
        number = keeper.record(lambda records: enter(records, entry), None)
    if number is None:  # the records cannot be used
        return entry
    run = number
    kept = keeper.record(lambda records: entry_in(records, run), None)
    return kept or replace(entry, run=run, began=entry.began or datetime.now().astimezone())


def begin(keeper: Keeper, entry: Entry, now: int) -> Entry:
    """The next position is shown: what was seen cannot be unseen. now: seconds since 1970."""
    kept = keep(keeper, entry)
    number = kept.run
    if kept.entered.number != entry.entered.number:
        return entry
    if kept.entered.begun is not None:
        return kept
    begun = replace(kept, entered=kept.entered.beginning(now))
    if number is not None:
        text = progress_text(begun.entered)
        keeper.record(lambda records: records.amend_run(number, text), None)
    return begun


def after(keeper: Keeper, entry: Entry, result: Result) -> Entry:
    """The entry once its next position is played and kept; the first attempt counts."""
    kept = keep(keeper, entry)
    if kept.entered.number <= entry.entered.number:  # the attempt could not be kept
        kept = replace(entry, entered=entry.entered.after(settled(result)))
    if kept.entered.is_finished:
        close(keeper, kept)
    return kept


def close(keeper: Keeper, entry: Entry) -> None:
    """It is played to its end."""
    number = entry.run
    if number is not None:
        keeper.record(lambda records: records.end_run(number), None)


def _looked_up(keeper: Keeper, mode: str, kind: str | None = None) -> tuple[Entry, ...]:
    if not keeper.has_records:
        return ()
    return keeper.record(lambda records: entries_in(records, mode, kind), ())
