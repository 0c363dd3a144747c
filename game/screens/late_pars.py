"""Attempts that were over before par was known: their records get it once it is.

The player has gone on by then. What is still unknown when the game ends stays so in the records,
until an attempt at the same position has it searched again.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.message import Message

from game.position import Position
from game.screens.engine import Answered, Question, first_question
from game.search.outcome import Solved

if TYPE_CHECKING:
    from game.screens.app import PairwrightApp

Then = Callable[[], None]


class LatePars:
    """Asks the engine for the pars that are missing, behind everything else."""

    def __init__(self, app: PairwrightApp) -> None:
        self._app = app
        self._waiting: dict[Question, list[tuple[str, Then | None]]] = {}

    def follow(self, position: Position, then: Then | None = None) -> None:
        """Add par to the records of attempts at a position. then: called when that is done."""
        question = first_question(position)
        self._waiting.setdefault(question, []).append((position.text, then))
        self._app.engine.ask(question, self, patient=True)

    def post_message(self, message: Message) -> bool:
        """Take what the engine says, in its thread."""
        return self._app.call_later(self._take, message)

    def _take(self, message: Message) -> None:
        if not isinstance(message, Answered):
            return
        for text, then in self._waiting.pop(message.question, []):
            if isinstance(message.outcome, Solved):
                self._learn(text, message.outcome.par)
            if then is not None:
                then()

    def _learn(self, text: str, par: int) -> None:
        self._app.record(lambda records: records.learn_par(text, par), None)
