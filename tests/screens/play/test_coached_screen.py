"""Hints and the facts of shorter ways, on the playing screen."""

from __future__ import annotations

from game.packs import Puzzle
from game.screens.lines.watch import WatchScreen
from game.screens.play.casual import PlayScreen
from game.screens.shared.cube_view import CubeView, FarView
from game.screens.shared.too_small import LEAST_COLUMNS, LEAST_ROWS
from game.settings import Settings
from tests.screens.conftest import Game, Start

Shipped = dict[str, Puzzle]
FIRST, HOOK = "00-first-turns/open-door", "00-first-turns/other-way-round"
"""Levels of par 3, `R U' R'`, and of par 5, `R B U2 B' R'`."""
HABIT = "r U R u u r u R"
"""The keys of `R U' R' U2 R U R'`, seven turns that solve the second of them."""


def marks(game: Game) -> int:
    """Stickers that carry a mark on the cube shown."""
    scene = game.app.screen.query_one(CubeView).scene
    assert scene is not None
    return len(scene.marked)


async def test_the_ladder_is_climbed_by_one_key(start: Start, shipped: Shipped) -> None:
    """`h` tells where the pair lies, marks the aim, tells the turn, plays the line."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press("h")
        await game.until(lambda: game.text("#hint").startswith("Hint 1 of 4: where it lies"))
        assert "white up" in game.text("#hint")
        assert (marks(game), game.text("#goal")) == (0, "")
        await game.press("h")
        assert game.text("#hint").startswith("Hint 2 of 4: the aim\nLine them up, one turn")
        assert marks(game) == 5
        await game.press("h")
        assert "Turn R: press r." in game.text("#hint")
        await game.press("h")
        await game.until(lambda: isinstance(game.app.screen, WatchScreen))
        await game.press("end q")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        assert "From here: R B U2 B' R'." in game.text("#hint")
        assert [event.what for event in game.sitting.attempt.events] == [
            "hint 1", "hint 2", "hint 3", "hint 4",
        ]  # fmt: skip


async def test_a_hint_goes_with_the_place_it_was_given_at(start: Start, shipped: Shipped) -> None:
    """A turn puts it away; on its way the same rung comes again, off it the first."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press("h")
        await game.until(lambda: game.text("#hint"))
        await game.press("h h r")
        await game.until(lambda: (game.text("#hint"), marks(game)) == ("", 0))
        assert game.text("#goal").startswith("Solve the pair")
        await game.press("h")
        await game.until(
            lambda: game.text("#hint") == "Hint 3 of 4: the next turn\nTurn B: press b."
        )
        await game.press("u h")
        await game.until(lambda: game.text("#hint").startswith("Hint 1 of 4"))


async def test_marks_go_when_the_attempt_is_over(start: Start, shipped: Shipped) -> None:
    """Who gives up with an aim in view is shown the solutions, and the cube without marks."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press("h")
        await game.until(lambda: game.text("#hint"))
        await game.press("h")
        assert marks(game) == 5
        await game.press("g g")
        await game.until(lambda: game.says("The shortest takes 5 turns"))
        assert (marks(game), game.text("#hint")) == (0, "")


async def test_a_hinted_attempt_earns_no_mark_but_the_first(start: Start, shipped: Shipped) -> None:
    """It is said, kept in the records, and is no best; it survives leaving and coming back."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("h")
        await game.until(lambda: game.text("#hint"))
        await game.press("r q")
    async with start() as game:
        await game.play(shipped[FIRST])
        assert game.text("#line").splitlines()[0] == "R"
        await game.press("U R")
        await game.until(lambda: game.says("Solved in 3: par, with a hint"))
        assert game.says("With a hint only solving counts.")
        text = shipped[FIRST].position.text
        (record,) = game.app.keeper.records.attempts(text)
        assert (record.hint, record.shown, record.turns, record.par) == (True, False, 3, 3)
        best = game.app.keeper.records.best(text)
        assert best is not None
        assert (best.solved, best.at_hand, best.at_par, best.turns) == (True, False, False, None)


