"""Timed runs through the screen: terms, playing, results, runs that were left."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from game.deal.deal import Kind
from game.deal.selection import FromDay, FromDeal
from game.modes import DASH, HOURGLASS
from game.runs import Run, RunTerms, run_text
from game.screens.home.screen import HomeScreen
from game.screens.lines.screen import LinesScreen
from game.screens.round.curtain import CurtainScreen
from game.screens.round.screen import RoundScreen
from game.screens.runs.form import RunsScreen
from game.screens.runs.screen import RunScreen
from tests.screens.conftest import Game, Start
from tests.screens.players import solve

DEAL = FromDeal(Kind(1))


async def open_runs(game: Game) -> RunsScreen:
    """The terms, as from home."""
    screen = RunsScreen()
    await game.app.push_screen(screen)
    await game.settle()
    await game.until(lambda: game.says("Timed runs"))
    return screen


async def choose(game: Game, **terms: object) -> None:
    """Terms chosen without their keys."""
    screen = game.app.screen
    assert isinstance(screen, RunsScreen)
    screen.setup = replace(screen.setup, **terms)  # type: ignore[arg-type]
    screen.show_form()


async def begin(game: Game) -> RoundScreen:
    """Enter, and past the count-down."""
    await game.press("enter")
    await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
    await game.press("enter")
    await game.until(lambda: isinstance(game.app.screen, RoundScreen))
    screen = game.app.screen
    assert isinstance(screen, RoundScreen)
    return screen


async def test_home_leads_to_the_runs(start: Start) -> None:
    """The key r at home opens the terms of a run."""
    async with start() as game:
        await game.app.push_screen(HomeScreen())
        await game.press("r")
        await game.until(lambda: isinstance(game.app.screen, RunsScreen))
        await game.until(lambda: game.says("A fixed number of positions"))


async def test_terms_are_stepped(start: Start) -> None:
    """Each row's value changes with the keys."""
    async with start() as game:
        screen = await open_runs(game)
        await game.press("right down right down left")
        terms = screen.setup.terms
        assert (terms.mode, terms.amount, terms.added) == (HOURGLASS, 300, 25)
        assert game.says("five minutes")
        await game.press("down right down right right")
        assert game.says("the day's five")
        assert screen.setup.terms.mode == DASH
        assert screen.setup.terms.selection == FromDay(date.today()).text


async def test_a_dash(start: Start) -> None:
    """Two positions solved: the total, what was added and each position's times are told."""
    async with start() as game:
        await open_runs(game)
        await choose(game, positions=2)
        await begin(game)
        assert game.says("Dash 1 of 2")
        await solve(game, seeing=1.0, doing=2.0)
        await game.until(lambda: game.says("Dash 2 of 2"))
        await game.until(lambda: game.says("3.00 s in"))
        await solve(game, seeing=1.5, doing=2.25, detour="u d U D")
        await game.until(lambda: isinstance(game.app.screen, RunScreen))
        await game.until(lambda: game.says("The first of its kind."))
        assert game.says("on the clock 6.75 + added 0.00")
        rows = [" ".join(row.split()) for row in game.rows()]
        assert any(row.startswith("1▸ 1.00 2.00") for row in rows)
        assert any(row.startswith("2 1.50 2.25") for row in rows)
        await game.press("down enter")
        await game.until(lambda: isinstance(game.app.screen, LinesScreen))
        await game.until(lambda: game.says("shortest"))
        shown = game.app.screen
        assert isinstance(shown, LinesScreen)
        mine = shown.page.entries[0]
        assert mine.result is not None
        assert (mine.result.seeing, mine.result.doing) == (150, 225)
        assert game.app.keeper.records.was_shown(mine.position.text)
        await game.press("q")
        (run,) = game.app.keeper.records.ended_runs(DASH)
        attempts = game.app.keeper.records.attempts_of(run.number)
        assert [a.mode for a in attempts] == [DASH, DASH]
        again = await open_runs(game)
        assert again.setup.positions == 2  # the terms of the last run are there
        assert all(a.par is not None for a in attempts)


