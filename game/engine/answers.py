"""What the engine tells those who ask."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from game.engine.questions import ByPairs, Question

if TYPE_CHECKING:
    from game.search.outcome import Outcome, Progress
    from game.search.pair_by_pair import Found


@dataclass(frozen=True)
class Advanced:
    """A search has proven a longer lower bound."""

    question: Question
    progress: Progress


@dataclass(frozen=True)
class Preparing:
    """A search waits for the large tables: in words, how far they are or why they cannot be had."""

    question: Question
    state: str


@dataclass(frozen=True)
class Answered:
    """A search has ended."""

    question: Question
    outcome: Outcome


@dataclass(frozen=True)
class AnsweredByPairs:
    """The best total pair by pair is known."""

    question: ByPairs
    found: Found


@dataclass(frozen=True)
class Failed:
    """The engine cannot answer any more: what went wrong, in one line."""

    problem: str


Answer = Advanced | Preparing | Answered | AnsweredByPairs | Failed
