"""One contest, played with keys."""

from __future__ import annotations

import time
from dataclasses import replace
from datetime import date, timedelta

import pytest
from textual import events

from game.friends.codes import read_card, read_invite
from game.friends.contest import Contest
from game.friends.day import day
from game.friends.entry import progress_text
from game.keeping import contests
from game.screens.contests.code import CodeScreen
from game.screens.contests.list import ContestsScreen
from game.screens.contests.screen import ContestScreen
from game.screens.contests.standings import StandingsScreen
from game.screens.lines.screen import LinesScreen
from game.screens.round.screen import RoundScreen
from game.settings import Settings
from tests.screens.conftest import Game, Start
from tests.screens.friends import CONTEST, KEYS, TIMED, card, chat, paste, solve


async def open_contest(game: Game, contest: Contest = CONTEST) -> ContestScreen:
    """The screen of a contest, entered or not."""
    screen = ContestScreen(contests.entry_for(game.app.keeper, contest))
    await game.app.push_screen(screen)
    await game.until(lambda: game.says(contest.title))
    await game.settle()
    return screen


async def play_all(game: Game) -> None:
    """Both positions at par."""
    for keys in KEYS:
        await game.press("enter")
        await solve(game, keys)


async def test_a_contest_is_played_to_its_end(start: Start) -> None:
    """Position by position, then a summary; what is played is kept as a run that has ended."""
    async with start() as game:
        await open_contest(game)
        await game.until(lambda: game.says("1 to play"))
        await game.press("enter")
        await solve(game, KEYS[0], call=True)
        await game.until(lambda: game.says("1 3 par called 2.00"))
        await game.until(lambda: game.says("2 to play"))
        await game.press("enter")
        await solve(game, KEYS[1])
        await game.until(lambda: game.says("2 of 2 solved, all at par, 4.00."))
        (run,) = game.app.keeper.records.ended_runs(contests.CONTEST)
        attempts = game.app.keeper.records.attempts_of(run.number)
        assert [(a.outcome, a.mode, a.called) for a in attempts] == [
            ("solved", "contest", "right"),
            ("solved", "contest", ""),
        ]
        (entry,) = contests.entries(game.app.keeper)
        assert entry.entered.is_finished


async def test_the_list_of_contests_when_it_is_narrow(start: Start) -> None:
    """A title has the room; with no contest there is nothing to open."""
    title = "Every Friday evening at Ada's house"
    async with start(size=(60, 20)) as game:
        await game.app.push_screen(ContestsScreen())
        await game.until(lambda: game.says("i make an invite"))
        assert not game.says("Enter open")
        await game.press("enter")
        contests.keep(
            game.app.keeper, contests.entry_for(game.app.keeper, replace(CONTEST, title=title))
        )
        await game.press("p escape q")
        await game.until(lambda: game.says(f"{title} "))
        assert game.says("Enter open")


async def test_nothing_is_played_twice(start: Start) -> None:
    """Once all is played, Enter shows lines and no position."""
    async with start() as game:
        await open_contest(game)
        await play_all(game)
        await game.until(lambda: game.says("2 of 2 solved"))
        await game.press("enter")
        assert isinstance(game.app.screen, LinesScreen)


async def test_it_goes_on_at_the_next_start(start: Start) -> None:
    """A game that ended after one position goes on with the second, the first kept."""
    async with start() as game:
        await open_contest(game)
        await game.press("enter")
        await solve(game, KEYS[0])
    async with start() as game:
        await open_contest(game)
        await game.until(lambda: game.says("2 to play"))
        await game.press("enter")
        await solve(game, KEYS[1])
        await game.until(lambda: game.says("2 of 2 solved"))


async def test_the_card_is_the_same_after_a_restart(start: Start) -> None:
    """Times, cut where they were cut, calls, and what was given up are read from the attempts."""
    async with start() as game:
        screen = await open_contest(game)
        await game.press("enter")
        await game.until(lambda: game.says("Space hide"))
        await game.settle()
        game.clock.now += 1.239
        await game.press("r u")
        game.clock.now += 2.005
        await game.press("R c")
        await game.until(lambda: game.says("2 to play"))
        await game.press("enter")
        await game.until(lambda: game.says("2 of 2"))
        await game.settle()
        game.clock.now += 5.0
        await game.press("L g g")
        await game.until(lambda: game.says("2 not solved"))
        entered = screen._entered
        assert entered is not None
        first, second = entered.results
        assert (first.seeing, first.doing, first.called) == (123, 201, True)  # 3.244 s in all
        assert not second.solved
        (kept,) = contests.entries(game.app.keeper)
        assert kept.entered.results == entered.results


