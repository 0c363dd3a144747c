"""A row of the table: how long something takes, what it may take, and how others compare."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from statistics import median
from typing import TypeVar

T = TypeVar("T")

HEADINGS = ("what", "runs", "median", "worst", "goal", "ratio", "to")


@dataclass(frozen=True)
class Row:
    """One line. seconds: of each run; goal: what they should be, in words.

    ratio: how long we take, as a multiple of what an independent reference takes for the same in
    the same run of the table; reference: what that is.
    """

    what: str
    seconds: Sequence[float]
    goal: str = ""
    ratio: float | None = None
    reference: str = ""

    def cells(self) -> tuple[str, ...]:
        """Its texts, one to a heading."""
        return (
            self.what,
            str(len(self.seconds)),
            duration(median(self.seconds)),
            duration(max(self.seconds)),
            self.goal,
            "" if self.ratio is None else f"{self.ratio:.3g}",
            self.reference,
        )


def duration(seconds: float) -> str:
    """A time in the unit that suits it."""
    return f"{seconds:.2f} s" if seconds >= 1 else f"{1000 * seconds:.1f} ms"


def seconds_each(work: Callable[[T], object], things: Iterable[T]) -> list[float]:
    """How long the work takes on each of the things."""
    taken = []
    for thing in things:
        began = time.perf_counter()
        work(thing)
        taken.append(time.perf_counter() - began)
    return taken


def widths(rows: Sequence[Sequence[str]]) -> list[int]:
    """The width of each column."""
    return [max(map(len, column)) for column in zip(*rows, strict=True)]


def written(cells: Sequence[str], width: Sequence[int]) -> str:
    """One line of text, the numbers to the right."""
    aligned = (
        text.rjust(size) if heading in ("runs", "median", "worst", "ratio") else text.ljust(size)
        for heading, text, size in zip(HEADINGS, cells, width, strict=True)
    )
    return "  ".join(aligned).rstrip()
