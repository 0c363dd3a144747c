"""Watching one line or two."""

from __future__ import annotations

from game.cube.cube import Cube
from game.screens.lines.columns import PlayerLine
from game.screens.lines.race import Lane, RaceScreen
from game.screens.shared.cube_view import CubeView
from game.screens.shared.line_view import LineView
from tests.screens.conftest import Game, Start
from tests.screens.several import HOOK, LONG, START, entry

ADA, BO = entry("Ada", HOOK, 341, 210), entry("Bo", LONG, 100, 600)
"""Ada's moves end at 5.51 seconds, Bo's at 7."""


async def at_race(game: Game, *entries: PlayerLine) -> RaceScreen:
    """The screen, drawn."""
    screen = RaceScreen(entries)
    await game.app.push_screen(screen)
    await game.until(lambda: all(view.scene for view in screen.query(CubeView)))
    await game.until(lambda: all(view.region.width for view in screen.query(CubeView)))
    assert len(screen.query(Lane)) == len(entries)
    return screen


def cubes(screen: RaceScreen) -> list[Cube]:
    """The cubes shown."""
    scenes = [view.scene for view in screen.query(CubeView)]
    return [scene.cube for scene in scenes if scene is not None]


def steps(screen: RaceScreen) -> list[int]:
    return [lane.step for lane in screen.query(Lane)]


async def test_turn_by_turn(start: Start) -> None:
    """Both lines take the same steps; the shorter one waits at its end; the ends hold."""
    async with start() as game:
        screen = await at_race(game, ADA, BO)
        await game.press("left right right")
        assert cubes(screen) == [START.cube.turn(HOOK[:2]), START.cube.turn(LONG[:2])]
        await game.press("end right")
        assert steps(screen) == [5, 7]
        assert all(START.is_goal(cube) for cube in cubes(screen))
        await game.press("left")
        assert steps(screen) == [5, 6]
        await game.press("0")
        assert cubes(screen) == [START.cube, START.cube]


async def test_the_lines_stand_below_with_their_stages(start: Start) -> None:
    """Below each cube are the moves made so far and their signs."""
    async with start() as game:
        screen = await at_race(game, ADA, BO)
        await game.press("right right")
        shown = [str(view.render()).split("\n") for view in screen.query(LineView)]
        assert [rows[0] for rows in shown] == ["R B", "R U'"]
        assert [rows[1].split()[:2] for rows in shown] == [["=", "&"], []]


async def test_in_time(start: Start) -> None:
    """By the clock each line is as far as its player was then, and stops when both have ended."""
    async with start() as game:
        screen = await at_race(game, ADA, BO)
        await game.press("t")
        await game.until(lambda: game.says("In time"))
        await game.press("space")
        assert screen.runs
        for seconds, made in ((0.5, [0, 0]), (0.6, [0, 1]), (2.4, [1, 3]), (2.1, [5, 5])):
            game.clock.now += seconds
            screen._tick()
            assert steps(screen) == made
        await game.until(lambda: game.says("5.60"))
        game.clock.now += 60
        screen._tick()
        assert (steps(screen), screen.runs, screen.ms) == ([5, 7], False, 7000)


async def test_stepping_in_time(start: Start) -> None:
    """By hand the clock goes from one turn of either to the next, and back."""
    async with start() as game:
        screen = await at_race(game, ADA, BO)
        await game.press("t right")
        assert (screen.ms, steps(screen)) == (1000, [0, 1])
        await game.press("right right right")
        assert (screen.ms, steps(screen)) == (3410, [1, 3])
        await game.press("left")
        assert (screen.ms, steps(screen)) == (3000, [0, 3])
        await game.press("t")
        assert (screen.step, steps(screen)) == (0, [0, 0])


async def test_running_turn_by_turn(start: Start) -> None:
    """Space lets the turns run to the end; there it starts anew; a step by hand stops it."""
    async with start() as game:
        screen = await at_race(game, ADA, BO)
        await game.press("space")
        assert screen.runs
        for _ in range(20):
            screen._step_on()
        assert (steps(screen), screen.runs) == ([5, 7], False)
        await game.press("space")
        assert (steps(screen), screen.runs) == ([0, 0], True)
        await game.press("right")
        assert (steps(screen), screen.runs) == ([1, 1], False)


async def test_only_what_was_timed_runs_in_time(start: Start) -> None:
    """Beside a line without times there is no running in time."""
    async with start() as game:
        screen = await at_race(game, ADA, PlayerLine(START, "shortest", HOOK))
        assert not game.says("in time")
        await game.press("t")
        assert not screen.is_timed


async def test_nothing_to_watch(start: Start) -> None:
    """A line without moves stands at its start whatever is pressed."""
    async with start() as game:
        screen = await at_race(game, entry("Ada", (), solved=False))
        await game.press("right end space left 0")
        assert (steps(screen), screen.runs) == ([0], False)


async def test_one_or_two_fill_the_room(start: Start) -> None:
    """One cube is drawn larger than two are, and two fit beside each other at 60x20."""
    async with start(size=(60, 20)) as game:
        two = await at_race(game, ADA, BO)
        regions = [view.region for view in two.query(CubeView)]
        assert all(two.region.contains_region(region) for region in regions)
        assert not regions[0].overlaps(regions[1]) and regions[0].width >= 20
        assert [view.picture_size.width for view in two.query(CubeView)] == [
            r.width for r in regions
        ]
    async with start(size=(120, 40)) as game:
        two = await at_race(game, ADA, BO)
        width = two.query(CubeView).first().region.width
        await game.press("q")
        one = await at_race(game, ADA)
        assert one.query(CubeView).first().region.width > width
