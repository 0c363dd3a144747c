"""Turns that are seen turning: by the clock, and never in the way of a key."""

from __future__ import annotations

from game.cube.cube import SOLVED
from game.cube.moves import MOVES
from game.draw.drawing import draw_cube
from game.draw.look import Look, Turning
from game.engine.engine import Engine
from game.packs import Puzzle
from game.play.position import position_after
from game.screens.shared.cube_view import TURN_SECONDS, CubeView, scene_of
from tests.screens.conftest import StandingClock, Start

LOOK = Look(size=8)
R, U = MOVES["R"], MOVES["U"]


async def test_a_turn_is_drawn_as_far_as_the_clock_has_come(start: Start) -> None:
    """At the start the cube before the turn, then a turning layer, at the end the cube after."""
    position = position_after(())
    before, after = (
        scene_of(position, cube, LOOK, focus=False) for cube in (SOLVED, SOLVED.turn((R,)))
    )
    clock = StandingClock()
    async with start() as game:
        view = CubeView(clock=clock)
        await game.app.screen.mount(view)
        view.rest(before)
        at_rest = view.picture
        view.turn(R, after)
        assert view.is_turning
        clock.now += TURN_SECONDS / 2
        await game.until(lambda: view.picture != at_rest)
        joined = tuple(slot for slot in before.joined if slot in after.joined)
        assert view.picture == draw_cube(SOLVED, LOOK, joined=joined, turning=Turning(R, 0.75))
        clock.now += TURN_SECONDS
        await game.until(lambda: not view.is_turning)
        assert view.picture == draw_cube(after.cube, LOOK, joined=after.joined)


async def test_a_key_cuts_off_the_turn_before(start: Start) -> None:
    """A second turn begins from where the first one ends, at once."""
    position = position_after(())
    first, second = SOLVED.turn((R,)), SOLVED.turn((R, U))
    clock = StandingClock()
    async with start() as game:
        view = CubeView(clock=clock)
        await game.app.screen.mount(view)
        view.rest(scene_of(position, SOLVED, LOOK, focus=False))
        view.turn(R, scene_of(position, first, LOOK, focus=False))
        view.turn(U, scene_of(position, second, LOOK, focus=False))
        assert view._from is not None
        assert view._from.cube == first
        assert view.scene is not None
        assert view.scene.cube == second


async def test_the_last_of_several_turns_is_seen_from_where_it_begins(start: Start) -> None:
    """Where two turns are shown together, the second turns on the cube that the first has made."""
    position = position_after(())
    async with start() as game:
        view = CubeView(clock=StandingClock())
        await game.app.screen.mount(view)
        view.rest(scene_of(position, SOLVED, LOOK, focus=False))
        view.turn(U, scene_of(position, SOLVED.turn((R, U)), LOOK, focus=False))
        assert view._from is not None
        assert view._from.cube == SOLVED.turn((R,))


async def test_what_is_shown_anew_does_not_cut_a_turn_off(start: Start) -> None:
    """The same scene again, as when a search has found something, lets the turn go on."""
    position = position_after(())
    after = scene_of(position, SOLVED.turn((R,)), LOOK, focus=False)
    async with start() as game:
        view = CubeView(clock=StandingClock())
        await game.app.screen.mount(view)
        view.rest(scene_of(position, SOLVED, LOOK, focus=False))
        view.turn(R, after)
        view.rest(scene_of(position, SOLVED.turn((R,)), LOOK, focus=False))
        assert view.is_turning
        view.rest(scene_of(position, SOLVED, LOOK, focus=False))
        assert not view.is_turning


async def test_keys_do_not_wait_for_turns(start: Start, shipped: dict[str, Puzzle]) -> None:
    """With every turn animated and the clock standing still, three keys solve the level."""
    async with start() as game:
        screen = await game.play(shipped["00-first-turns/open-door"])
        game.app.animation_level = "full"
        await game.until(lambda: game.app.animates)
        view = screen.query_one(CubeView)
        view._clock = StandingClock()
        await game.press("r U R")
        assert game.sitting.outcome == "solved"
        assert view.is_turning


async def test_before_numpy_is_there_turns_are_not_animated(
    start: Start, shipped: dict[str, Puzzle]
) -> None:
    """A key at the very start turns the cube at once, instead of waiting for an import."""
    async with start() as game:
        screen = await game.play(shipped["00-first-turns/open-door"])
        game.app.animation_level = "full"
        game.app.engine = Engine(game.app.folders.cache)
        await game.press("r")
        view = screen.query_one(CubeView)
        assert not view.is_turning
        assert view.scene is not None
        assert view.scene.cube == game.sitting.cube
