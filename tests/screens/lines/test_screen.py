"""The screen of several lines."""

from __future__ import annotations

import pytest

from game.cube.moves import parse_line
from game.play.position import position_after
from game.play.result import Result
from game.screens.lines.columns import PlayerLine
from game.screens.lines.race import RaceScreen
from game.screens.lines.screen import LinesScreen, Page
from tests.screens.conftest import Game, Start
from tests.screens.several import HOOK, LONG, START, entry

DOOR = position_after(parse_line("R U R'"))
DOOR_LINE = parse_line("R U' R'")


def page(*names: str, title: str = "Position 1 of 2") -> Page:
    entries = (entry(name, (HOOK, LONG)[at % 2]) for at, name in enumerate(names))
    return Page(title, START, tuple(entries))


async def at_lines(game: Game, *pages: Page, onward: str = "") -> LinesScreen:
    """The screen, drawn."""
    screen = LinesScreen(pages, onward=onward)
    await game.app.push_screen(screen)
    name = pages[0].entries[0].name
    await game.until(lambda: screen.is_active and game.says(pages[0].title) and game.says(name))
    return screen


async def test_par_and_a_shortest_line_come_when_they_are_found(start: Start) -> None:
    """The lines are there at once; par, what is over it and a shortest line once it is known."""
    async with start() as game:
        screen = await at_lines(game, page("Ada", "Bo"))
        await game.until(lambda: game.says("par 5"))
        await game.until(lambda: game.says("turns 5 par 7 +2 5 par"))
        assert game.says("Ada Bo shortest")
        assert screen.page.par == 5


async def test_the_marked_and_the_picked_are_watched(start: Start) -> None:
    """`w` watches the marked line; once lines are picked those, two at most, the latest two."""
    async with start() as game:
        screen = await at_lines(game, page("Ada", "Bo", "Cem"))

        async def watched() -> list[str]:
            await game.press("w")
            await game.until(lambda: isinstance(game.app.screen, RaceScreen))
            race = game.app.screen
            assert isinstance(race, RaceScreen)
            names = [seen.name for seen in race.entries]
            await game.press("q")
            await game.until(lambda: game.app.screen is screen)
            return names

        await game.press("right")
        assert await watched() == ["Bo"]
        await game.press("space right space")
        assert await watched() == ["Bo", "Cem"]
        await game.press("left left space")
        assert await watched() == ["Ada", "Cem"]
        await game.press("space right right space")
        assert await watched() == ["Cem"]


@pytest.mark.parametrize("size", [(80, 24), (60, 20)])
async def test_eight_players(start: Start, size: tuple[int, int]) -> None:
    """Each of eight names can be brought into view, and the lines scrolled to their ends."""
    names = ("Ada", "Bo", "Cem", "Dora", "Emil", "Fay", "Gus", "Hal")
    line = LONG[:3] + parse_line("U U' ") * 10 + LONG[3:]
    entries = tuple(PlayerLine(START, n, line, Result(line, 10, 10, False, True)) for n in names)
    async with start(size=size) as game:
        screen = await at_lines(game, Page("Eight", START, entries))
        for name in names:
            await game.until(lambda name=name: game.says(name))  # type: ignore[misc]
            await game.press("right")
        assert not game.says(f"{len(line)} R'")
        for _ in range(len(line)):
            await game.press("down")
        await game.until(lambda: game.says(f"{len(line)} R'"))
        await game.press("left " * 8)
        await game.until(lambda: game.says("Ada"))
        assert screen.page.entries[0].name == "Ada"


async def test_a_click_marks_and_picks(start: Start) -> None:
    """A click on a column marks it, a second one picks it."""
    async with start() as game:
        await at_lines(game, page("Ada", "Bo", "Cem"))
        column = game.rows()[2].index("Cem")
        for sign in ("Cem", "Cem ✓"):
            await game.pilot.click(offset=(column, 8))
            await game.until(lambda sign=sign: sign in game.rows()[2])  # type: ignore[misc]


async def test_other_positions(start: Start) -> None:
    """`n` and `p` go round the positions; with one there is nothing to go to."""
    door = Page("The door", DOOR, (PlayerLine(DOOR, "Eve", DOOR_LINE),))
    async with start() as game:
        await at_lines(game, page("Ada", "Bo"), door)
        assert game.says("n next position")
        await game.press("right space n")
        await game.until(lambda: game.says("The door") and game.says("Eve"))
        assert not game.says("✓")
        await game.press("n")
        await game.until(lambda: game.says("Position 1 of 2") and not game.says("✓"))
        await game.press("p")
        await game.until(lambda: game.says("The door"))
    async with start() as game:
        await at_lines(game, door)
        assert not game.says("n next position")


async def test_going_on_and_back(start: Start) -> None:
    """Enter leads on where something comes next, and does nothing elsewhere; `q` leads back."""
    async with start() as game:
        below = game.app.screen
        for keys, onward in (("enter", "next position"), ("q", "next position"), ("q", "")):
            screen = await at_lines(game, page("Ada", "Bo"), onward=onward)
            assert game.says("Enter next position") == bool(onward)
            if not onward:
                await game.press("enter")
                assert game.app.screen is screen
            await game.press(keys)
            await game.until(lambda: game.app.screen is below)


async def test_help(start: Start) -> None:
    """The help tells the keys of this screen first."""
    async with start() as game:
        await at_lines(game, page("Ada", "Bo"))
        await game.press("f1")
        await game.until(lambda: game.says("Pick the marked line"))
