"""The hands at a sitting: what keys, clicks and typed lines do to the cube, and looking at it."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from textual import events

from game.cube.geometry import Matrix
from game.cube.line import Line
from game.cube.moves import Move
from game.errors import ForbiddenTurn
from game.play.sitting import SOLVED
from game.screens.play.board import Board
from game.screens.play.letters import is_foreign
from game.screens.play.sitting_screen import WARN, SittingScreen
from game.screens.shared import keys
from game.screens.shared.cube_view import CubeView
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.side_words import forbidden_words

if TYPE_CHECKING:
    from game.screens.play.line_input import LineInput


class HandsScreen(SittingScreen):
    """Takes turns for its sitting, in every way in which they can be made."""

    @abstractmethod
    def _keep(self) -> None:
        """The attempt is solved: keep it."""

    # -- turning ---------------------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While nothing can be seen only leaving works, and while a line is typed no command."""
        if not keys.is_of(self.COMMAND_SCREEN, action):
            return True
        return not self._is_typing and (action == "back" or not self._is_too_small)

    def action_turn(self, key: str) -> None:
        """A key of a turn."""
        move, self.reading = self.reading.press(key)
        suspicious = self.reading.is_suspicious
        self._turn((move,))
        if suspicious and not self.sitting.outcome:
            self._say("Every turn goes the other way. Is Caps Lock on? k reads capitals as plain.")

    def _turn(self, line: Iterable[Move]) -> None:
        """Make turns; the last is seen turning."""
        if self.sitting.outcome:
            self._show(said="This attempt is over: a begins another.")
            return
        self._gives_up = False
        moves = tuple(line)
        said = ""
        made = len(self.sitting.attempt.line)
        try:
            self.sitting.turn(moves, self.app.moment)
        except ForbiddenTurn as fault:
            self.app.bell()
            said = self._refused(fault, self.sitting.cube.grip)
        made = len(self.sitting.attempt.line) - made
        self._after(moves[made - 1] if made else None, said)

    def _after(self, move: Move | None, said: str = "") -> None:
        """The sitting has gone on."""
        if self.sitting.outcome == SOLVED:
            self._keep()
        self._show(move, said, WARN)
        if self.sitting.outcome:
            self._run_clock()

    def action_wide(self) -> None:
        """The next face turn is a wide one, or not after all."""
        self.reading = self.reading.toggle_wide()
        self._show()

    def action_capitals(self) -> None:
        """Read capitals the other way round."""
        self.reading = self.reading.toggle_flipped()
        now = "plain turns" if self.reading.flipped else "turns the other way, as usual"
        self._show(said=f"Capitals are now {now}.")

    def action_undo(self) -> None:
        """Take the last turn back."""
        self._after(self.sitting.undo(self.app.moment))

    def action_redo(self) -> None:
        """Make a turn again that was taken back."""
        self._after(self.sitting.redo(self.app.moment))

    def action_restart(self) -> None:
        """Back to the start."""
        self.sitting.restart(self.app.moment)
        self._show()

    def opens_line(self, key: str) -> bool:
        """Whether this key is about to open the line that takes notation."""
        return key.lower() in ("t", "shift+t") and not (self._is_typing or self.sitting.outcome)

    async def action_type(self) -> None:
        """Open the line that takes notation."""
        board = self.query_one(Board)
        await board.furnish()
        if not self.sitting.outcome:
            self.add_class("-typing")
            board.open_line(self._refusal)
            self.query_one(KeyBar).refresh()

    def _refusal(self, line: Line) -> str:
        """Why a line cannot be made from here; nothing where it can."""
        attempt = self.sitting.attempt
        for move in line:
            try:
                attempt = attempt.turn(move, self.sitting.ms(self.app.moment))
            except ForbiddenTurn as fault:
                return self._refused(fault, attempt.cube.grip)
        return ""

    def _refused(self, fault: ForbiddenTurn, grip: Matrix) -> str:
        return forbidden_words(fault, grip, self._shown().look.scheme)

    def on_line_input_left(self) -> None:
        """Close the line."""
        self.remove_class("-typing")
        self.set_focus(None)
        self._show()

    def on_line_input_entered(self, message: LineInput.Entered) -> None:
        """Apply the line."""
        self.on_line_input_left()
        self._turn(message.line)

    def on_cube_view_clicked(self, message: CubeView.Clicked) -> None:
        """A face of the cube was clicked."""
        self.action_click(message.face.lower(), message.back)

    def action_click(self, letter: str, back: bool) -> None:
        """A turn was clicked."""
        move, self.reading = self.reading.turn(letter, back)
        self._turn((move,))

    # -- looking ---------------------------------------------------------------------------------

    def action_view(self) -> None:
        """Grey out what does not matter, or show all."""
        self._focus = not self._is_focused
        self._show()

    def action_letters(self) -> None:
        """Letters on the stickers, or not; kept as a setting."""
        settings = self.app.settings
        if replace(self._shown().look, letters=False).shows_letters:
            self._show(said="Letters are always on with few colours, and in flat drawings.")
            return
        self.app.change_settings(replace(settings, letters=not settings.letters))
        self._show()

    def action_far(self) -> None:
        """Show or hide the far side; looking is recorded where it has to be asked for."""
        policy = self.app.settings.far_side
        if policy == "never":
            self._show(said="The far side stays hidden; the settings can change that.")
            return
        self._far = not self._far
        if policy == "asked":
            self.sitting.look(self._far, self.app.moment)
        self._show()

    def action_pad(self) -> None:
        """Show or hide the turn pad."""
        self._pad = not self._pad
        self._show()

    # -- keys that are none ----------------------------------------------------------------------

    def on_key(self, event: events.Key) -> None:
        """A word to someone whose keyboard types another script."""
        if is_foreign(event.character) and not self._is_typing:
            typed = event.character
            self._say(f"This key types {typed}; turns are Latin letters. t takes a pasted line.")

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text would be taken for keys."""
        event.stop()
        self._say("To paste turns, press t first.")
