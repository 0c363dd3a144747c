"""Attempts that were over before par was known: their records get it once it is.

The player has gone on by then. What is still unknown when the game ends stays so in the records.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.message import Message

from game.screens import keeping
from game.screens.engine import Answered, Question, first_question
from game.screens.sitting import Sitting

if TYPE_CHECKING:
    from game.screens.app import PairwrightApp

Then = Callable[[], None]


class LateScores:
    """Asks the engine for the pars that are missing, behind everything else."""

    def __init__(self, app: PairwrightApp) -> None:
        self._app = app
        self._waiting: dict[Question, list[tuple[Sitting, Then | None]]] = {}

    def follow(self, sitting: Sitting, then: Then | None = None) -> None:
        """Add par to the record of a sitting that is over. then: called when that is done."""
        question = first_question(sitting.position)
        self._waiting.setdefault(question, []).append((sitting, then))
        self._app.engine.ask(question, self, patient=True)

    def post_message(self, message: Message) -> bool:
        """Take what the engine says, in its thread."""
        return self._app.call_later(self._take, message)

    def _take(self, message: Message) -> None:
        if not isinstance(message, Answered):
            return
        for sitting, then in self._waiting.pop(message.question, []):
            if sitting.proven_par is None:
                sitting.learn(message.outcome)
            keeping.amend(self._app, sitting)
            if then is not None:
                then()