async def test_the_whole_line_counts_as_shown(start: Start, shipped: Shipped) -> None:
    """Who has seen it played has seen the solution, now and at later tries."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("h")
        await game.until(lambda: game.text("#hint"))
        await game.press("h h h")
        await game.until(lambda: isinstance(game.app.screen, WatchScreen))
        await game.press("q")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        assert game.sitting.shown
        assert game.app.keeper.records.was_shown(shipped[FIRST].position.text)


async def test_under_the_line_stand_the_stages(start: Start, shipped: Shipped) -> None:
    """Lined up, joined and slotted as they come, the newest in words; all in the result."""
    async with start() as game:
        await game.play(shipped["04-uneasy-neighbours/over-the-fence"])
        await game.press("L u B u")
        assert game.text("#line").splitlines()[0] == "L' U B' U"
        await game.press("u b")
        assert game.text("#line").splitlines() == [
            "L' U B' U2 B",
            "        =  & joined",
        ]
        assert game.text("#message") == "The pair joins."
        await game.press("u u l")
        await game.until(lambda: game.says("Solved in 7: at par"))
        assert game.text("#line").splitlines() == [
            "L' U B' U2 B U2 L",
            "        =  & &  ▾",
        ]
        assert game.text("#compared").splitlines()[1].split() == ["yours", "-", "4", "5", "7"]


async def test_over_par_the_stages_of_both_lines_are_shown(start: Start, shipped: Shipped) -> None:
    """Yours at once; the nearest shortest beside it when the solutions are in view."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press(HABIT)
        await game.until(lambda: game.says("turns later than needed"))
        assert game.text("#compared").splitlines()[1].split() == ["yours", "-", "4", "5", "7"]
        await game.press("g")
        assert game.text("#compared").splitlines()[-1].split() == ["nearest", "-", "1", "2", "5"]
        assert "Its first turn is yours too; then they part." in game.text("#compared")


async def test_is_there_a_shorter_way(start: Start, shipped: Shipped) -> None:
    """Once over, `h` asks and puts away: each question with its limits and what is proven."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press(HABIT)
        await game.until(lambda: game.says("two over par"))
        await game.press("h")
        await game.until(lambda: "searched" not in game.text("#ways") and game.text("#ways"))
        assert game.text("#ways").splitlines() == [
            "Is there a shorter way?",
            "in any way, any face",
            "  5 turns, 1 way",
            "on both sides, only F, R and U",
            "  7 turns, 3 ways",
            "on the right side, only R and U",
            "  7 turns, 1 way",
            "on the left side, only F and U",
            "  impossible",
        ]
        assert game.says("h result")
        await game.press("h")
        assert game.text("#ways") == ""
        await game.until(lambda: game.says("turns later than needed"))


async def test_no_question_while_par_is_to_be_called(start: Start, shipped: Shipped) -> None:
    """Before the call `h` tells nothing."""
    async with start(settings=Settings(call=True)) as game:
        await game.play(shipped[HOOK])
        await game.press(f"{HABIT} h")
        await game.until(lambda: game.says("Does a shorter way exist?"))
        assert game.text("#ways") == ""


async def test_a_long_hint_leaves_the_far_side_whole(
    start: Start, shipped: dict[str, Puzzle]
) -> None:
    """In the smallest window the numbers give way to a hint that needs their room."""
    async with start(size=(LEAST_COLUMNS, LEAST_ROWS)) as game:
        screen = await game.play(shipped["03-across-the-top/a-dip-of-the-corner"])
        await game.press("h")
        await game.until(lambda: game.says("Hint 1"))
        assert game.says("par 6")
        await game.press("h")
        await game.until(lambda: game.says("Hint 2") and not game.says("par 6"))
        assert game.says("far side")
        far = screen.query_one(FarView)
        assert far.region in screen.query_one("#side").region
        await game.press("u")
        await game.until(lambda: game.says("par 6"))
