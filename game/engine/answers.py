"""What the engine tells those who ask."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from game.engine.questions import ByPairs, Question

if TYPE_CHECKING:
    from game.search.outcome import Outcome, Progress
    from game.search.pair_by_pair import Found


class Advanced(NamedTuple):
    """A search has proven a longer lower bound."""

    question: Question
    progress: Progress


class Preparing(NamedTuple):
    """A search waits for the large tables: in words, how far they are or why they cannot be had."""

    question: Question
    state: str


class Answered(NamedTuple):
    """A search has ended."""

    question: Question
    outcome: Outcome


class AnsweredByPairs(NamedTuple):
    """The best total pair by pair is known."""

    question: ByPairs
    found: Found


class Failed(NamedTuple):
    """The engine cannot answer any more: what went wrong, in one line."""

    problem: str


Answer = Advanced | Preparing | Answered | AnsweredByPairs | Failed
