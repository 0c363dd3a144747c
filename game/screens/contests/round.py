"""A position of a contest, played once: its clock runs on from when it was first shown."""

from __future__ import annotations

from collections.abc import Callable

from game.friends.card_text import contest_name, day_name
from game.friends.contest import TIME
from game.keeping.entries import Entry
from game.play.result import Result
from game.screens.round.played_once import PlayedOnceRules, shown_before
from game.screens.round.rules import Round


def contest_rules(
    entry: Entry,
    gone: int,
    seen: Callable[[], None],
    then: Callable[[Result], None],
    *,
    is_unsure: bool = False,
) -> PlayedOnceRules:
    """Rules for the next position of an entry that is kept; see `PlayedOnceRules`."""
    return PlayedOnceRules(_round(entry, is_unsure=is_unsure), gone, seen, then)


def _round(entry: Entry, *, is_unsure: bool) -> Round:
    entered = entry.entered
    contest = entered.contest
    number, count = entered.number, len(contest.positions)
    is_new = entered.begun is None
    return Round(
        position=contest.positions[number],
        source=day_name(entered.day) if entered.day else contest_name(contest),
        name=f"{number + 1} of {count}",
        mode=entry.mode,
        run=entry.run,
        inspects=contest.rules.inspection,
        calls=True,
        counts_down=contest.rules.by == TIME and is_new,
        said="" if is_new else shown_before(is_unsure=is_unsure),
    )