async def test_turns_over_par_are_added(start: Start) -> None:
    """Each turn over par adds half a second, apart from the clock."""
    async with start() as game:
        await open_runs(game)
        await choose(game, positions=1)
        await begin(game)
        await solve(game, detour=" ".join(["r r u u"] * 6))  # twelve turns that change nothing
        await game.until(lambda: isinstance(game.app.screen, RunScreen))
        screen = game.app.screen
        assert isinstance(screen, RunScreen)
        await game.until(lambda: screen.run_.is_settled)
        over = screen.run_.done[0].over
        assert over
        assert screen.run_.total == 300 + 50 * over
        await game.until(lambda: game.says(f"on the clock 3.00 + added {0.5 * over:.2f}"))


async def test_an_hourglass(start: Start) -> None:
    """Positions come until the time is over; the one in hand then does not count."""
    async with start() as game:
        await open_runs(game)
        await choose(game, mode=HOURGLASS, seconds=30)
        await begin(game)
        await solve(game, seeing=4, doing=6)
        await game.until(lambda: game.says("position 2"))
        await solve(game, seeing=4, doing=6)
        await game.until(lambda: game.says("position 3"))
        screen = game.app.screen
        assert isinstance(screen, RoundScreen)
        await game.until(lambda: screen.sitting.running_since is not None)
        game.clock.now += 3
        await game.until(lambda: game.says("7.0 left, 2 solved"))
        game.clock.now += 8
        await game.until(lambda: isinstance(game.app.screen, RunScreen))
        await game.until(lambda: game.says("Two positions in time"))
        assert game.says("unsolved")


async def test_an_hourglass_that_nobody_plays_on_ends(start: Start) -> None:
    """With inspection each position that is lost takes its 17 seconds: two fill half a minute."""
    async with start() as game:
        await open_runs(game)
        await choose(game, mode=HOURGLASS, seconds=30, inspection=True)
        screen = await begin(game)
        for number in (1, 2):
            await game.until(lambda at=number: game.says(f"position {at}"))  # type: ignore[misc]
            await game.until(lambda: screen.rules.inspects)
            game.clock.now += 17
        await game.until(lambda: game.says("No positions in time"))
        run = game.app.screen
        assert isinstance(run, RunScreen)
        assert [done.clock for done in run.run_.done] == [1700, 1700]
        assert sum("lost: 17 s" in row for row in game.rows()) == 2


async def test_skipping_in_inspection_uses_the_glass_up(start: Start) -> None:
    """Looking for ten seconds and giving up takes ten seconds out of an hourglass."""
    async with start() as game:
        await open_runs(game)
        await choose(game, mode=HOURGLASS, seconds=30, inspection=True)
        screen = await begin(game)
        await game.until(lambda: screen.rules.inspects)
        game.clock.now += 10
        await game.press("g g")
        await game.until(lambda: game.says("position 2"))
        assert screen.rules.round.left_ms == 20_000


async def test_what_was_never_seen_is_dropped(start: Start) -> None:
    """A run that is left while it is counted down is not kept, and none is offered."""
    async with start() as game:
        await open_runs(game)
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
        await game.press("q")
        await game.until(lambda: isinstance(game.app.screen, RunsScreen))
        assert not game.says("was left")
        assert not game.app.keeper.records.has_runs


async def test_the_keys_of_a_run_that_was_left(start: Start) -> None:
    """The key bar offers to go on while a run waits, and no longer once it is closed."""
    async with start() as game:
        await open_runs(game)
        assert not game.says("u go on")
        await begin(game)
        await game.press("q q")
        await game.until(lambda: game.says("u go on"))
        await game.press("x")
        await game.until(lambda: isinstance(game.app.screen, RunScreen))
        await game.press("q")
        await game.until(lambda: isinstance(game.app.screen, RunsScreen))
        await game.until(lambda: not game.says("u go on"))


