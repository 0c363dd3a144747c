"""The playing screen by other ways than a turn's key: typing, pasting, clicking, odd keyboards."""

from __future__ import annotations

import pytest
from textual import events
from textual.widgets import Input

from game.cube.moves import Move
from game.packs import Puzzle
from game.play.sitting import Sitting
from game.screens.play.board import Board, Shown
from game.screens.play.line_input import LineInput
from game.screens.shared.cube_view import CubeView
from game.settings import Settings
from tests.screens.conftest import Start

Shipped = dict[str, Puzzle]
FIRST = "00-first-turns/open-door"
CALLED = {" ": "space", "'": "apostrophe"}
"""The names of keys that are not named by what they type."""


async def test_a_typed_line_is_checked_and_applied(start: Start, shipped: Shipped) -> None:
    """A fault is shown under its place while typed, Enter refuses it, and mended it solves."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("t R space Q")
        assert game.text("#remark").splitlines() == ["  ^", 'unknown turn "Q"']
        await game.press("enter")
        assert game.app.screen.query_one(LineInput).display
        assert game.sitting.attempt.events == ()
        await game.press("backspace U ' space R '")
        assert game.text("#remark").splitlines() == [
            "3 turns: R U' R'",
            "Enter makes the turns from here, Escape closes.",
        ]
        await game.press("enter")
        assert not game.app.screen.query_one(LineInput).display
        assert game.sitting.outcome == "solved"


async def test_a_typed_line_is_told_as_it_will_be_made(start: Start, shipped: Shipped) -> None:
    """A small letter, which as a key is a plain turn, is seen to be a wide one."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("t r U 2 x '")
        assert game.text("#remark").splitlines()[0] == "3 turns: Rw U2 x'"


async def test_a_typed_line_keeps_to_the_faces(start: Start, shipped: Shipped) -> None:
    """A face that may not turn is told while typed; Enter refuses the line and keeps it."""
    limited = next(p for p in shipped.values() if p.position.faces == "RU" and not p.twin)
    async with start() as game:
        await game.play(limited)
        await game.press("t U B")
        assert game.text("#remark").splitlines()[1] == "B turns face B; here only R and U may turn."
        await game.press("enter")
        assert game.app.screen.query_one(Input).value == "UB"
        assert game.sitting.attempt.events == ()


async def test_keys_that_come_at_once_land_in_the_line(start: Start, shipped: Shipped) -> None:
    """What is written behind `t` in one burst is typed, a turn before it is turned."""
    async with start() as game:
        await game.play(shipped[FIRST])
        for key in "rtF2 U R'":
            game.app.post_message(events.Key(CALLED.get(key, key), key))
        await game.until(lambda: game.app.screen.query_one(Input).value == "F2 U R'")
        assert [event.what for event in game.sitting.attempt.events] == ["R"]
        game.app.post_message(events.Key("enter", None))
        await game.until(lambda: len(game.sitting.attempt.events) == 4)


async def test_escape_closes_the_line(start: Start, shipped: Shipped) -> None:
    """Escape closes the typed line, turns nothing and does not leave the level."""
    async with start() as game:
        screen = await game.play(shipped[FIRST])
        await game.press("t r u f escape")
        assert game.app.screen is screen
        assert game.sitting.attempt.events == ()
        await game.press("r")
        assert game.text("#line").splitlines()[0] == "R"


async def test_a_paste_outside_the_line_turns_nothing(start: Start, shipped: Shipped) -> None:
    """Pasted text is no key presses: a hint names the key that opens the line."""
    async with start() as game:
        await game.play(shipped[FIRST])
        game.app.post_message(events.Paste("R U R'"))
        await game.until(lambda: game.text("#message") == "To paste turns, press t first.")
        assert game.sitting.attempt.events == ()


async def test_a_paste_into_the_line_is_read(start: Start, shipped: Shipped) -> None:
    """Turns pasted into the open line, typographic primes and all, are applied with Enter."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("t")
        game.app.post_message(events.Paste("R U’ R’"))
        await game.until(lambda: game.app.screen.query_one(Input).value)
        await game.press("enter")
        assert game.sitting.outcome == "solved"


async def test_caps_lock_is_noticed_and_answered(start: Start, shipped: Shipped) -> None:
    """After four capitals a notice names the key that reads them as plain, and it does."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("F B L")
        assert "Caps Lock" not in game.text("#message")
        await game.press("D")
        assert "Caps Lock" in game.text("#message")
        await game.press("K 0 R u R")
        assert [event.what for event in game.sitting.attempt.events][-3:] == ["R", "U'", "R"]


async def test_a_terminal_that_tells_shift_apart_is_understood(
    start: Start, shipped: Shipped
) -> None:
    """`shift+r` is the other way, whatever capitals mean."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("shift+r k shift+r")
        assert [event.what for event in game.sitting.attempt.events] == ["R'", "R'"]


async def test_another_script_gets_a_hint(start: Start, shipped: Shipped) -> None:
    """A Cyrillic letter turns nothing and is answered with a word about the keyboard."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("к")
        assert "this key types к" in game.text("#message").lower()
        assert game.sitting.attempt.events == ()


