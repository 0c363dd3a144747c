"""The contests that a player has entered, as the records keep them: a run each, open to its end."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import TYPE_CHECKING

from game.deal.five import is_day
from game.deal.joined_days import Played
from game.friends.card_text import contest_name, day_name
from game.friends.chat import Chat
from game.friends.codes import Findings
from game.friends.contest import Contest
from game.friends.entry import Entered, entered_text
from game.keeping.contests import CONTEST, DAY, Entry, enter, entries_in, entry_in, settled
from game.play.result import Result

if TYPE_CHECKING:
    from game.play.position import Position
    from game.screens.shared.host import Host


def entries(app: Host) -> tuple[Entry, ...]:
    """Every contest by invite that was entered, the newest first."""
    return _looked_up(app, CONTEST)


def entry_for(app: Host, contest: Contest, day: str = "") -> Entry:
    """The entry for a contest: the one that is kept, else a new one that is not kept yet."""
    new = Entry(Entered(contest, day))
    return next(iter(_looked_up(app, new.mode, new.entered.kind)), new)


def name_of(app: Host, kind: str) -> str:
    """What the contest of this key or date is called; nothing where it is not known."""
    if "-" in kind:
        return day_name(kind) if is_day(kind) else ""
    entry = entry_of(app, kind)
    return contest_name(entry.entered.contest) if entry is not None else ""


def entry_of(app: Host, key: str) -> Entry | None:
    """The entry for a contest by its key, kept or pasted; None where it is not known."""
    kept = _looked_up(app, CONTEST, key)
    pasted = chat(app).contests.get(key)
    new = Entry(Entered(pasted)) if pasted is not None else None
    return kept[0] if kept else new


def days_played(app: Host) -> tuple[Played, ...]:
    """The days whose five were all played, and when the last of each was."""
    if not app.has_records:
        return ()
    runs = app.record(lambda records: records.ended_runs(DAY), ())
    return tuple(
        Played(date.fromisoformat(run.kind).toordinal(), run.ended.toordinal())
        for run in runs
        if is_day(run.kind) and run.ended is not None
    )


def chat(app: Host) -> Chat:
    """What was pasted since the start."""
    return app.chat or Chat()


def learn(app: Host, found: Findings) -> None:
    """Keep in mind what was found in a text."""
    app.chat = chat(app).more(found)


def keep(app: Host, entry: Entry) -> Entry:
    """The entry as the records have it now, which keep it from now on.

    Another copy of the game may have entered the contest, or played more of it.
    """
    number = entry.run
    if number is None:
        number = app.record(lambda records: enter(records, entry), None)
    if number is None:  # the records cannot be used
        return entry
    run = number
    kept = app.record(lambda records: entry_in(records, run), None)
    return kept or replace(entry, run=run, began=entry.began or datetime.now().astimezone())


def begin(app: Host, entry: Entry, now: int) -> Entry:
    """The next position is shown: what was seen cannot be unseen. now: seconds since 1970."""
    kept = keep(app, entry)
    number = kept.run
    if kept.entered.number != entry.entered.number:
        return entry
    if kept.entered.begun is not None:
        return kept
    begun = replace(kept, entered=kept.entered.beginning(now))
    if number is not None:
        text = entered_text(begun.entered)
        app.record(lambda records: records.amend_run(number, text), None)
    return begun


def after(app: Host, entry: Entry, result: Result) -> Entry:
    """The entry once its next position is played and kept; the first attempt counts."""
    kept = keep(app, entry)
    if kept.entered.number <= entry.entered.number:  # the attempt could not be kept
        kept = replace(entry, entered=entry.entered.after(settled(result)))
    if kept.entered.is_over:
        close(app, kept)
    return kept


def close(app: Host, entry: Entry) -> None:
    """It is played to its end."""
    number = entry.run
    if number is not None:
        app.record(lambda records: records.end_run(number), None)


def learn_par(app: Host, position: Position, par: int) -> None:
    """Keep the par of a position with the attempts that ended before it was known."""
    if app.has_records:
        app.record(lambda records: records.learn_par(position.text, par), None)


def _looked_up(app: Host, mode: str, kind: str | None = None) -> tuple[Entry, ...]:
    if not app.has_records:
        return ()
    return app.record(lambda records: entries_in(records, mode, kind), ())