@pytest.mark.parametrize("ago", [0, 100])
async def test_a_position_that_was_shown_has_its_clock_run_on(start: Start, ago: int) -> None:
    """Left before its end, it says so; taken up again, seeing counts from the first showing.

    That was so many seconds ago, or within this one.
    """
    async with start() as game:
        await open_contest(game)
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        await game.press("q q")
        await game.until(lambda: game.says("begun; its clock runs on"))
        assert game.says("Enter go on")
        (entry,) = contests.entries(game.app.keeper)
        assert entry.entered.begun is not None
        assert abs(entry.entered.begun - time.time()) < 60
        earlier = replace(entry.entered, begun=entry.entered.begun - ago)
        assert entry.run is not None
        game.app.keeper.records.amend_run(entry.run, progress_text(earlier))
    async with start() as game:
        await open_contest(game)
        await game.press("enter")
        await game.until(lambda: game.says("shown before: its clock has run on"))
        await solve(game, KEYS[0])
        (entry,) = contests.entries(game.app.keeper)
        assert 100 * ago <= entry.entered.results[0].seeing < 100 * ago + 10_000


async def test_what_is_to_come_is_not_shown(start: Start) -> None:
    """The picture beside the table is of a position that is played, or there is none."""
    async with start() as game:
        await open_contest(game)
        picture = game.app.screen.query_one("#contest-picture")
        await game.press("down")
        assert picture.has_class("-hidden")
        await game.press("up enter")
        await solve(game, KEYS[0])
        await game.settle()
        await game.press("up")
        assert not picture.has_class("-hidden")


async def test_a_card_needs_a_name_and_the_end(start: Start) -> None:
    """Before the end there is none; the name is asked once and kept as a setting."""
    async with start() as game:
        await open_contest(game)
        await game.press("c")
        await game.until(lambda: game.says("Your card comes once every position is played."))
        await play_all(game)
        await game.until(lambda: game.says("2 of 2 solved"))
        await game.press("c A d a enter")
        await game.until(lambda: isinstance(game.app.screen, CodeScreen))
        assert game.app.settings.player == "Ada"
        assert isinstance(game.app.screen, CodeScreen)
        found = read_card(game.app.screen.text).card
        assert (found.name, len(found.results)) == ("Ada", 2)
        await game.press("q c")
        assert isinstance(game.app.screen, CodeScreen)


@pytest.mark.parametrize("name", ["Chris", "cc", "C", "ccuq?"])
async def test_a_name_may_hold_the_letters_of_keys(name: str, start: Start) -> None:
    """What opens the line for the name, and any other key, is written once the line is open."""
    async with start() as game:
        await open_contest(game)
        await play_all(game)
        await game.until(lambda: game.says("2 of 2 solved"))
        await game.press(" ".join(["c", *name, "enter"]))
        await game.until(lambda: isinstance(game.app.screen, CodeScreen))
        assert game.app.settings.player == name


async def test_a_name_may_come_in_a_burst(start: Start) -> None:
    """The key that opens the line and the name behind it, all at once."""
    async with start() as game:
        await open_contest(game)
        await play_all(game)
        await game.until(lambda: game.says("2 of 2 solved"))
        await game.settle()
        for character in "cCecci":
            game.app.post_message(events.Key(character, character))
        await game.settle()
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, CodeScreen))
        assert game.app.settings.player == "Cecci"


async def test_the_invite_is_that_of_the_contest(start: Start) -> None:
    """What `i` shows is read as the same contest."""
    async with start() as game:
        await open_contest(game, TIMED)
        await game.press("i")
        assert isinstance(game.app.screen, CodeScreen)
        assert read_invite(game.app.screen.text) == TIMED


