"""The playing screen: what keys, clicks and typed lines do."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from textual import events

from game.cube.geometry import Matrix
from game.cube.line import Line
from game.cube.moves import Move
from game.errors import ForbiddenTurn
from game.opening import following, preceding
from game.packs import Puzzle
from game.playable import Beside, Playable
from game.screens import commands, keeping
from game.screens.board import Board
from game.screens.coached_screen import CoachedScreen
from game.screens.cube_view import CubeView
from game.screens.key_bar import KeyBar
from game.screens.key_labels import after
from game.screens.reading import is_foreign
from game.screens.side_words import forbidden_words
from game.screens.sitting import SOLVED
from game.screens.sitting_screen import WARN

if TYPE_CHECKING:
    from game.screens.line_input import LineInput
    from game.screens.result_panel import ResultPanel


GIVES_UP = "Give up? g again shows the solutions; this position is then marked as shown."


class PlayScreen(CoachedScreen):
    """Plays a puzzle, and those beside it: of a pack, unless `beside` finds others."""

    BINDINGS = commands.bindings("play")

    def __init__(self, puzzle: Playable, beside: Beside | None = None) -> None:
        super().__init__(puzzle)
        self._beside = beside or self._beside_in_packs

    # -- turning ---------------------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While nothing can be seen only leaving works, and while a line is typed no command."""
        if not commands.is_of("play", action):
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
            keeping.keep(self.app, self.sitting)
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

    # -- the end of an attempt -------------------------------------------------------------------

    def action_go(self) -> None:
        """What comes naturally: show par, try again, or the next level."""
        if self.sitting.is_calling:
            self._decide(called=False)
        elif self.sitting.outcome:
            if after(self.sitting) == "next":
                self.action_next()
            else:
                self.action_again()

    def action_call(self) -> None:
        """No shorter way exists, says the player."""
        if self.sitting.is_calling:
            self._decide(called=True)
        elif not self.sitting.outcome:
            self._show(said="Solve it first; the call comes after, where par is hidden.")

    def _decide(self, *, called: bool) -> None:
        self.sitting.called = called
        keeping.amend(self.app, self.sitting)
        self._show()

    def action_again(self) -> None:
        """Another attempt, from the start and with a new clock."""
        sitting = self.sitting
        if not sitting.outcome:
            if not sitting.attempt.events:
                return
            sitting.abandon(self.app.moment)
            keeping.keep(self.app, sitting)
        self._open(keeping.take_up(self.app, sitting.puzzle))

    def action_show(self) -> None:
        """Show every shortest solution; before the end that is giving up, and asked twice."""
        sitting = self.sitting
        if not sitting.outcome and not self._gives_up:
            self._gives_up = True
            self._show(said=GIVES_UP, tone=WARN)
            return
        if not sitting.outcome:
            sitting.give_up(self.app.moment)
            keeping.keep(self.app, sitting)
            self._run_clock()
        elif sitting.is_calling:
            self._decide(called=False)
        keeping.mark_shown(self.app, sitting)
        self._reveal = True
        self._show()

    def on_result_panel_chosen(self, message: ResultPanel.Chosen) -> None:
        """Watch a solution turn by turn."""
        from game.screens.watch import WatchScreen  # noqa: PLC0415 - imported where it is pushed

        self.app.push_screen(
            WatchScreen(self.sitting.position, self.sitting.solutions, message.number)
        )

    # -- going elsewhere -------------------------------------------------------------------------

    def _beside_in_packs(self, puzzle: Playable, step: int) -> Puzzle | None:
        """The puzzle of a pack after this one, or before it."""
        if not isinstance(puzzle, Puzzle):
            return None
        find = following if step > 0 else preceding
        return find(self.app.packs, puzzle)

    def action_next(self) -> None:
        """The next level; after the last of a stretch comes the map."""
        puzzle = self._beside(self.sitting.puzzle, 1)
        if puzzle is None:
            self._leave(to_map=True)
        else:
            self._leave_for(puzzle)

    def action_previous(self) -> None:
        """The level before."""
        puzzle = self._beside(self.sitting.puzzle, -1)
        if puzzle is None:
            self._show(said="This is the first one here.")
        else:
            self._leave_for(puzzle)

    def action_help(self) -> None:
        """Every key."""
        self.app.show_help("play")

    def action_back(self) -> None:
        """Close what was opened last; otherwise leave, with the attempt in hand."""
        if self.reading.wide:
            self.action_wide()
        elif self._closes():
            self.set_focus(None)
            self._show()
        else:
            self._leave(to_map=False)

    def _closes(self) -> bool:
        """Close the innermost of what is open; whether there was any."""
        if self._asks_ways:
            self._asks_ways = False
        elif self._reveal:
            self._reveal = False
        elif self._pad and not self.sitting.outcome:
            self._pad = False
        else:
            return False
        return True

    def _leave(self, *, to_map: bool) -> None:
        keeping.put_aside(self.app, self.sitting)  # before the next screen looks what is in hand
        self.dismiss(to_map)

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