async def test_the_pace_beside_the_best(start: Start) -> None:
    """A second dash of the kind is told how it stands, and is the best when it is quicker."""
    async with start() as game:
        await open_runs(game)
        await choose(game, positions=2)
        await begin(game)
        await solve(game, seeing=2, doing=2)
        await solve(game, seeing=2, doing=2)
        await game.until(lambda: game.says("The first of its kind."))
        await game.press("a")
        await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        await solve(game, seeing=1, doing=1)
        await game.until(lambda: game.says("2.00 s ahead of your best"))
        await solve(game, seeing=2, doing=1)
        await game.until(lambda: game.says("Your best of its kind, by 3.00 s."))
        assert game.says("-3.00")
        await game.press("q")
        await game.until(lambda: game.says("Your best 5.00 s in two runs"))


async def test_a_run_that_is_left_goes_on(start: Start) -> None:
    """Left after one of two, it is offered, goes on with the second, and is compared with none."""
    async with start() as game:
        await open_runs(game)
        await choose(game, positions=2)
        await begin(game)
        await solve(game)
        screen = game.app.screen
        assert isinstance(screen, RoundScreen)
        await game.until(lambda: screen.sitting.running_since is not None)
        seen = screen.rules.round.position
        await game.press("q q")
        await game.until(lambda: isinstance(game.app.screen, RunsScreen))
    async with start() as game:  # another start of the program
        await open_runs(game)
        assert game.says("A dash was left after 1 of two positions.")
        await game.press("u")
        await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, RoundScreen))
        there = game.app.screen
        assert isinstance(there, RoundScreen)
        assert there.rules.round.position != seen
        assert game.says("2 of 2")
        await solve(game)
        await game.until(lambda: game.says("left and taken up again"))
        assert game.app.keeper.records.open_runs() == ()
        await game.press("q")
        await game.until(lambda: game.says("One run on these terms, none that counts"))


async def test_a_run_that_is_left_can_be_closed(start: Start) -> None:
    """It is closed as it is, with what was finished in it."""
    async with start() as game:
        await open_runs(game)
        await choose(game, positions=3)
        await begin(game)
        await solve(game)
        await game.until(lambda: game.says("2 of 3"))
        await game.press("q q")
        await game.until(lambda: game.says("was left after 1 of three"))
        await game.press("x")
        await game.until(lambda: game.says("Left after one position"))
        assert game.says("one pair")
        assert game.app.keeper.records.open_runs() == ()
        await game.press("q")
        await game.until(lambda: isinstance(game.app.screen, RunsScreen))
        assert not game.says("was left")


async def test_a_run_whose_pack_is_gone(start: Start) -> None:
    """It cannot go on, says so in one line, and can still be closed."""
    async with start() as game:
        run = Run(RunTerms(DASH, 3, "pack/gone"), "seed")
        game.app.keeper.records.begin_run(DASH, run.terms.kind, run_text(run))
        await open_runs(game)
        await game.press("u")
        assert game.says('there is no pack "gone"')
        await game.press("x")
        await game.until(lambda: game.says("Left after no positions"))


async def test_rows_that_are_no_run(start: Start) -> None:
    """What cannot be read as a run is passed over, and closed, so that it is told of no more."""
    async with start() as game:
        half = run_text(Run(RunTerms(DASH, 3, "pack/gone"), "\ud800"))
        for text in ("", "{}", "[" * 1000, half):
            game.app.keeper.records.begin_run(DASH, "kind", text)
        await open_runs(game)
        assert not game.says("was left")
        await game.press("u")
        assert game.app.keeper.records.open_runs() == ()


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
async def test_sizes(start: Start, size: tuple[int, int]) -> None:
    """Terms and result are whole in every window: no row is wider than its room."""
    async with start(size=size) as game:
        await open_runs(game)
        await choose(game, positions=1)
        for words in ("Inspection", "Faces", "Enter begin", "No run on these terms yet"):
            assert game.says(words)
        await begin(game)
        await solve(game)
        await game.until(lambda: game.says("The first of its kind."))
        rows = [row for row in game.rows() if "  1.00  " in row[:20]]
        assert len(rows) == 1
        assert rows[0].rstrip().endswith("█")