async def test_lines_of_friends_come_after_playing(start: Start) -> None:
    """Cards that were pasted rank at once; their lines are shown once all is played, not before."""
    async with start(settings=Settings(player="Ada")) as game:
        await open_contest(game)
        await game.press("p")
        await paste(game, chat(card("Bo"), card("Cem", seeing=900)))
        await game.press("escape enter")
        await game.until(lambda: game.says("Two cards pasted."))
        await game.press("l")
        await game.until(lambda: game.says("Lines are shown once you have played every position."))
        await game.press("s")
        await game.until(lambda: game.says("1 Bo"))
        await game.press("l")
        assert isinstance(game.app.screen, StandingsScreen)
        await game.until(lambda: game.says("Play every position first"))
        await game.press("q")
        await play_all(game)
        await game.until(lambda: game.says("2 of 2 solved"))
        await game.press("s")
        await game.until(lambda: game.says("Cem"))
        await game.press("l")
        await game.until(lambda: isinstance(game.app.screen, LinesScreen))
        assert all(game.says(name) for name in ("Ada", "Bo", "Cem"))


async def test_inspection_is_as_the_contest_says(start: Start) -> None:
    """A contest with inspection begins a position with it."""
    async with start() as game:
        await open_contest(game, TIMED)
        await game.until(lambda: game.says("by time, inspection"))
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, RoundScreen) or game.says("begins"))


# -- the day's five ------------------------------------------------------------------------------


async def test_days_follow_each_other_up_to_today(start: Start) -> None:
    """The arrows lead to yesterday and back, and not to tomorrow."""
    today = date.today()
    async with start() as game:
        screen = ContestScreen(date_=today)
        await game.app.push_screen(screen)
        await game.until(lambda: game.says("1 to play"))
        await game.until(lambda: game.says(f"{today.year}, today"))
        await game.press("right")
        await game.until(lambda: game.says("today"))
        await game.press("left")
        await game.until(lambda: game.says("yesterday") and game.says("1 to play"))
        entered = screen._entered
        assert entered is not None
        assert entered.contest == day(today - timedelta(1))
        await game.press("t")
        await game.until(lambda: game.says("today") and game.says("1 to play"))
        assert game.app.keeper.records.open_runs() == ()  # looking enters nothing


@pytest.mark.parametrize("text", ["2025-12-31", "2100-01-01"])
async def test_a_day_without_five_is_told(text: str, start: Start) -> None:
    """A clock that is far off leads to one clear line, not to an end of the game."""
    async with start() as game:
        await game.app.push_screen(ContestScreen(date_=date.fromisoformat(text)))
        told = "There are five positions for each day from 2026-01-01 to 2099-12-31."
        await game.until(lambda: game.says(told))
        assert not game.says("Dealing")
        await game.press("enter c")
        await game.press("t")
        await game.until(lambda: game.says("1 to play"))


async def test_a_day_is_played_and_joins(start: Start) -> None:
    """A day whose five are all over counts as joined, and its card names the date alone."""
    today = date.today()
    async with start(settings=Settings(player="Ada")) as game:
        await game.app.push_screen(ContestScreen(date_=today))
        await game.until(lambda: game.says("1 to play"))
        for number in range(5):
            await game.press("enter")
            await game.until(lambda: isinstance(game.app.screen, RoundScreen))
            await game.press("g g")
            await game.until(lambda: isinstance(game.app.screen, ContestScreen))
            await game.until(lambda n=number: game.says(f"{n + 1} not solved"))
        await game.until(lambda: game.says("0 of 5 solved"))
        await game.until(lambda: game.says("1 day joined"))
        await game.press("c")
        assert isinstance(game.app.screen, CodeScreen)
        assert read_card(game.app.screen.text).day == today.isoformat()
        await game.until(lambda: game.says(f"The day's five, {today.isoformat()}"))


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
async def test_it_fits_the_window(size: tuple[int, int], start: Start) -> None:
    """Rows, words and keys are all in view in the smallest window and in larger ones."""
    async with start(size=size) as game:
        await open_contest(game)
        await game.until(lambda: game.says("1 to play"))
        await game.until(lambda: game.says("cannot be unseen."))
        await game.until(lambda: game.says("Enter play"))
        await game.until(lambda: game.says("q back"))
