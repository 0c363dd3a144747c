"""What the records keep of a match, and how it is taken up again."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from game.errors import PairwrightError
from game.friends.match import Match, Try, match_of, match_text
from game.keeping.contests import result_of
from game.records import MATCH, KeptRun, Record

if TYPE_CHECKING:
    from game.screens.shared.host import Host


def begin(app: Host, match: Match) -> int | None:
    """Keep a match from its beginning; its number, or None where nothing can be kept."""
    return app.record(lambda records: records.begin_run(MATCH, "", match_text(match)), None)


def amend(app: Host, number: int | None, match: Match) -> None:
    """Keep who has left, what was shown, and that the match is over if it is."""
    if number is None:
        return
    app.record(lambda records: records.amend_run(number, match_text(match)), None)
    if match.is_over:
        end(app, number)


def end(app: Host, number: int | None) -> None:
    """The match is over."""
    if number is not None:
        app.record(lambda records: records.end_run(number), None)


def learn(app: Host, position: str, par: int) -> None:
    """Keep the par of a position with the attempts that ended before it was known."""
    app.record(lambda records: records.learn_par(position, par), None)


def open_matches(app: Host) -> tuple[tuple[int, Match], ...]:
    """The matches that are not over, the newest first, with their numbers.

    One that cannot be read is left out; one that is over is ended at last.
    """
    if not app.has_records:
        return ()
    return tuple(_taken_up(app))


def _taken_up(app: Host) -> Iterator[tuple[int, Match]]:
    nothing: tuple[KeptRun, ...] = ()
    for run in app.record(lambda records: records.open_runs(), nothing):
        match = _match(app, run) if run.mode == MATCH else None
        if match is None:
            continue
        if match.is_over:  # the game was ended between the last attempt and this
            end(app, run.number)
        else:
            yield run.number, match


def _match(app: Host, run: KeptRun) -> Match | None:
    none: tuple[Record, ...] = ()
    attempts = app.record(lambda records: records.attempts_of(run.number), none)
    tries = (made for attempt in attempts if (made := _try(attempt)) is not None)
    try:
        return match_of(run.text, tries)
    except PairwrightError:
        return None


def last_names(app: Host) -> tuple[str, ...]:
    """Who played the last match that is over."""
    if not app.has_records:
        return ()
    nothing: tuple[KeptRun, ...] = ()
    for run in app.record(lambda records: records.ended_runs(MATCH), nothing)[:1]:
        try:
            return tuple(player.name for player in match_of(run.text).players)
        except PairwrightError:
            return ()
    return ()


def _try(record: Record) -> Try | None:
    try:
        return Try(record.player, record.position, result_of(record))
    except PairwrightError:
        return None
