"""The drill, through the screen."""

from __future__ import annotations

import pytest

from game.cube.line import Line
from game.cube.moves import line_text, parse_line
from game.drill import Choice, Standing, choose, history, items_of
from game.drill.standing import DrillTry, History
from game.folders import Folders
from game.modes import DRILL
from game.play.position import position_after
from game.records import open_records
from game.screens.app import PairwrightApp
from game.screens.drill.screen import DrillPuzzle, DrillScreen, standing_text
from game.screens.home.screen import HomeScreen
from game.screens.play.casual import PlayScreen
from tests.screens.conftest import Game, Slow, Start


def keys(line: Line) -> str:
    """What to press for a line of face turns."""
    pressed = []
    for turn in line_text(line).split():
        letter = turn[0].lower()
        pressed += {"'": [letter.upper()], "2": [letter] * 2}.get(turn[1:], [letter])
    return " ".join(pressed)


async def opened(game: Game) -> DrillScreen:
    """The drill's page, the next position ready."""
    screen = DrillScreen()
    await game.app.push_screen(screen)
    await game.until(lambda: screen._next is not None)
    return screen


async def playing(game: Game) -> PlayScreen:
    """The position in front, its solutions known and its clock running."""
    await game.until(lambda: isinstance(game.app.screen, PlayScreen))
    screen = game.app.screen
    assert isinstance(screen, PlayScreen)
    await game.until(lambda: screen.sitting.solutions and screen.sitting.running_since is not None)
    return screen


async def solve(game: Game) -> DrillPuzzle:
    """Solve the position in front at par; the puzzle."""
    screen = await playing(game)
    puzzle = screen.sitting.puzzle
    assert isinstance(puzzle, DrillPuzzle)
    game.clock.now += 2
    await game.press(keys(screen.sitting.solutions[0]))
    await game.until(lambda: screen.sitting.outcome == "solved")
    return puzzle


async def test_from_home_to_the_first_position(start: Start) -> None:
    """At home d opens the drill, and Enter its first position, with why it was chosen."""
    async with start(app_type=PairwrightApp) as game:
        await game.until(lambda: game.says("far side"))
        await game.press("escape")
        await game.until(lambda: isinstance(game.app.screen, HomeScreen))
        await game.until(lambda: game.says("Drill"))
        await game.press("d")
        await game.until(lambda: game.says("nothing is forgotten"))
        await game.until(lambda: game.says("Rating 1500"))
        await game.press("enter")
        screen = await playing(game)
        assert game.says(choose(History().now).why)
        assert game.says("rating 1500")
        assert screen.sitting.position == choose(History().now).position


async def test_it_goes_on_without_end(start: Start, folders: Folders) -> None:
    """Each position solved leads to another by Enter, and each is recorded as of the drill."""
    async with start() as game:
        await opened(game)
        await game.press("enter")
        played = []
        for _ in range(4):
            puzzle = await solve(game)
            played.append(puzzle)
            await game.press("enter")
            await game.until(
                lambda last=puzzle: (
                    isinstance(game.app.screen, PlayScreen) and game.sitting.puzzle != last
                )
            )
        assert len({puzzle.key for puzzle in played}) == 4
        assert played[-1].rating > played[0].rating
    records = open_records(folders.records)
    assert [tried.puzzle for tried in records.tries(DRILL)] == [puzzle.key for puzzle in played]
    assert all(tried.at_par for tried in records.tries(DRILL))
    records.close()


async def test_it_goes_on_next_time(start: Start) -> None:
    """Left in the middle of an attempt, it is there again after a new start, turns and all."""
    async with start() as game:
        await opened(game)
        await game.press("enter")
        first = await solve(game)
        await game.press("enter")
        await game.until(lambda: game.sitting.puzzle != first)
        before = (await playing(game)).sitting.position
        await game.press("y u")
        await game.press("q")
        await game.until(lambda: game.says("Tried one position"))
    async with start() as game:
        screen = await opened(game)
        assert screen._history is not None
        assert screen._history.now.tries == 1
        await game.press("enter")
        after = (await playing(game)).sitting
        assert after.position == before
        assert after.attempt.turns == 1


async def test_why_is_told_when_asked(start: Start) -> None:
    """After the first turn the reason makes way; Space tells it again."""
    async with start() as game:
        await opened(game)
        await game.press("enter")
        screen = await playing(game)
        why = screen.sitting.puzzle.why
        assert game.says(why)
        await game.press("u")
        assert not game.says(why)
        await game.press("space")
        assert game.says(why)


async def test_none_is_passed_over(start: Start) -> None:
    """The drill stays until the position is solved or given up; a given up one counts as lost."""
    async with start() as game:
        page = await opened(game)
        await game.press("enter")
        screen = await playing(game)
        first = screen.sitting.puzzle
        await game.press("n")
        assert game.says("then the drill goes on")
        await game.press("p")
        assert screen.sitting.puzzle == first
        await game.press("g g")
        await game.until(lambda: page._history is not None and page._history.now.tries == 1)
        assert page._history is not None
        assert page._history.now.player.rating < 1500
        await game.press("n")
        await game.until(lambda: game.sitting.puzzle != first)


async def test_again_does_not_count_twice(start: Start) -> None:
    """Another try at the same position is recorded, but rated only once."""
    async with start() as game:
        page = await opened(game)
        await game.press("enter")
        await solve(game)
        await game.press("a")
        await game.until(lambda: game.sitting.outcome == "")
        await solve(game)
        assert page._history is not None
        assert page._history.now.tries == 1


async def test_many_pairs_are_played_without_waiting(
    start: Start, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Four pairs can be played before par is known; the try is rated once it is."""
    position = position_after(parse_line("D' R L"))
    four = Choice(items_of("four")[0], position, "Four.")
    monkeypatch.setattr("game.screens.drill.screen.choose", lambda _: four)
    slow = Slow()
    monkeypatch.setattr("game.search.shortest.search", slow)
    async with start() as game:
        page = await opened(game)
        assert page._next is not None
        assert page._next.par is None
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        await game.until(lambda: game.says("four pairs"))
        await game.press("L R d")
        await game.until(lambda: game.says("Solved in 3 turns"))
        assert page._history is not None
        now = page._history.now
        assert (now.tries, now.player.rating) == (1, Standing().player.rating)
        slow.may_go_on.set()
        await game.until(lambda: page._history and page._history.now.player.rating > 1500)
        assert page._history.now.tries == 1


def test_the_page_tells_which_steps_are_open() -> None:
    """A newcomer has the first step; what is not open yet is said to come later."""
    said = standing_text(history(()), "").plain
    assert "one pair\n" in said
    assert "two pairs, the others open, later" in said
    hard = "four/FR+FL+BL+BR/none free"
    won = (DrillTry(hard, str(n), True, 3000) for n in range(200))
    assert "later" not in standing_text(history(won), "").plain
    assert "Looking up" in standing_text(None, "").plain
