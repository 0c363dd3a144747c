"""A position of a contest: when it counts as shown."""

from __future__ import annotations

import pytest

from game.friends.contest import Contest, Rules
from game.keeping import contests
from game.screens.contests.screen import ContestScreen
from game.screens.round.curtain import CurtainScreen
from game.screens.round.screen import RoundScreen
from tests.screens.conftest import Game, Start
from tests.screens.friends import CONTEST, KEYS

QUICK = Contest("Quick", CONTEST.positions, Rules("time"))


async def open_quick(game: Game) -> None:
    """The contest by time, its first position behind the curtain."""
    await game.app.push_screen(ContestScreen(contests.entry_for(game.app.keeper, QUICK)))
    await game.until(lambda: game.says("1 to play"))
    await game.press("enter")
    await game.until(lambda: isinstance(game.app.screen, CurtainScreen))


async def test_behind_the_curtain_nothing_is_seen(start: Start) -> None:
    """Whoever leaves while it is counted down has not begun the position."""
    async with start() as game:
        await open_quick(game)
        await game.press("q")
        await game.until(lambda: isinstance(game.app.screen, ContestScreen))
        (entry,) = contests.entries(game.app.keeper)
        assert entry.entered.begun is None
        await game.until(lambda: game.says("1 to play"))


async def test_it_is_shown_when_the_curtain_rises(start: Start) -> None:
    """From then on it is begun, and its clock runs from there."""
    async with start() as game:
        await open_quick(game)
        game.clock.now += 4.0
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        screen = game.app.screen
        assert isinstance(screen, RoundScreen)
        await game.until(lambda: screen.sitting.running_since is not None)
        (entry,) = contests.entries(game.app.keeper)
        assert entry.entered.begun is not None
        game.clock.now += 1.5
        await game.press(f"{KEYS[0]} enter")
        await game.until(lambda: game.says("1 3 par 1.50 0.00 1.50"))
        (entry,) = contests.entries(game.app.keeper)
        assert (entry.entered.number, entry.entered.begun) == (1, None)


async def test_leaving_says_what_becomes_of_it(start: Start) -> None:
    """The position can be come back to, its clock running on."""
    async with start() as game:
        await game.app.push_screen(ContestScreen(contests.entry_for(game.app.keeper, CONTEST)))
        await game.until(lambda: game.says("1 to play"))
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        await game.settle()
        await game.press("q")
        await game.until(
            lambda: game.says("you can come back to this position, but its clock runs on.")
        )


async def test_nothing_stops_the_clock(start: Start) -> None:
    """Hiding the cube, the help and a window that is too small take the time that they take."""
    async with start() as game:
        await game.app.push_screen(ContestScreen(contests.entry_for(game.app.keeper, CONTEST)))
        await game.until(lambda: game.says("1 to play"))
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        await game.until(lambda: game.says("Space hide"))
        await game.press("space")
        assert game.says("The cube is hidden; its clock runs on.")
        game.clock.now += 10
        await game.press("space question_mark")
        game.clock.now += 20
        await game.press("q")
        await game.resize(40, 10)
        game.clock.now += 30
        await game.resize(80, 24)
        await game.press(f"{KEYS[0]} enter")
        await game.until(lambda: isinstance(game.app.screen, ContestScreen))
        (entry,) = contests.entries(game.app.keeper)
        assert entry.entered.results[0].seeing == 6000


async def test_time_asleep_counts(start: Start, monkeypatch: pytest.MonkeyPatch) -> None:
    """A computer that is sent to sleep over a position wins no time by it."""
    slept = [5.0]
    monkeypatch.setattr("game.screens.round.played_once.asleep", lambda: slept[0])
    async with start() as game:
        await open_quick(game)
        game.clock.now += 4.0
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        screen = game.app.screen
        assert isinstance(screen, RoundScreen)
        await game.until(lambda: screen.sitting.running_since is not None)
        slept[0] += 600.0
        await game.until(lambda: screen.sitting.ms(game.clock.now) == 600_000)
        slept[0] += 0.1
        screen.rules.look()
        assert screen.sitting.ms(game.clock.now) == 600_000
