"""A screen that shows a `Sitting`: its clock, its picture, what the engine finds out about it.

Searches run in the engine, and what they find is filled in when it is there; nothing waits. What
is done is drawn after all that waits to be done: a burst of keys costs one picture, not hundreds.
"""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from datetime import datetime
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.css.query import NoMatches
from textual.screen import Screen
from textual.timer import Timer

from game.coach.prompt import prompt
from game.cube.cube import Cube
from game.cube.moves import Move
from game.engine.engine import (
    Advanced,
    Answered,
    AnsweredByPairs,
    Preparing,
    first_question,
    hand_question,
    pairs_question,
    whole_question,
)
from game.packs.opening import opening
from game.play.playable import Playable
from game.play.sitting import Sitting
from game.screens import keeping
from game.screens.play.board import Board, Shown
from game.screens.play.key_labels import key_label
from game.screens.play.letters import Reading
from game.screens.shared.clock_view import ClockView
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.listening import Listener
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.too_small import HORIZONTAL_BREAKPOINTS, VERTICAL_BREAKPOINTS, TooSmall

if TYPE_CHECKING:
    from game.screens.app import PairwrightApp

WARN = "$warning"
"""The tone of a refusal in the message line."""
FURNISH_SECONDS = 0.02
"""From the first picture, which is to reach the terminal first, to what it did not need."""
REMIND_SECONDS = 1.0
"""Between two looks at whether a newcomer needs a word."""


