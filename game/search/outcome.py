"""What a search finds, finished or not.

Solved       par, and shortest solutions: all of them, or some
Unsolvable   proven: no turns of the faces allowed solve it
NoneUpTo     not proven impossible, but nothing that short solves it
Stopped      cancelled: par is at least so much, as far as is proven
Progress     still going on
"""

from __future__ import annotations

from dataclasses import dataclass

from game.cube.line import Line


@dataclass(frozen=True)
class Solved:
    """Par and the shortest solutions as turns named by centres, the easiest on the hands first.

    complete: whether these are all the shortest solutions there are.
    """

    par: int
    solutions: tuple[Line, ...]
    complete: bool


@dataclass(frozen=True)
class Unsolvable:
    """No solution exists with the faces allowed. proof: why, as one sentence without full stop."""

    proof: str


@dataclass(frozen=True)
class NoneUpTo:
    """No solution of at most so many turns exists; whether a longer one does is not known."""

    turns: int


@dataclass(frozen=True)
class Stopped:
    """The search was cancelled before it found a solution; par is at least `at_least`."""

    at_least: int


@dataclass(frozen=True)
class Progress:
    """How far a search has come: par is at least `at_least`; `nodes` have been looked at.

    done: how much of the lines of `at_least` turns has been tried, 0 to 1; 0 while they are few.
    """

    at_least: int
    nodes: int
    done: float = 0.0


Outcome = Solved | Unsolvable | NoneUpTo | Stopped


def is_finished(outcome: Outcome, *, first: bool) -> bool:
    """Whether a search, for the first solution or for all, was not cancelled on the way."""
    if isinstance(outcome, Solved):
        return first or outcome.complete
    return not isinstance(outcome, Stopped)
