"""What was not known of an attempt when it was kept: its record gets it once it is.

The player has gone on by then. What is still unknown when the game ends stays so in the records,
until an attempt at the same position has it searched again.
"""

from __future__ import annotations

from collections.abc import Callable

from game.engine.answers import Answer, Answered
from game.engine.engine import Engine
from game.engine.questions import Question, first_question, hand_question
from game.play.position import Position
from game.search.outcome import Solved

Then = Callable[[int | None], None]
"""Takes a par; None if the position has no solution."""


class LatePars:
    """Asks the engine for what is missing, behind everything else.

    learn_par: keeps the par of a position, by its text; learn_hand: keeps of an attempt, by its
    number, whether it is at hand. soon: calls in the thread of the game.
    """

    def __init__(
        self,
        engine: Engine,
        learn_par: Callable[[str, int], None],
        learn_hand: Callable[[int, bool], None],
        soon: Callable[..., object],
    ) -> None:
        self._engine = engine
        self._learn_par = learn_par
        self._learn_hand = learn_hand
        self._soon = soon
        self._waiting: dict[Question, list[Then]] = {}

    def follow(self, position: Position, then: Then | None = None) -> None:
        """Keep par once it is known, then call `then` with it."""

        def known(par: int | None) -> None:
            if par is not None:
                self._learn_par(position.text, par)
            if then is not None:
                then(par)

        self._wait(first_question(position), known)

    def follow_hand(self, position: Position, number: int, turns: int) -> None:
        """Keep whether so many turns are at hand; where the hand cannot solve it, par decides."""

        def known(par: int | None) -> None:
            if par is None:
                self._wait(first_question(position), at_par)
            else:
                self._learn_hand(number, turns <= par)

        def at_par(par: int | None) -> None:
            if par is not None:
                self._learn_hand(number, turns <= par)

        self._wait(hand_question(position), known)

    def _wait(self, question: Question, then: Then) -> None:
        waiting = self._waiting.setdefault(question, [])
        waiting.append(then)
        if len(waiting) == 1:
            self._engine.ask(question, self, patient=True)

    def hear(self, answer: Answer) -> None:
        """Take what the engine says, in its thread."""
        self._soon(self._take, answer)

    def _take(self, answer: Answer) -> None:
        if isinstance(answer, Answered):
            outcome = answer.outcome
            par = outcome.par if isinstance(outcome, Solved) else None
            for then in self._waiting.pop(answer.question, []):
                then(par)
