"""One sitting at a puzzle: the attempt with its clock, help, call and what is known of its par.

It knows no Textual and asks nobody: the screen hands in moments (seconds that only grow) and
answers, and takes the Record when the attempt is over.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import TYPE_CHECKING

from game import __version__
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.moves import Move
from game.errors import PairwrightError
from game.play.attempt import Attempt, begin, replay
from game.play.playable import Playable
from game.play.score import Score, score

if TYPE_CHECKING:
    from game.records import Record
    from game.search.outcome import Outcome
    from game.search.pair_by_pair import Found, PairByPair

SOLVED, GAVE_UP, ABANDONED, LOST = "solved", "gave up", "abandoned", "lost"
"""How an attempt can end."""


class Sitting:
    """An attempt in the making.

    began: when, with its time zone. outcome: how it ended, "" while it goes on.
    solutions: the shortest ones, easiest first, once they are known; proven_par and hand_par (the
    par with the faces at the hands) likewise. knows_all: whether there are no other solutions.
    at_least: a length that par is proven not to be under. by_pairs: the best total pair by pair.
    called: None until the player has called it or let it be. number: of the record kept of it.
    """

    def __init__(
        self, puzzle: Playable, began: datetime, *, shown: bool = False, must_call: bool = False
    ) -> None:
        self.puzzle = puzzle
        self.position = puzzle.position
        self.attempt: Attempt = begin(self.position)
        self.began = began
        self.shown = shown
        self.must_call = must_call
        self.called: bool | None = None
        self.outcome = ""
        self.number: int | None = None
        self.solutions: tuple[Line, ...] = ()
        self.knows_all = False
        self.proven_par: int | None = None
        self.hand_par: int | None = None
        self.at_least = 0
        self.by_pairs: PairByPair | None = None
        self._elapsed = 0.0
        self._since: float | None = None

    # -- the clock -------------------------------------------------------------------------------

    def resume(self, moment: float) -> None:
        """The position is in view: the clock runs, unless the attempt is over."""
        if self._since is None and not self.outcome:
            self._since = moment

    def pause(self, moment: float) -> None:
        """The position is out of view: the clock stands."""
        self._elapsed = self._seconds(moment)
        self._since = None

    def slept(self, seconds: float) -> None:
        """So much has gone by while the clock could not run; it counts if the clock ran before."""
        if self._since is not None:
            self._elapsed += seconds

    @property
    def running_since(self) -> float | None:
        """The moment from which on the clock runs; None while it stands."""
        return self._since

    def ms(self, moment: float) -> int:
        """Milliseconds that the position has been in view; never less than the last event's."""
        last = self.attempt.events[-1].ms if self.attempt.events else 0
        return max(last, int(self._seconds(moment) * 1000))

    def _seconds(self, moment: float) -> float:
        running = 0.0 if self._since is None else max(0.0, moment - self._since)
        return self._elapsed + running

    # -- what the player does --------------------------------------------------------------------

    def turn(self, line: Iterable[Move], moment: float) -> None:
        """Make turns. Raises ForbiddenTurn at the first that may not be; those before it stand."""
        for move in line:
            if self.outcome:
                return
            self._follow(self.attempt.turn(move, self.ms(moment)), moment)

    def undo(self, moment: float) -> Move | None:
        """Take the last move back; the move that was made backwards, if any."""
        if self.outcome or not self.attempt.line:
            return None
        last = self.attempt.line[-1]
        self._follow(self.attempt.undo(self.ms(moment)), moment)
        return last.inverse

    def redo(self, moment: float) -> Move | None:
        """Make the move again that was taken back; that move, if any."""
        if self.outcome or not self.attempt.undone:
            return None
        again = self.attempt.undone[-1]
        self._follow(self.attempt.redo(self.ms(moment)), moment)
        return again

    def restart(self, moment: float) -> bool:
        """Back to the start; whether there was anything to take back."""
        if self.outcome or not self.attempt.line:
            return False
        self._follow(self.attempt.restart(self.ms(moment)), moment)
        return True

    def look(self, shown: bool, moment: float) -> None:
        """The far side was asked for, or put away."""
        if not self.outcome:
            self._follow(self.attempt.look(shown, self.ms(moment)), moment)

    def hint(self, rung: int, moment: float) -> None:
        """A hint of this rung was given."""
        if not self.outcome:
            self._follow(self.attempt.hint(rung, self.ms(moment)), moment)

    def give_up(self, moment: float) -> None:
        """End the attempt unsolved; the solutions are shown."""
        self.pause(moment)
        self.outcome = GAVE_UP

    def abandon(self, moment: float) -> None:
        """End the attempt unsolved, without seeing a solution."""
        self.pause(moment)
        self.outcome = ABANDONED

    def lose(self, moment: float) -> None:
        """End the attempt unsolved, by a rule."""
        self.pause(moment)
        self.outcome = LOST

    def _follow(self, attempt: Attempt, moment: float) -> None:
        self.attempt = attempt
        if attempt.is_solved:
            self.pause(moment)
            self.outcome = SOLVED
            if not self.must_call:
                self.called = False

    # -- what it has come to ---------------------------------------------------------------------

    @property
    def cube(self) -> Cube:
        """The cube as it is held now."""
        return self.attempt.cube

    @property
    def is_calling(self) -> bool:
        """Solved, with par still hidden and the call not yet made or let be."""
        return self.outcome == SOLVED and self.called is None

    @property
    def is_par_hidden(self) -> bool:
        """Whether par is not to be told yet."""
        return self.must_call and (not self.outcome or self.is_calling)

    @property
    def par(self) -> int | None:
        """Par as it is proven; until then what is claimed, which a shorter attempt disproves.

        None where nothing is claimed and the search is not done yet.
        """
        if self.proven_par is not None:
            return self.proven_par
        claim = self.puzzle.par
        if claim is None:
            return None
        return min(claim, self.attempt.turns) if self.outcome == SOLVED else claim

    @property
    def score(self) -> Score | None:
        """The score of a solved attempt, once par is known."""
        par = self.par
        if self.outcome != SOLVED or par is None:
            return None
        return score(
            self.attempt,
            par,
            self.hand_par,
            shown=self.shown,
            called=bool(self.called),
        )

    @property
    def call(self) -> str:
        """Whether it was called, and how that came out as far as par is known, for records."""
        from game.records import CLAIMED  # noqa: PLC0415 - SQLite when it is needed

        if self.score is not None:
            return self.score.call.value
        return CLAIMED if self.called else ""

    def record(self, far_side: str, player: str) -> Record:
        """What is kept of the attempt, once it is over."""
        from game.records import Record  # noqa: PLC0415 - SQLite when it is needed

        attempt = self.attempt
        made = self.score
        return Record(
            position=self.position.text,
            puzzle=self.puzzle.key,
            events=attempt.events,
            outcome=self.outcome,
            turns=attempt.turns,
            executed=attempt.executed,
            par=self.par,
            at_hand=made.at_hand if made else None,
            began=self.began,
            version=__version__,
            shown=self.shown,
            hint=attempt.is_hinted,
            called=self.call,
            far_side=far_side,
            seeing_ms=attempt.seeing_ms,
            first_side_ms=attempt.first_side_ms,
            doing_ms=attempt.doing_ms,
            mode=self.puzzle.mode,
            player=player,
        )

    # -- what the search finds -------------------------------------------------------------------

    def learn(self, outcome: Outcome) -> str:
        """Take par and solutions from the answer. In words, why there are no solutions, if so."""
        from game.search.outcome import (  # noqa: PLC0415 - with the first answer
            NoneUpTo,
            Solved,
            Stopped,
            Unsolvable,
        )

        match outcome:
            case Solved(par, solutions, complete):
                self.proven_par, self.solutions, self.knows_all = par, solutions, complete
                return ""
            case Unsolvable(proof):
                return f"This position has no solution: {proof}."
            case NoneUpTo(turns):
                return f"No solution of up to {turns} turns exists."
            case Stopped(at_least):
                return f"The search was stopped: par is at least {at_least}."

    def learn_hand(self, outcome: Outcome) -> None:
        """Take the par with the faces at the hands; where those cannot solve it, par itself."""
        self.hand_par = getattr(outcome, "par", self.par)

    def learn_by_pairs(self, found: Found) -> None:
        """Take the best total pair by pair, where there is one."""
        from game.search.pair_by_pair import PairByPair  # noqa: PLC0415 - with the first answer

        self.by_pairs = found if isinstance(found, PairByPair) else None

    # -- taking up again -------------------------------------------------------------------------

    def take_up(self, events: Iterable[tuple[int, str]], elapsed_ms: int) -> bool:
        """Go on with an attempt that was left; False when its events do not fit the position."""
        try:
            attempt = replay(self.position, events)
        except PairwrightError:
            return False
        if attempt.is_solved:
            return False
        self.attempt = attempt
        self._elapsed = elapsed_ms / 1000
        return True
