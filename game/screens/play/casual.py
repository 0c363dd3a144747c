"""Casual play: levels, placements of the atlas, whatever is played without a clock to beat."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from textual.timer import Timer

from game.coach.prompt import prompt
from game.coach.telling import told
from game.cube.moves import MOVES
from game.engine.answers import Advanced, Answered, AnsweredByPairs, Preparing
from game.engine.questions import (
    first_question,
    hand_question,
    pairs_question,
    whole_question,
)
from game.keeping import attempts
from game.packs import Puzzle
from game.packs.opening import following, opening, preceding
from game.play.playable import Beside, Playable
from game.play.sitting import Sitting
from game.screens.play.board import Shown
from game.screens.play.coach import Coach
from game.screens.play.key_labels import after, key_label
from game.screens.play.rules import Rules
from game.screens.play.screen import PlayingScreen
from game.screens.shared import keys
from game.screens.shared.frame import WARN

if TYPE_CHECKING:
    from game.screens.play.result_panel import ResultPanel

GIVES_UP = "Give up? g again shows the solutions; this position is then marked as shown."
REMIND_SECONDS = 1.0
"""Between two looks at whether a newcomer needs a word."""


class CasualRules(Rules):
    """Plays a puzzle, and those beside it: of a pack, unless `beside` finds others.

    The attempt in hand is kept when the screen is left. Its result: whether the map comes next.
    """

    coach: Coach

    def __init__(self, puzzle: Playable, beside: Beside | None = None) -> None:
        super().__init__(puzzle)
        self._beside = beside or self._beside_in_packs
        self._searching = ""  # why solutions are not known yet
        self._preparing = ""  # what the search waits for
        self._best = ""
        self._is_newcomer = False
        self._reminder: Timer | None = None

    # -- one sitting after another ---------------------------------------------------------------

    def mounted(self) -> None:
        """Have a coach, and look after newcomers."""
        self.coach = Coach(self.playing, self.playing)
        self._reminder = self.playing.every(REMIND_SECONDS, self._remind, pause=True)

    def take_up(self) -> Sitting:
        """The first sitting: it goes on with what is in hand."""
        return self._sitting_at(self.puzzle)

    def _sitting_at(self, puzzle: Playable) -> Sitting:
        return attempts.take_up(self.host.keeper, puzzle, must_call=self.host.settings.call)

    def furnished(self) -> None:
        """Whether a newcomer plays is looked up after the first picture."""
        self._greet()

    def opened(self) -> str:
        """Begin with what is in hand, what is the best so far, and nothing asked."""
        self.coach.begin()
        self._searching = self._preparing = ""
        self._best = attempts.best_turns(self.host.keeper, self.sitting)
        if self.playing.board.is_furnished:
            self._greet()
        self._ask()
        return ""

    def _ask(self) -> None:
        """Have the engine find out all about the position: what is wanted soonest comes first."""
        engine, position, asker = self.host.engine, self.sitting.position, self.playing
        first, whole = first_question(position), whole_question(position)
        engine.ask(first if first.is_large else whole, asker)
        if not first.is_large:
            engine.ask(hand_question(position), asker)
        pairs = pairs_question(position)
        if pairs is not None:
            engine.ask(pairs, asker, patient=True)
        if first.is_large:
            engine.ask(whole, asker, patient=True)
            engine.ask(hand_question(position), asker, patient=True)

    def _greet(self) -> None:
        """Look after a newcomer: one who plays the first puzzles."""
        self._is_newcomer = self.sitting.puzzle in opening(self.host.packs)
        if self._reminder is not None:
            if self._is_newcomer:
                self._reminder.resume()
            else:
                self._reminder.pause()

    def _remind(self) -> None:
        """Help a newcomer who waits."""
        if self._is_newcomer and self.playing.is_active and not self.sitting.outcome:
            self.playing.speak()

    def put_aside(self) -> None:
        """Keep in hand what was begun and is not over."""
        attempts.put_aside(self.host.keeper, self.sitting, self.host.clock())

    def keep(self) -> None:
        """Keep the attempt, which is over."""
        attempts.keep(self.host.keeper, self.sitting, self.host.settings)

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
            attempts.amend(self.host.keeper, sitting)
        self.playing.refresh_picture()
        self.coach.answered(answer)

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
                self.playing.refresh_picture()

    def answered_by_pairs(self, answer: AnsweredByPairs) -> None:
        """Fill in the best total pair by pair."""
        if answer.question == pairs_question(self.sitting.position):
            self.sitting.learn_by_pairs(answer.found)
            self.playing.refresh_picture()

    def prepared(self, answer: Preparing) -> None:
        """Tell what par waits for, where nothing else is said."""
        position = self.sitting.position
        if answer.question in (first_question(position), whole_question(position)):
            self._searching = self._preparing = answer.state
            self.playing.refresh_picture()

    def failed(self, problem: str) -> None:
        """Play goes on without."""
        self._searching = problem
        super().failed(problem)
        self.playing.refresh_picture()

    # -- showing ---------------------------------------------------------------------------------

    def shown(self, shown: Shown) -> Shown:
        """With the best so far, why something is not known, and what the coach shows."""
        return self.coach.shown(replace(shown, searching=self._searching, best=self._best))

    def advice(self) -> str:
        """What a newcomer may do next."""
        sitting = self.sitting
        if not self._is_newcomer or sitting.outcome:
            return ""
        last = sitting.attempt.events[-1].ms if sitting.attempt.events else 0
        waited = sitting.ms(self.host.clock()) - last
        return prompt(sitting.attempt, sitting.solutions, waited)

    def remark(self) -> str:
        """What par waits for, or what the last turn came to."""
        attempt = self.sitting.attempt
        is_turned = bool(attempt.events) and attempt.events[-1].what in MOVES
        if self._preparing or self._is_newcomer or not is_turned:
            return self._preparing
        return told(attempt.position, attempt.written)[-1]

    def key_label(self, action: str) -> str | None:
        """The key that shows the questions puts them away again."""
        label = key_label(action, self.sitting, reveal=self.playing.opened.reveal)
        return "result" if label and action == "hint" and self.coach.asks_ways else label

    def offers(self, action: str) -> bool:
        """Why a puzzle was chosen is told only where it was."""
        return action != "why" or bool(self.sitting.puzzle.why)

    # -- the end of an attempt -------------------------------------------------------------------

    def go(self) -> None:
        """What comes naturally: show par, try again, or the next level."""
        if self.sitting.is_calling:
            self.decide(called=False)
        elif self.sitting.outcome:
            if after(self.sitting) == "next":
                self.next()
            else:
                self.again()

    def call(self) -> None:
        """No shorter way exists, says the player."""
        if self.sitting.is_calling:
            self.decide(called=True)
        elif not self.sitting.outcome:
            self.playing.show(said="Solve it first; the call comes after, where par is hidden.")

    def decide(self, *, called: bool) -> None:
        """Keep the call, or that there was none."""
        self.sitting.called = called
        attempts.amend(self.host.keeper, self.sitting)
        self.playing.show()

    def again(self) -> None:
        """Another attempt, from the start and with a new clock."""
        sitting = self.sitting
        if not sitting.outcome:
            if not sitting.attempt.events:
                return
            sitting.abandon(self.host.moment)
            self.keep()
        self.playing.open(self._sitting_at(sitting.puzzle))

    def show_solutions(self) -> None:
        """Show every shortest solution; before the end that is giving up, and asked twice."""
        sitting, opened = self.sitting, self.playing.opened
        if not sitting.outcome and not opened.gives_up:
            opened.gives_up = True
            self.playing.show(said=GIVES_UP, tone=WARN)
            return
        if not sitting.outcome:
            sitting.give_up(self.host.moment)
            self.keep()
            self.playing.run_clock()
        elif sitting.is_calling:
            self.decide(called=False)
        attempts.mark_shown(self.host.keeper, sitting)
        opened.reveal = True
        self.playing.show()

    # -- going elsewhere -------------------------------------------------------------------------

    def _beside_in_packs(self, puzzle: Playable, step: int) -> Puzzle | None:
        """The puzzle of a pack after this one, or before it."""
        if not isinstance(puzzle, Puzzle):
            return None
        find = following if step > 0 else preceding
        return find(self.host.packs, puzzle)

    def next(self) -> None:
        """The next level; after the last of a stretch comes the map."""
        puzzle = self._beside(self.sitting.puzzle, 1)
        if puzzle is None:
            self._leave(to_map=True)
        else:
            self._leave_for(puzzle)

    def previous(self) -> None:
        """The level before."""
        puzzle = self._beside(self.sitting.puzzle, -1)
        if puzzle is None:
            self.playing.show(said="This is the first one here.")
        else:
            self._leave_for(puzzle)

    def _leave_for(self, puzzle: Playable) -> None:
        """Go to another puzzle; the attempt here stays in hand."""
        self.put_aside()
        self.playing.open(
            attempts.take_up(self.host.keeper, puzzle, must_call=self.host.settings.call)
        )

    def back(self) -> None:
        """Close what was opened last; otherwise leave, with the attempt in hand."""
        if self._closes():
            self.playing.set_focus(None)
            self.playing.show()
        else:
            self._leave(to_map=False)

    def _closes(self) -> bool:
        """Close the innermost of what is open; whether there was any."""
        opened = self.playing.opened
        if self.coach.asks_ways:
            self.coach.asks_ways = False
        elif opened.reveal:
            opened.reveal = False
        elif opened.pad and not self.sitting.outcome:
            opened.pad = False
        else:
            return False
        return True

    def _leave(self, *, to_map: bool) -> None:
        self.put_aside()  # before the next screen looks what is in hand
        self.playing.leave(to_map)


class PlayScreen(PlayingScreen):
    """Casual play on the screen, with the keys for it."""

    COMMAND_SCREEN = "play"
    BINDINGS = keys.bindings("play")

    def __init__(self, rules: CasualRules) -> None:
        super().__init__(rules)
        self.rules = rules

    def action_hint(self) -> None:
        """The next rung of the ladder; once it is over, the questions of a shorter way."""
        self.rules.coach.ask()

    def action_again(self) -> None:
        """Another attempt, from the start and with a new clock."""
        self.rules.again()

    def action_show(self) -> None:
        """Show every shortest solution."""
        self.rules.show_solutions()

    def action_next(self) -> None:
        """The next level."""
        self.rules.next()

    def action_previous(self) -> None:
        """The level before."""
        self.rules.previous()

    def action_why(self) -> None:
        """Why this position, of all that there are."""
        self.show(said=self.sitting.puzzle.why)

    def action_read_on(self) -> None:
        """See more of what is told of a position that is over."""
        self._scroll(1)

    def action_read_back(self) -> None:
        """See again what came before."""
        self._scroll(-1)

    def _scroll(self, rows: int) -> None:
        from game.screens.play.result_panel import ResultPanel  # noqa: PLC0415 - there by then

        if self.sitting.outcome:
            self.query_one(ResultPanel).scroll_relative(y=rows, animate=False)

    def on_result_panel_chosen(self, message: ResultPanel.Chosen) -> None:
        """Watch a solution turn by turn."""
        from game.screens.lines.watch import WatchScreen  # noqa: PLC0415 - when it is pushed

        sitting = self.sitting
        self.app.push_screen(WatchScreen(sitting.position, sitting.solutions, message.number))