async def test_a_click_on_a_face_turns_it(start: Start, shipped: Shipped) -> None:
    """The left button turns the face under it clockwise, the right one the other way."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.click(CubeView, offset=(6, 14))
        await game.click(CubeView, offset=(36, 8), button=3)
        await game.click(CubeView, offset=(18, 2))
        assert [event.what for event in game.sitting.attempt.events] == ["F", "R'", "U"]


async def test_the_pad_has_a_button_for_every_turn(start: Start, shipped: Shipped) -> None:
    """The turn pad opens with `j`, and clicking its first two buttons makes F and F'."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("j")
        await game.click("#pad", offset=(1, 0))
        await game.click("#pad", offset=(6, 0))
        assert [event.what for event in game.sitting.attempt.events] == ["F", "F'"]


async def test_the_key_bar_can_be_clicked(start: Start, shipped: Shipped) -> None:
    """A click on a label in the bottom row does what its key does."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("r")
        bar = game.rows()[-1]
        await game.click("KeyBar", offset=(bar.index("undo"), 0))
        assert game.sitting.attempt.line == ()


async def test_escape_closes_the_pad_first(start: Start, shipped: Shipped) -> None:
    """With the pad open Escape, or q, puts it away; the next one leaves."""
    async with start() as game:
        screen = await game.play(shipped[FIRST])
        await game.press("j escape j q")
        assert game.app.screen is screen
        await game.until(lambda: game.text("#pad") == "")
        await game.press("escape")
        await game.until(lambda: game.app.screen is not screen)


async def test_letters_that_cannot_be_put_away(start: Start, shipped: Shipped) -> None:
    """Where letters are always on, `i` says so and changes no setting."""
    async with start(settings=Settings(colours="16")) as game:
        await game.play(shipped[FIRST])
        await game.press("i")
        assert game.text("#message").startswith("Letters are always on")
        assert not game.app.settings.letters


async def test_the_key_of_the_far_side_is_seen_where_it_is_needed(
    start: Start, shipped: Shipped
) -> None:
    """At 80 columns its key stands in the bar when the far side has to be asked for."""
    async with start(settings=Settings(far_side="asked")) as game:
        await game.play(shipped[FIRST])
        assert "o far side" in game.rows()[-1]
        assert "g give up" in game.rows()[-1]


async def test_the_far_side_is_asked_for_on_the_record(start: Start, shipped: Shipped) -> None:
    """Where the far side is shown when asked for, looking at it is an event."""
    async with start(settings=Settings(far_side="asked")) as game:
        await game.play(shipped[FIRST])
        assert not game.says("far side: ")
        await game.press("o")
        assert game.says("far side: back, left, top")
        await game.press("o")
        assert [event.what for event in game.sitting.attempt.events] == ["far on", "far off"]


async def test_a_tiny_window_waits_for_its_room(start: Start, shipped: Shipped) -> None:
    """In a tiny window a friendly line says what is needed, turns rest, and play goes on after."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("r")
        await game.resize(30, 8)
        await game.until(lambda: game.says("at least 60x20"))
        await game.press("f")
        game.clock.now += 60
        await game.resize(100, 30)
        await game.until(lambda: game.says("The Open Door"))
        await game.until(lambda: game.sitting.running_since is not None)
        await game.press("U R")
        assert [event.what for event in game.sitting.attempt.events] == ["R", "U'", "R'"]
        assert game.sitting.attempt.doing_ms == 0


async def test_everything_fits_at_80x24(start: Start, shipped: Shipped) -> None:
    """At 80x24 the cube has 19 rows, and aim, par, turns, times, far side and keys are in view."""
    async with start() as game:
        await game.play(shipped[FIRST])
        cube = game.app.screen.query_one(CubeView)
        assert cube.size.height == 19
        assert cube.scene is not None
        assert cube.scene.look.size == 8
        for words in ("Solve the pair at the front right", "par 3", "turns 0", "seeing", "doing"):
            assert game.says(words)
        for words in ("far side: back, left, top", "help", "back"):
            assert game.says(words)


async def test_a_burst_of_keys_is_drawn_together(
    start: Start, shipped: Shipped, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A hundred keys that are there at once are all made, with a few pictures and the right one."""
    drawn: list[int] = []
    show = Board.show

    def counted(board: Board, sitting: Sitting, shown: Shown, move: Move | None = None) -> None:
        drawn.append(len(sitting.attempt.line))
        show(board, sitting, shown, move)

    async with start() as game:
        screen = await game.play(shipped[FIRST])
        monkeypatch.setattr(Board, "show", counted)
        for key in "ru" * 50:
            game.app.post_message(events.Key(key, key))
        await game.until(lambda: len(game.sitting.attempt.line) == 100)
        await game.settle()
        assert drawn[-1] == 100
        assert len(drawn) <= 10
        scene = screen.query_one(CubeView).scene
        assert scene is not None
        assert scene.cube == game.sitting.cube
