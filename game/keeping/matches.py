"""What the records keep of a match, and how it is taken up again."""

from __future__ import annotations

from collections.abc import Iterator

from game.errors import PairwrightError
from game.friends.match import Match, MatchTry, match_of, match_text
from game.keeping.entries import result_of
from game.keeping.keeper import Keeper
from game.modes import MATCH
from game.records import KeptRun, Record


def begin(keeper: Keeper, match: Match) -> int | None:
    """Keep a match from its beginning; its number, or None where nothing can be kept."""
    return keeper.record(lambda records: records.begin_run(MATCH, "", match_text(match)), None)


def amend(keeper: Keeper, number: int | None, match: Match) -> None:
    """Keep who has left, what was shown, and that the match is over if it is."""
    if number is None:
        return
    keeper.record(lambda records: records.amend_run(number, match_text(match)), None)
    if match.is_finished:
        end(keeper, number)


def end(keeper: Keeper, number: int | None) -> None:
    """The match is over."""
    if number is not None:
        keeper.record(lambda records: records.end_run(number), None)


def open_matches(keeper: Keeper) -> tuple[tuple[int, Match], ...]:
    """The matches that are not over, the newest first, with their numbers.

    One that cannot be read is left out; one that is over is ended at last.
    """
    if not keeper.has_records:
        return ()
    return tuple(_taken_up(keeper))


def _taken_up(keeper: Keeper) -> Iterator[tuple[int, Match]]:
    nothing: tuple[KeptRun, ...] = ()
    for run in keeper.record(lambda records: records.open_runs(), nothing):
        match = _match(keeper, run) if run.mode == MATCH else None
        if match is None:
            continue
        if match.is_finished:  # the game was ended between the last attempt and this
            end(keeper, run.number)
        else:
            yield run.number, match


def _match(keeper: Keeper, run: KeptRun) -> Match | None:
    none: tuple[Record, ...] = ()
    attempts = keeper.record(lambda records: records.attempts_of(run.number), none)
    tries = (made for attempt in attempts if (made := _try(attempt)) is not None)
    try:
        return match_of(run.text, tries)
    except PairwrightError:
        return None


def last_names(keeper: Keeper) -> tuple[str, ...]:
    """Who played the last match that is over."""
    if not keeper.has_records:
        return ()
    nothing: tuple[KeptRun, ...] = ()
    for run in keeper.record(lambda records: records.ended_runs(MATCH), nothing)[:1]:
        try:
            return tuple(player.name for player in match_of(run.text).players)
        except PairwrightError:
            return ()
    return ()


def _try(record: Record) -> MatchTry | None:
    try:
        return MatchTry(record.player, record.position, result_of(record))
    except PairwrightError:
        return None
