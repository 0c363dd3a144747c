"""Watching solutions."""

from __future__ import annotations

from game.cube.cube import SOLVED
from game.cube.line import Line, inverse
from game.cube.moves import line_text, parse_line
from game.play.position import Position, position_after
from game.screens.lines.watch import PACE_SECONDS, WatchScreen
from game.screens.shared.cube_view import CubeView, FarView
from game.settings import Settings
from tests.screens.conftest import Game, Start

HOOK = parse_line("R B U2 B' R'")
"""Its easiest grip is another one: the cube is turned round first."""
START = position_after(inverse(HOOK))
TWO = (parse_line("R U R'"), parse_line("F' L F L'"))
"""Not solutions of one position: the screen shows whatever lines it is given."""


async def at_watch(game: Game, position: Position, *lines: Line, number: int = 0) -> WatchScreen:
    """The screen, drawn."""
    screen = WatchScreen(position, lines, number)
    await game.app.push_screen(screen)
    await game.until(lambda: screen.query_one(CubeView).scene is not None)
    return screen


async def test_forwards_and_backwards(start: Start) -> None:
    """The keys make turns and take them back, the cube follows, and the ends hold."""
    async with start() as game:
        screen = await at_watch(game, START, HOOK)
        line = screen.line
        assert line[0].is_rotation and line_text(line) == "y F R U2 R' F'"
        for step in (*range(1, len(line) + 1), len(line)):
            await game.press("right")
            assert screen.step == step
            scene = screen.query_one(CubeView).scene
            assert scene is not None and scene.cube == START.cube.turn(line[:step])
        assert START.is_goal(screen.cube)
        await game.press("left left")
        assert screen.cube == START.cube.turn(line[:-2])
        await game.press("0 left")
        assert screen.cube == START.cube
        await game.press("end")
        assert screen.step == len(line)


async def test_the_story(start: Start) -> None:
    """Each turn is named, with what it brings about; a rotation is no turn."""
    async with start() as game:
        await at_watch(game, START, HOOK)
        await game.until(lambda: game.says("At the start"))
        await game.press("right")
        await game.until(lambda: game.says("The cube is turned round"))
        await game.press("right right")
        await game.until(lambda: game.says("Turn 2: R") and game.says("The pair joins."))
        await game.press("end")
        await game.until(lambda: game.says("Turn 5: F'") and game.says("The pair is home."))


async def test_signs_follow(start: Start) -> None:
    """Under each turn made so far stands what it led to: lined up, joined, at last slotted."""
    async with start(size=(120, 40)) as game:
        await at_watch(game, START, HOOK)
        assert "&" not in game.text("#track")
        await game.press("end")
        above, below = game.text("#track").splitlines()
        signs = [(above[at:].split()[0], sign) for at, sign in enumerate(below) if sign != " "]
        assert signs == [("F", "="), ("R", "&"), ("U2", "&"), ("R'", "&"), ("F'", "▾")]
        table = game.text("#story").splitlines()[-2:]
        assert [row.split() for row in table] == [
            ["turn", "freed", "lined", "up", "joined", "slotted"],
            ["line", "-", "1", "2", "5"],
        ]


async def test_the_grip_can_be_the_one_given(start: Start) -> None:
    """`h` shows the line as it is held at the start, without a rotation, and back."""
    async with start() as game:
        screen = await at_watch(game, START, HOOK)
        await game.press("right h")
        assert (screen.step, screen.line) == (0, HOOK)
        await game.press("end h")
        assert (screen.step, line_text(screen.line)[:1]) == (0, "y")


async def test_in_the_grip_of_the_player(start: Start) -> None:
    """A line from a turned grip is shown as the hands make it there, and runs if asked to."""
    y = parse_line("y")
    async with start() as game:
        screen = WatchScreen(START, (HOOK,), grip=SOLVED.turn(y).grip, runs=True)
        await game.app.push_screen(screen)
        await game.until(lambda: screen.query_one(CubeView).scene is not None)
        assert screen.runs
        assert line_text(screen.line) == "F R U2 R' F'"
        made = screen.line[: screen.step]
        assert screen.cube == START.cube.turn((*y, *made))
        await game.press("right right")
        assert not screen.runs
        assert game.text("#track").splitlines()[1].split() == ["=", "&", "joined"]
        assert game.says("The pair joins.")
        await game.press("end")
        assert START.is_goal(screen.cube)


async def test_other_lines(start: Start) -> None:
    """Down and up go through the lines, each from its start; a click chooses one too."""
    async with start() as game:
        screen = await at_watch(game, START, *TWO, number=1)
        await game.until(lambda: game.says("2 of 2"))
        await game.press("right up")
        await game.until(lambda: game.says("1 of 2"))
        assert (screen.step, screen.line) == (0, TWO[0])
        row = next(y for y, text in enumerate(game.rows()) if "F' L F L'" in text or "L F" in text)
        await game.click(offset=(50, row))
        await game.until(lambda: game.says("2 of 2"))


async def test_running_by_itself(start: Start) -> None:
    """Space lets the turns run to the end; there it starts anew; any step by hand stops it."""
    assert PACE_SECONDS > 0
    async with start() as game:
        screen = await at_watch(game, START, HOOK)
        await game.press("space")
        assert screen.runs
        for _ in range(20):
            screen._run_on()
        assert (screen.step, screen.runs) == (len(screen.line), False)
        await game.press("space")
        assert (screen.step, screen.runs) == (0, True)
        await game.press("right")
        assert (screen.step, screen.runs) == (1, False)


async def test_one_line_in_the_grip_given(start: Start) -> None:
    """With one line, already in its easiest grip, neither grip nor next line is offered."""
    async with start() as game:
        await at_watch(game, position_after(inverse(TWO[0])), TWO[0])
        await game.until(lambda: game.says("q back"))
        assert not game.says("h hold")
        assert not game.says("next line")


async def test_the_far_side_where_there_is_room(start: Start) -> None:
    """In a large window the far side is shown, unless the player never wants it."""
    async with start(size=(120, 40)) as game:
        screen = await at_watch(game, START, HOOK)
        await game.until(lambda: game.says("far side:"))
        assert screen.query_one(FarView).picture
    async with start(size=(120, 40), settings=Settings(far_side="never")) as game:
        await at_watch(game, START, HOOK)
        await game.until(lambda: game.says("At the start"))
        assert not game.says("far side:")


async def test_the_far_side_at_80x24(start: Start) -> None:
    """In a low window it has its room too; the table of stages gives way."""
    async with start() as game:
        screen = await at_watch(game, START, HOOK)
        await game.until(lambda: game.says("far side:"))
        assert screen.query_one(FarView).picture
        assert screen.query_one(FarView).region.height == len(screen.query_one(FarView).picture)
        assert not game.says("slotted")


async def test_the_grip_is_told(start: Start) -> None:
    """Both grips are listed, and the title says which is on the cube."""
    async with start() as game:
        await at_watch(game, START, HOOK)
        await game.until(lambda: game.says("Shortest solutions, held otherwise"))
        assert game.says("or held otherwise:")
        await game.press("h")
        await game.until(lambda: game.says("Shortest solutions, held as given"))


async def test_help_and_back(start: Start) -> None:
    """Help opens over the screen and closes to it; q leads back to what was below."""
    async with start() as game:
        below = game.app.screen
        screen = await at_watch(game, START, HOOK)
        await game.press("f1")
        await game.until(lambda: game.says("Watching solutions: watching"))
        await game.press("escape")
        await game.until(lambda: game.app.screen is screen)
        await game.press("q")
        await game.until(lambda: game.app.screen is below)
