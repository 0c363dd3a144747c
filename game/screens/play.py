"""The playing screen: keys, clicks and typed lines go to a `Sitting`, the `Board` shows it.

Searches run in the engine, and what they find is filled in when it is there; nothing waits.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen

from game.cube.moves import Move
from game.errors import ForbiddenTurn
from game.opening import following, opening, preceding
from game.packs import Puzzle
from game.playable import Beside, Playable
from game.prompt import prompt
from game.screens import commands, keeping
from game.screens.board import Board, Shown
from game.screens.clock_view import ClockView
from game.screens.cube_view import CubeView
from game.screens.engine import Answered, Failed, hand_question, whole_question
from game.screens.key_bar import KeyBar
from game.screens.key_labels import after, key_label
from game.screens.looks import focuses, look_of
from game.screens.reading import Reading, is_foreign
from game.screens.sitting import SOLVED, Sitting
from game.screens.too_small import HORIZONTAL_BREAKPOINTS, VERTICAL_BREAKPOINTS, TooSmall

if TYPE_CHECKING:
    from game.screens.app import PairwrightApp
    from game.screens.line_input import LineInput
    from game.screens.result_panel import ResultPanel

WARN = "$warning"
"""The tone of a refusal in the message line."""
REMIND_SECONDS = 1.0
"""Between two looks at whether a newcomer needs a word."""
SEARCHING = "Looking for every shortest way ..."


class PlayScreen(Screen[bool]):
    """Plays a puzzle, and those that follow it. Its result: whether the map is to come next."""

    COMMAND_SCREEN = "play"
    BINDINGS = commands.bindings("play")
    HORIZONTAL_BREAKPOINTS = HORIZONTAL_BREAKPOINTS
    VERTICAL_BREAKPOINTS = VERTICAL_BREAKPOINTS
    AUTO_FOCUS = ""
    app: PairwrightApp

    def __init__(self, puzzle: Playable, beside: Beside | None = None) -> None:
        super().__init__()
        self._beside = beside or self._beside_in_packs
        self.sitting = Sitting(puzzle)
        self.reading = Reading()
        self._focus: bool | None = None  # the player's own choice of colouring
        self._far = False
        self._pad = False
        self._reveal = False
        self._gives_up = False  # `g` was pressed once
        self._said = ("", "")  # in the message line until something else is done, and its tone
        self._searching = SEARCHING
        self._best = ""
        self._is_newcomer = False

    def compose(self) -> ComposeResult:
        """The board over the keys; or a word when the window is too small."""
        yield Board(self._times)
        yield KeyBar("play")
        yield TooSmall()

    def on_mount(self) -> None:
        """Begin."""
        self._open(keeping.take_up(self.app, self.sitting.puzzle))
        self.call_after_refresh(self._furnish)
        self.set_interval(REMIND_SECONDS, self._remind)

    async def _furnish(self) -> None:
        """Add what the first picture did not need."""
        self._is_newcomer = self.sitting.puzzle in opening(self.app.packs)
        await self.query_one(Board).furnish()
        self._refresh()

    # -- one sitting after another ---------------------------------------------------------------

    def _open(self, sitting: Sitting) -> None:
        """Show a new sitting and have its par searched."""
        self.app.engine.forget(self)
        self.sitting = sitting
        self.reading = Reading(flipped=self.reading.flipped)
        self._far = self.app.settings.far_side == "always"
        self._reveal = self._gives_up = False
        self._searching = SEARCHING
        self._best = keeping.best_turns(self.app, sitting)
        puzzle = sitting.puzzle
        if self.query_one(Board).is_furnished:
            self._is_newcomer = puzzle in opening(self.app.packs)
        self.set_focus(None)
        self.query_one(Board).title(puzzle)
        for question in (whole_question(sitting.position), hand_question(sitting.position)):
            self.app.engine.ask(question, self)
        self._show()
        self.call_after_refresh(self._run_clock)

    def _leave_for(self, puzzle: Playable) -> None:
        """Go to another puzzle; the attempt here stays in hand."""
        keeping.put_aside(self.app, self.sitting)
        self._open(keeping.take_up(self.app, puzzle))

    def on_unmount(self) -> None:
        """The game ends, or the screen is left."""
        keeping.put_aside(self.app, self.sitting)
        self.app.engine.forget(self)

    # -- the clock -------------------------------------------------------------------------------

    @property
    def _is_too_small(self) -> bool:
        return self.has_class("-narrow") or self.has_class("-low")

    def _run_clock(self) -> None:
        """Time runs while the cube is in view and not solved."""
        runs = self.is_active and not self._is_too_small and not self.sitting.outcome
        if runs:
            self.sitting.resume(self.app.clock())
        else:
            self.sitting.pause(self.app.clock())
        self.query_one(ClockView).run(runs)

    def _times(self) -> tuple[int | None, int | None]:
        attempt, now = self.sitting.attempt, self.sitting.ms(self.app.clock())
        seeing = attempt.seeing_ms
        if seeing is None:
            return now, None
        return seeing, attempt.doing_ms if attempt.is_solved else now - seeing

    def on_screen_suspend(self) -> None:
        """Another screen hides the cube."""
        self._run_clock()

    def on_screen_resume(self) -> None:
        """In view again, perhaps with other settings."""
        if self.query_one(Board).is_furnished:
            self._refresh()
        self.call_after_refresh(self._run_clock)

    def on_board_resized(self) -> None:
        """Other room: draw for it."""
        self._refresh()
        self._run_clock()

    # -- showing ---------------------------------------------------------------------------------

    def _show(self, move: Move | None = None, said: str = "", tone: str = "$muted") -> None:
        """Show what was done: `move` led to it, `said` goes into the message line."""
        self._said = (said, tone)
        self._refresh(move)

    def _say(self, said: str) -> None:
        """A word of warning in the message line."""
        self._said = (said, WARN)
        self._word()

    def _refresh(self, move: Move | None = None) -> None:
        """Show everything as it is now."""
        app, sitting = self.app, self.sitting
        look = look_of(app.settings, app.depth, sitting.position)
        shown = Shown(
            look=look,
            focus=self._is_focused,
            far=self._far,
            pad=self._pad,
            reveal=self._reveal,
            note=sitting.puzzle.note(look.scheme),
            searching=self._searching,
            best=self._best,
        )
        self.query_one(Board).show(sitting, shown, move if app.animates else None)
        self._word()
        self.query_one(ClockView).tick()
        self.query_one(KeyBar).refresh()

    def _word(self) -> None:
        said, tone = self._said
        if not said:
            said, tone = self._standing_word(), "$muted"
        self.query_one(Board).say(said, tone)

    @property
    def _is_focused(self) -> bool:
        if self._focus is not None:
            return self._focus
        return focuses(self.app.settings, self.sitting.position)

    def _standing_word(self) -> str:
        """What the message line says when there is nothing new to say."""
        if self.reading.wide:
            return "Wide: now a face's letter turns two layers. Escape takes it back."
        if self._is_newcomer:
            sitting = self.sitting
            last = sitting.attempt.events[-1].ms if sitting.attempt.events else 0
            waited = sitting.ms(self.app.clock()) - last
            return prompt(sitting.attempt, sitting.solutions, waited)
        if self.reading.flipped:
            return "Capitals are plain turns; k turns that round."
        return ""

    def _remind(self) -> None:
        """Help a newcomer who waits."""
        if self._is_newcomer and self.is_active and not self.sitting.outcome:
            self._word()

    def key_label(self, action: str) -> str | None:
        """What the key bar calls a command now; while a line is typed the line says its keys."""
        return "" if self._is_typing else key_label(action, self.sitting, reveal=self._reveal)

    # -- turning ---------------------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While nothing can be seen only leaving works, and while a line is typed no command."""
        if not commands.is_of("play", action):
            return True
        return not self._is_typing and (action == "back" or not self._is_too_small)

    @property
    def _is_typing(self) -> bool:
        return self.has_class("-typing")

    def action_turn(self, key: str) -> None:
        """A key of a turn."""
        move, self.reading = self.reading.press(key)
        suspicious = self.reading.is_suspicious
        self._turn((move,))
        if suspicious and not self.sitting.outcome:
            self._say("Every turn goes the other way. Is Caps Lock on? k reads it as off.")

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
            said = f"{fault}."
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

    def action_type(self) -> None:
        """Open the line that takes notation."""
        board = self.query_one(Board)
        if board.is_furnished and not self.sitting.outcome:
            self.add_class("-typing")
            board.open_line()
            self.query_one(KeyBar).refresh()

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
            self._show(said="Give up? g again shows the solutions, and it is marked.", tone=WARN)
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
            self.dismiss(True)
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
        from game.screens.help import HelpScreen  # noqa: PLC0415 - imported where it is pushed

        self.app.push_screen(HelpScreen("play"))

    def action_back(self) -> None:
        """Take a prefix back; otherwise leave, with the attempt in hand."""
        if self.reading.wide:
            self.action_wide()
        else:
            keeping.put_aside(self.app, self.sitting)  # before home looks for what is in hand
            self.dismiss(False)

    # -- what the engine finds -------------------------------------------------------------------

    def on_answered(self, message: Answered) -> None:
        """Fill in par, the solutions and the par of this grip."""
        message.stop()
        sitting, position = self.sitting, self.sitting.position
        if message.question == whole_question(position):
            self._searching = sitting.learn(message.outcome)
        if message.question == hand_question(position):
            sitting.learn_hand(message.outcome)
            keeping.amend(self.app, sitting)
        self._refresh()

    def on_failed(self, message: Failed) -> None:
        """Play goes on without."""
        self._searching = message.problem
        self._say(message.problem)
        self._refresh()

    # -- keys that are none ----------------------------------------------------------------------

    def on_key(self, event: events.Key) -> None:
        """A word to someone whose keyboard types another script."""
        if is_foreign(event.character) and not self._is_typing:
            said = (
                f"This key types {event.character}; turns are Latin letters. t takes a pasted line."
            )
            self.query_one(Board).say(said, WARN)

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text would be taken for keys."""
        event.stop()
        self._say("To paste turns, press t first.")
