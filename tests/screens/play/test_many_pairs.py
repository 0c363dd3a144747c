"""Levels of many pairs on the playing screen, in a window of 80 by 24."""

from __future__ import annotations

from game.packs import Puzzle
from game.screens.play.result_panel import ResultPanel
from tests.screens.conftest import Start

Shipped = dict[str, Puzzle]


async def test_what_is_asked(start: Start, shipped: Shipped) -> None:
    """Four pairs are asked for in few words, with the cross before them where it is not done."""
    async with start() as game:
        await game.play(shipped["15-four-at-once/two-halves"])
        assert game.text("#goal") == "Solve all four pairs"
    async with start() as game:
        await game.play(shipped["16-cross-and-all/layers-askew"])
        assert game.text("#goal") == "Solve the cross and all four pairs"


async def test_pair_by_pair_stands_beside_par(start: Start, shipped: Shipped) -> None:
    """Once it is solved the best total pair by pair is told, and what the level teaches."""
    async with start() as game:
        await game.play(shipped["14-three-at-once/three-in-a-row"])
        await game.press("f f l f f u L")
        await game.until(lambda: game.says("Solved in 5: at par"))
        told = "Pair by pair, solved pairs kept: 7 turns, order FL, FR, BL; all at once: 5."
        await game.until(lambda: told in game.text("#verdict"))
        assert game.says("at hand: no shorter by top, sides")
        assert "All three are joined already." in game.text("#note")


async def test_what_is_longer_than_its_room_can_be_read(start: Start, shipped: Shipped) -> None:
    """The arrows move what is told: the table of stages comes last, under the note."""
    async with start() as game:
        screen = await game.play(shipped["14-three-at-once/three-in-a-row"])
        await game.press("f f l f f u L")
        await game.until(lambda: "Pair by pair" in game.text("#verdict"))
        panel = screen.query_one(ResultPanel)
        await game.until(lambda: panel.max_scroll_y > 0)
        assert panel.children.index(screen.query_one("#note")) < panel.children.index(
            screen.query_one("#compared")
        )
        await game.press(" ".join(["down"] * panel.max_scroll_y))
        await game.until(lambda: panel.scroll_y == panel.max_scroll_y)
        assert game.says("FL 1 - 0 5")
        await game.press("up")
        await game.until(lambda: panel.scroll_y == panel.max_scroll_y - 1)
