"""The screen at which one plays: it shows a sitting and takes what is done; its rules do the rest.

Searches run in the engine, and what they find is filled in when it is there; nothing waits. What
is done is drawn after all that waits to be done: a burst of keys costs one picture, not hundreds.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.timer import Timer

from game.cube.cube import Cube
from game.cube.moves import Move
from game.engine.answers import Advanced, Answered, AnsweredByPairs, Preparing
from game.play.sitting import SOLVED, Sitting
from game.screens.play.board import Board, Shown
from game.screens.play.hands import Hands
from game.screens.play.letters import Letters, is_foreign
from game.screens.play.playing import Opened
from game.screens.play.rules import Rules
from game.screens.shared.clock_view import ClockView
from game.screens.shared.cube_view import CubeView
from game.screens.shared.frame import MUTED, WARN, BaseScreen
from game.screens.shared.host import Host
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.too_small import TooSmall

if TYPE_CHECKING:
    from game.screens.play.line_input import LineInput

FURNISH_SECONDS = 0.02
"""From the first picture, which is to reach the terminal first, to what it did not need."""


class PlayingScreen(BaseScreen[bool]):
    """Shows one sitting after another. Its result is what the rules leave it with."""

    CSS_PATH = Path(__file__).with_name("play.tcss")
    AUTO_FOCUS = ""

    def __init__(self, rules: Rules) -> None:
        super().__init__()
        self.sitting = Sitting(rules.puzzle, datetime.now().astimezone())
        self.opened = Opened()
        self.letters = Letters()
        self._rules = rules
        self._hands = Hands(self, rules)
        self._said = ("", "")  # in the message line until something else is done, and its tone
        self._is_stale = False  # what is shown, until all that waits has been done
        self._led_here: tuple[Move, Cube] | None = None  # the last move and what it made
        rules.playing = self

    def compose(self) -> ComposeResult:
        """The board over the keys; or a word when the window is too small."""
        yield Board(self._times)
        yield KeyBar(self.COMMAND_SCREEN)
        yield TooSmall()

    def on_mount(self) -> None:
        """Begin."""
        self._rules.mounted()
        self.open(self._rules.take_up())
        self.call_after_refresh(self.set_timer, FURNISH_SECONDS, self._furnish)

    async def _furnish(self) -> None:
        """Add what the first picture did not need."""
        self._rules.furnished()
        await self.board.furnish()
        self.refresh_picture()

    def on_unmount(self) -> None:
        """The game ends, or the screen is left."""
        self.put_aside()
        self.app.engine.forget(self)

    def put_aside(self) -> None:
        """Keep what is in hand, as the rules have it."""
        self._rules.put_aside()

    # -- what the rules know of it ---------------------------------------------------------------

    @property
    def host(self) -> Host:
        """The app."""
        return self.app

    @property
    def board(self) -> Board:
        """The cube and what stands beside it."""
        return self.query_one(Board)

    @property
    def is_too_small(self) -> bool:
        """Whether a word stands in place of the cube."""
        return self.has_class("-narrow") or self.has_class("-low")

    @property
    def is_seen(self) -> bool:
        """Whether the cube is in view."""
        return self.is_active and not self.is_too_small

    @property
    def is_typing(self) -> bool:
        """Whether a line is being typed."""
        return self.has_class("-typing")

    def open(self, sitting: Sitting) -> None:
        """Show a sitting from now on."""
        self.app.engine.forget(self)
        self.sitting = sitting
        self.letters = Letters(flipped=self.letters.flipped)
        far = self.app.settings.far_side == "always"
        self.opened = Opened(focus=self.opened.focus, far=far, pad=self.opened.pad)
        self.set_focus(None)
        self.board.title(sitting.puzzle)
        self.show(said=self._rules.opened())
        self.soon(self.run_clock)

    def turn(self, moves: tuple[Move, ...]) -> None:
        """Make turns, as the rules admit them."""
        self._hands.turn(moves)

    def after(self, move: Move | None, said: str = "") -> None:
        """The sitting has gone on."""
        if self.sitting.outcome == SOLVED:
            self._rules.keep()
        self.show(move, said, WARN)
        if self.sitting.outcome:
            self.run_clock()
        self._rules.gone_on()

    def soon(self, act: Callable[[], None]) -> None:
        """Have something done once the picture stands."""
        self.call_after_refresh(act)

    def later(self, act: Callable[..., None], *values: object) -> None:
        """Have something done after all that waits."""
        self.call_later(act, *values)

    def every(self, seconds: float, act: Callable[[], None], *, pause: bool = False) -> Timer:
        """Have something done again and again, while the screen stands."""
        return self.set_interval(seconds, lambda: act() if self.stands else None, pause=pause)

    # -- the clock -------------------------------------------------------------------------------

    def run_clock(self) -> None:
        """Let the clock run or stand, as the rules have it."""
        self._rules.run_clock()

    def show_clock(self, runs: bool) -> None:
        """Let the numbers of the clock run or stand."""
        self.query_one(ClockView).run(runs)

    def _times(self) -> tuple[int | None, int | None]:
        attempt, now = self.sitting.attempt, self.sitting.ms(self.app.clock())
        seeing = attempt.seeing_ms
        if seeing is None:
            return now, None
        return seeing, attempt.doing_ms if attempt.is_solved else now - seeing

    def on_screen_suspend(self) -> None:
        """Another screen hides the cube."""
        self.run_clock()

    def on_screen_resume(self) -> None:
        """In view again, perhaps with other settings."""
        if self.board.is_furnished:
            self.refresh_picture()
        self.soon(self.run_clock)

    def on_board_resized(self) -> None:
        """Other room: draw for it."""
        self.refresh_picture()
        self.run_clock()

    # -- showing ---------------------------------------------------------------------------------

    def show(self, move: Move | None = None, said: str = "", tone: str = MUTED) -> None:
        """Show what was done: `move` led to it, `said` goes into the message line."""
        self._said = (said, tone)
        self.refresh_picture(move)

    def say(self, said: str) -> None:
        """A word of warning in the message line."""
        self._said = (said, WARN)
        self.speak()

    def hush(self) -> None:
        """Back to the standing word."""
        self._said = ("", "")
        self.speak()

    def refresh_picture(self, move: Move | None = None) -> None:
        """Have everything shown as it is, once for all that waits to be done before."""
        if move is not None:
            self._led_here = (move, self.sitting.cube)
        if not self._is_stale:
            self._is_stale = self.call_later(self._draw)

    def _draw(self) -> None:
        self._is_stale = False
        move, cube = self._led_here or (None, None)
        is_seen_turning = self.app.animates and cube == self.sitting.cube
        self.board.show(self.sitting, self.shown(), move if is_seen_turning else None)
        self.speak()
        self.query_one(ClockView).tick()
        self.query_one(KeyBar).refresh()

    def shown(self) -> Shown:
        """What is to be seen besides the cube."""
        opened = self.opened
        look = look_of(self.app.settings, self.app.depth, self.sitting.position)
        shown = Shown(
            look=look,
            focus=self._is_focused,
            far=opened.far,
            pad=opened.pad,
            reveal=opened.reveal,
            note=self.sitting.puzzle.note(look.scheme),
        )
        return self._rules.shown(shown)

    def speak(self) -> None:
        """Write the message line anew."""
        said, tone = self._said
        if not said:
            said, tone = self._rules.word(), MUTED
        self.board.say(said, tone)

    @property
    def _is_focused(self) -> bool:
        if self.opened.focus is not None:
            return self.opened.focus
        return focuses(self.app.settings, self.sitting.position)

    def key_label(self, action: str) -> str | None:
        """What the key bar calls a command now; while a line is typed the line says its keys."""
        return "" if self.is_typing else self._rules.key_label(action)

    @property
    def key_ranks(self) -> Mapping[str, int]:
        """Which commands are shown before others."""
        return self._rules.key_ranks

    # -- what the engine finds -------------------------------------------------------------------

    def answered(self, answer: Answered) -> None:
        """A search has ended."""
        self._rules.answered(answer)

    def advanced(self, answer: Advanced) -> None:
        """A search has come further."""
        self._rules.advanced(answer)

    def answered_by_pairs(self, answer: AnsweredByPairs) -> None:
        """The best total pair by pair is known."""
        self._rules.answered_by_pairs(answer)

    def prepared(self, answer: Preparing) -> None:
        """A search waits for the large tables."""
        self._rules.prepared(answer)

    def failed(self, problem: str) -> None:
        """Play goes on without."""
        self._rules.failed(problem)

    # -- turning ---------------------------------------------------------------------------------

    def allows(self, action: str) -> bool:
        """While nothing can be seen only leaving works, and while a line is typed no command."""
        if not self._rules.offers(action):
            return False
        return not self.is_typing and (action == "back" or not self.is_too_small)

    def action_turn(self, key: str) -> None:
        """A key of a turn."""
        self._hands.press(key)

    def action_click(self, letter: str, back: bool) -> None:
        """A turn was clicked."""
        self._hands.click(letter, back)

    def on_cube_view_clicked(self, message: CubeView.Clicked) -> None:
        """A face of the cube was clicked."""
        self._hands.click(message.face.lower(), message.back)

    def action_wide(self) -> None:
        """The next face turn is a wide one, or not after all."""
        self._hands.wide()

    def action_capitals(self) -> None:
        """Read capitals the other way round."""
        self._hands.capitals()

    def action_undo(self) -> None:
        """Take the last turn back."""
        self._hands.undo()

    def action_redo(self) -> None:
        """Make a turn again that was taken back."""
        self._hands.redo()

    def action_restart(self) -> None:
        """Back to the start."""
        self._hands.restart()

    def opens_line(self, key: str) -> bool:
        """Whether this key is about to open the line that takes notation."""
        return key.lower() in ("t", "shift+t") and not (self.is_typing or self.sitting.outcome)

    async def action_type(self) -> None:
        """Open the line that takes notation."""
        await self.board.furnish()
        if not self.sitting.outcome:
            self.add_class("-typing")
            self.board.open_line(self._hands.refusal)
            self.query_one(KeyBar).refresh()

    def on_line_input_left(self) -> None:
        """Close the line."""
        self.remove_class("-typing")
        self.set_focus(None)
        self.show()

    def on_line_input_entered(self, message: LineInput.Entered) -> None:
        """Apply the line."""
        self.on_line_input_left()
        self._hands.turn(message.line)

    # -- looking ---------------------------------------------------------------------------------

    def action_view(self) -> None:
        """Grey out what does not matter, or show all."""
        self.opened.focus = not self._is_focused
        self.show()

    def action_letters(self) -> None:
        """Letters on the stickers, or not; kept as a setting."""
        settings = self.app.settings
        if replace(self.shown().look, letters=False).shows_letters:
            self.show(said="Letters are always on with few colours, and in flat drawings.")
            return
        self.app.change_settings(replace(settings, letters=not settings.letters))
        self.show()

    def action_far(self) -> None:
        """Show or hide the far side; looking is recorded where it has to be asked for."""
        policy = self.app.settings.far_side
        if policy == "never":
            self.show(said="The far side stays hidden; the settings can change that.")
            return
        self.opened.far = not self.opened.far
        if policy == "asked":
            self.sitting.look(self.opened.far, self.app.moment)
        self.show()

    def action_pad(self) -> None:
        """Show or hide the turn pad."""
        self.opened.pad = not self.opened.pad
        self.show()

    def on_key(self, event: events.Key) -> None:
        """A word to someone whose keyboard types another script."""
        if is_foreign(event.character) and not self.is_typing:
            typed = event.character
            self.say(f"This key types {typed}; turns are Latin letters. t takes a pasted line.")

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text would be taken for keys."""
        event.stop()
        self.say("To paste turns, press t first.")

    # -- what the rules decide -------------------------------------------------------------------

    def action_go(self) -> None:
        """What comes naturally."""
        self._rules.go()

    def action_call(self) -> None:
        """No shorter way exists, says the player."""
        self._rules.call()

    def action_back(self) -> None:
        """Close what was opened last; otherwise leave."""
        if self.letters.wide:
            self.action_wide()
        else:
            self._rules.back()
