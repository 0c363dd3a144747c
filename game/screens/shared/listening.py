"""Hearing the engine: its answers come from another thread and are taken in this one, once each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.message import Message
from textual.message_pump import MessagePump

if TYPE_CHECKING:
    from game.engine.answers import Advanced, Answer, Answered, AnsweredByPairs, Preparing


class Heard(Message):
    """The engine has said something."""

    def __init__(self, answer: Answer) -> None:
        super().__init__()
        self.answer = answer


class Listener(MessagePump):
    """A screen that asks the engine. What it does with an answer, it says by these methods.

    Textual calls the handler of every class that a screen is made of. So there is one handler,
    here, and what it calls is overridden as any method is.
    """

    def hear(self, answer: Answer) -> None:
        """Take an answer in the engine's thread."""
        self.post_message(Heard(answer))

    def on_heard(self, message: Heard) -> None:
        """Hand an answer on to the method that it is for."""
        from game.engine.answers import (  # noqa: PLC0415 - not before the first picture
            Advanced,
            Answered,
            AnsweredByPairs,
            Failed,
            Preparing,
        )

        message.stop()
        match message.answer:
            case Answered():
                self.answered(message.answer)
            case Advanced():
                self.advanced(message.answer)
            case AnsweredByPairs():
                self.answered_by_pairs(message.answer)
            case Preparing():
                self.prepared(message.answer)
            case Failed(problem):
                self.failed(problem)

    def answered(self, answer: Answered) -> None:
        """A search has ended."""

    def advanced(self, answer: Advanced) -> None:
        """A search has come further."""

    def answered_by_pairs(self, answer: AnsweredByPairs) -> None:
        """The best total pair by pair is known."""

    def prepared(self, answer: Preparing) -> None:
        """A search waits for the large tables."""

    def failed(self, problem: str) -> None:
        """There will be no answers."""