class SittingScreen(Listener, Screen[bool]):
    """Shows one sitting after another, the first of them at `puzzle`.

    Its result: whether the map is to come next.
    """

    COMMAND_SCREEN = "play"
    HORIZONTAL_BREAKPOINTS = HORIZONTAL_BREAKPOINTS
    VERTICAL_BREAKPOINTS = VERTICAL_BREAKPOINTS
    AUTO_FOCUS = ""
    app: PairwrightApp

    def __init__(self, puzzle: Playable) -> None:
        super().__init__()
        self.sitting = Sitting(puzzle, datetime.now().astimezone())
        self.reading = Reading()
        self._focus: bool | None = None  # the player's own choice of colouring
        self._far = False
        self._pad = False
        self._reveal = False
        self._gives_up = False  # `g` was pressed once
        self._said = ("", "")  # in the message line until something else is done, and its tone
        self._searching = ""  # why solutions are not known yet
        self._preparing = ""  # what the search waits for
        self._best = ""
        self._is_stale = False  # what is shown, until all that waits has been done
        self._led_here: tuple[Move, Cube] | None = None  # the last move and what it made
        self._is_newcomer = False
        self._reminder: Timer | None = None

    def compose(self) -> ComposeResult:
        """The board over the keys; or a word when the window is too small."""
        yield Board(self._times)
        yield KeyBar(self.COMMAND_SCREEN)
        yield TooSmall()

    def on_mount(self) -> None:
        """Begin."""
        self._open(self._take_up())
        self.call_after_refresh(self.set_timer, FURNISH_SECONDS, self._furnish)
        self._reminder = self.set_interval(REMIND_SECONDS, self._remind, pause=True)

    def _take_up(self) -> Sitting:
        """The first sitting: it goes on with what is in hand."""
        return keeping.take_up(self.app, self.sitting.puzzle)

    def _put_aside(self) -> None:
        """Keep in hand what was begun and is not over."""
        keeping.put_aside(self.app, self.sitting)

    async def _furnish(self) -> None:
        """Add what the first picture did not need."""
        self._greet()
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
        self._searching = self._preparing = ""
        self._best = keeping.best_turns(self.app, sitting)
        puzzle = sitting.puzzle
        if self.query_one(Board).is_furnished:
            self._greet()
        self.set_focus(None)
        self.query_one(Board).title(puzzle)
        self._ask()
        self._show()
        self.call_after_refresh(self._run_clock)

    def _ask(self) -> None:
        """Have the engine find out all about the position: what is wanted soonest comes first."""
        engine, position = self.app.engine, self.sitting.position
        first, whole = first_question(position), whole_question(position)
        engine.ask(first if first.is_large else whole, self)
        if not first.is_large:
            engine.ask(hand_question(position), self)
        pairs = pairs_question(position)
        if pairs is not None:
            engine.ask(pairs, self, patient=True)
        if first.is_large:
            engine.ask(whole, self, patient=True)
            engine.ask(hand_question(position), self, patient=True)

    def _greet(self) -> None:
        """Look after a newcomer: one who plays the first puzzles."""
        self._is_newcomer = self.sitting.puzzle in opening(self.app.packs)
        if self._reminder is not None:
            if self._is_newcomer:
                self._reminder.resume()
            else:
                self._reminder.pause()

    def _leave_for(self, puzzle: Playable) -> None:
        """Go to another puzzle; the attempt here stays in hand."""
        self._put_aside()
        self._open(keeping.take_up(self.app, puzzle))

    def on_unmount(self) -> None:
        """The game ends, or the screen is left."""
        self._put_aside()
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
        """Have everything shown as it is, once for all that waits to be done before."""
        if move is not None:
            self._led_here = (move, self.sitting.cube)
        if not self._is_stale:
            self._is_stale = self.call_later(self._draw)

    def _draw(self) -> None:
        self._is_stale = False
        with suppress(NoMatches):  # a screen that is being taken down has lost its parts
            self._draw_parts()

    def _draw_parts(self) -> None:
        move, cube = self._led_here or (None, None)
        is_seen_turning = self.app.animates and cube == self.sitting.cube
        self.query_one(Board).show(self.sitting, self._shown(), move if is_seen_turning else None)
        self._word()
        self.query_one(ClockView).tick()
        self.query_one(KeyBar).refresh()

    def _shown(self) -> Shown:
        """What is to be seen besides the cube."""
        app, sitting = self.app, self.sitting
        look = look_of(app.settings, app.depth, sitting.position)
        return Shown(
            look=look,
            focus=self._is_focused,
            far=self._far,
            pad=self._pad,
            reveal=self._reveal,
            note=sitting.puzzle.note(look.scheme),
            searching=self._searching,
            best=self._best,
        )

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
            return "Wide: the next face turns two layers; w takes it back."
        if self._is_newcomer and not self.sitting.outcome:
            sitting = self.sitting
            last = sitting.attempt.events[-1].ms if sitting.attempt.events else 0
            waited = sitting.ms(self.app.clock()) - last
            return prompt(sitting.attempt, sitting.solutions, waited)
        if self.reading.flipped:
            return "Capitals are plain turns; k turns that round."
        return self._preparing

    def _remind(self) -> None:
        """Help a newcomer who waits."""
        if self._is_newcomer and self.is_active and not self.sitting.outcome:
            self._word()

    @property
    def _is_typing(self) -> bool:
        return self.has_class("-typing")

    def key_label(self, action: str) -> str | None:
        """What the key bar calls a command now; while a line is typed the line says its keys."""
        return "" if self._is_typing else key_label(action, self.sitting, reveal=self._reveal)

    @property
    def key_ranks(self) -> Mapping[str, int]:
        """Where the far side has to be asked for, its key is shown before others."""
        return {"far": 2, "restart": 7} if self.app.settings.far_side == "asked" else {}

    # -- what the engine finds -------------------------------------------------------------------

    def answered(self, answer: Answered) -> None:
        """Fill in par, the solutions and the par of this grip."""
        sitting, position = self.sitting, self.sitting.position
        is_whole = answer.question == whole_question(position)
        if is_whole or (answer.question == first_question(position) and not sitting.knows_all):
            self._searching = sitting.learn(answer.outcome)
            self._preparing = ""
        if answer.question == hand_question(position):
            sitting.learn_hand(answer.outcome)
        if sitting.outcome:
            keeping.amend(self.app, sitting)
        self._refresh()

    def advanced(self, answer: Advanced) -> None:
        """Par is longer than was known."""
        sitting, at_least = self.sitting, answer.progress.at_least
        is_par = answer.question in (
            first_question(sitting.position),
            whole_question(sitting.position),
        )
        if is_par and at_least > sitting.at_least:
            sitting.at_least = at_least
            if sitting.par is None:
                self._refresh()

    def answered_by_pairs(self, answer: AnsweredByPairs) -> None:
        """Fill in the best total pair by pair."""
        if answer.question == pairs_question(self.sitting.position):
            self.sitting.learn_by_pairs(answer.found)
            self._refresh()

    def prepared(self, answer: Preparing) -> None:
        """Tell what par waits for, where nothing else is said."""
        position = self.sitting.position
        if answer.question in (first_question(position), whole_question(position)):
            self._searching = self._preparing = answer.state
            self._refresh()

    def failed(self, problem: str) -> None:
        """Play goes on without."""
        self._searching = problem
        self._say(problem)
        self._refresh()
