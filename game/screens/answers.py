"""What the engine tells those who ask."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.message import Message

from game.screens.questions import ByPairs, Question

if TYPE_CHECKING:
    from game.search.outcome import Outcome, Progress
    from game.search.pair_by_pair import Found


class Advanced(Message):
    """A search has proven a longer lower bound."""

    def __init__(self, question: Question, progress: Progress) -> None:
        super().__init__()
        self.question = question
        self.progress = progress


class Preparing(Message):
    """A search waits for the large tables: how far they are, or why there are none, in words."""

    def __init__(self, question: Question, state: str) -> None:
        super().__init__()
        self.question = question
        self.state = state


class Answered(Message):
    """A search has ended."""

    def __init__(self, question: Question, outcome: Outcome) -> None:
        super().__init__()
        self.question = question
        self.outcome = outcome


class AnsweredByPairs(Message):
    """The best total pair by pair is known."""

    def __init__(self, question: ByPairs, found: Found) -> None:
        super().__init__()
        self.question = question
        self.found = found


class Failed(Message):
    """The engine cannot answer any more: what went wrong, in one line."""

    def __init__(self, problem: str) -> None:
        super().__init__()
        self.problem = problem
