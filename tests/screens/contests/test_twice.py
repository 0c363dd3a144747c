"""Two copies of the game on one data folder: a contest is one, and is played once."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from datetime import date

from game.cube.moves import parse_line
from game.friends.day import day
from game.friends.entry import ContestProgress, progress_text
from game.keeping import contests
from game.keeping.entries import CONTEST as MODE
from game.keeping.entries import Entry, enter
from game.modes import DAY
from game.records import Records
from game.screens.contests.list import ContestsScreen
from game.screens.contests.screen import ContestScreen
from game.screens.round.screen import RoundScreen
from tests.cli.test_card import record
from tests.screens.conftest import Game, Start
from tests.screens.friends import CONTEST, KEYS, solve


def other(game: Game) -> Records:
    """What another copy of the game has open."""
    return Records(game.app.folders.records)


async def opened(game: Game) -> ContestScreen:
    """The contest, entered."""
    screen = ContestScreen(contests.entry_for(game.app.keeper, CONTEST))
    await game.app.push_screen(screen)
    await game.until(lambda: game.says("1 to play"))
    return screen


def play_elsewhere(game: Game, run: int, number: int, line: str) -> None:
    """The other copy plays a position."""
    with closing(other(game)) as records:
        records.add(record(CONTEST, number, line, run))


async def test_runs_of_one_kind_are_one_row(start: Start) -> None:
    """Two entries of one contest, as they may be in a file, are listed as one."""
    async with start() as game:
        entered = ContestProgress(CONTEST)
        for _ in range(2):
            game.app.keeper.records.begin_run(MODE, entered.kind, progress_text(entered))
        await game.app.push_screen(ContestsScreen())
        await game.until(lambda: game.says("Two for Ada"))
        assert sum("Two for Ada" in row for row in game.rows()) == 1
        await game.press("enter")
        await game.until(lambda: game.says("1 to play"))


async def test_a_contest_is_entered_once(start: Start) -> None:
    """Entered elsewhere after it was looked up, it is the same run."""
    async with start() as game:
        entry = contests.entry_for(game.app.keeper, CONTEST)
        with closing(other(game)) as records:
            run = enter(records, Entry(ContestProgress(CONTEST)))
        assert contests.keep(game.app.keeper, entry).run == run


async def test_what_was_played_elsewhere_is_not_played_again(start: Start) -> None:
    """The table is read anew before a position is shown."""
    async with start() as game:
        screen = await opened(game)
        entry = screen._entry
        assert entry is not None
        assert entry.run is not None
        play_elsewhere(game, entry.run, 0, "R U R'")
        await game.press("enter")
        await game.until(lambda: game.says("More of this was played meanwhile"))
        await game.until(lambda: game.says("2 to play"))
        assert game.app.screen is screen
        play_elsewhere(game, entry.run, 1, "L' U' L")
        await game.press("enter")
        await game.until(lambda: game.says("2 of 2 solved"))
        assert game.app.screen is screen


async def test_the_first_attempt_counts(start: Start) -> None:
    """A position that is played here and there at once has the result that was there first."""
    async with start() as game:
        screen = await opened(game)
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        (entry,) = contests.entries(game.app.keeper)
        assert entry.run is not None
        play_elsewhere(game, entry.run, 0, "R U2 U' R'")
        await solve(game, KEYS[0])
        await game.until(lambda: game.says("the first attempt counts."))
        (entry,) = contests.entries(game.app.keeper)
        assert [result.line for result in entry.entered.results] == [parse_line("R U2 U' R'")]
        assert screen._entry == entry


async def test_it_is_begun_once(start: Start) -> None:
    """The moment at which another copy showed the position stays."""
    async with start() as game:
        screen = await opened(game)
        entry = screen._entry
        assert entry is not None
        assert entry.run is not None
        with closing(other(game)) as records:
            records.amend_run(entry.run, progress_text(entry.entered.beginning(1_700_000_000)))
        await game.press("enter")
        await game.until(lambda: game.says("shown before: its clock has run on"))
        (entry,) = contests.entries(game.app.keeper)
        assert entry.entered.begun == 1_700_000_000


async def test_a_day_is_played_once(start: Start) -> None:
    """The five that another copy has played are shown as played."""
    today = date.today()
    async with start() as game:
        screen = ContestScreen(date_=today)
        await game.app.push_screen(screen)
        await game.until(lambda: game.says("1 to play"))
        entered = ContestProgress(day(today), today.isoformat())
        with closing(other(game)) as records:
            run = enter(records, Entry(entered))
            for number in range(5):
                lost = record(CONTEST, 0, "R U R'", run)
                text = entered.contest.positions[number].text
                gave_up = replace(lost, position=text, outcome="gave up", events=(), mode=DAY)
                records.add(gave_up)
            records.end_run(run)
        await game.press("enter")
        await game.until(lambda: game.says("0 of 5 solved"))
        assert game.app.screen is screen
        await game.press("left right")
        await game.until(lambda: game.says("0 of 5 solved"))
