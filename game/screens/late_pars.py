"""Attempts that were over before par was known: their records get it once it is.

The player has gone on by then. What is still unknown when the game ends stays so in the records,
until an attempt at the same position has it searched again.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from game.engine.engine import Answer, Answered, Question, first_question
from game.play.position import Position
from game.search.outcome import Solved

if TYPE_CHECKING:
    from game.screens.shared.host import Host

Then = Callable[[], None]


class LatePars:
    """Asks the engine for the pars that are missing, behind everything else."""

    def __init__(self, app: Host) -> None:
        self._app = app
        self._waiting: dict[Question, list[tuple[str, Then | None]]] = {}

    def follow(self, position: Position, then: Then | None = None) -> None:
        """Add par to the records of attempts at a position. then: called when that is done."""
        question = first_question(position)
        self._waiting.setdefault(question, []).append((position.text, then))
        self._app.engine.ask(question, self, patient=True)

    def hear(self, answer: Answer) -> None:
        """Take what the engine says, in its thread."""
        self._app.call_later(self._take, answer)

    def _take(self, answer: Answer) -> None:
        if not isinstance(answer, Answered):
            return
        for text, then in self._waiting.pop(answer.question, []):
            if isinstance(answer.outcome, Solved):
                self._learn(text, answer.outcome.par)
            if then is not None:
                then()

    def _learn(self, text: str, par: int) -> None:
        self._app.record(lambda records: records.learn_par(text, par), None)
