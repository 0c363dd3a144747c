"""A search under the player's eyes: a line of progress, and Ctrl-C that stops it in good order."""

from __future__ import annotations

import shutil
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from game.search.growth import Growing
    from game.search.outcome import Progress

QUICK = 0.3
"""Seconds after which a search is no longer quick and its progress is shown."""
EVERY = 0.1
"""Seconds between two states of the line at least."""


class ProgressLine:
    """What `search` is given to tell its progress to and to ask whether to stop."""

    def __init__(self) -> None:
        self.stopped = False
        self._shows = sys.stderr is not None and sys.stderr.isatty()
        self._began = time.monotonic()
        self._next = self._began + QUICK
        self._width = 0

    def progress(self, progress: Progress) -> None:
        """Tell how far one search has come."""
        state = f"par is at least {progress.at_least}"
        if progress.done:
            state += f"; {progress.done:.0%} of {progress.at_least} turns tried"
        spent = time.monotonic() - self._began
        self.tell(f"{state}; {progress.nodes / 1e6:.0f} M nodes; {duration(spent)}")

    def tell(self, state: str) -> None:
        """Rewrite the line on a terminal, now and then."""
        now = time.monotonic()
        if self._shows and now >= self._next:
            self._next = now + EVERY
            self._write(f"{state}; Ctrl-C stops")

    def cancelled(self) -> bool:
        """Whether Ctrl-C was pressed."""
        return self.stopped

    def clear(self) -> None:
        """Take the line away."""
        if self._width:
            self._write("")
            print("\r", end="", file=sys.stderr, flush=True)

    def _write(self, text: str) -> None:
        text = text[: shutil.get_terminal_size().columns - 1]
        print(f"\r{text:<{self._width}}", end="", file=sys.stderr, flush=True)
        self._width = len(text)

    def _interrupt(self, number: int, frame: FrameType | None) -> None:
        if self.stopped:  # once was enough to ask; now it is meant
            raise KeyboardInterrupt
        self.stopped = True


class BuildTeller:
    """Tells how far a build of the large tables is, and how long it will take as things go."""

    def __init__(self, watch: ProgressLine) -> None:
        self._watch = watch
        self._began = time.monotonic()

    def tell(self, growing: Growing) -> None:
        """One line: work done, the turn in the making, states reached, time left."""
        state = (
            f"tables {growing.done:.0%}; turn {growing.turns} of {growing.last}; "
            f"{growing.states / 1e6:,.0f} of {growing.part.states / 1e6:,.0f} M states"
        )
        left = growing.left(time.monotonic() - self._began)
        self._watch.tell(state if left is None else f"{state}; {duration(left)} left")


def duration(seconds: float) -> str:
    """Seconds in few characters."""
    return f"{seconds:.0f} s" if seconds < 100 else f"{seconds / 60:.0f} min"


@contextmanager
def progress_line() -> Iterator[ProgressLine]:
    """While within, Ctrl-C makes the watch say that the search is cancelled."""
    watch = ProgressLine()
    before = signal.signal(signal.SIGINT, watch._interrupt)
    try:
        yield watch
    finally:
        signal.signal(signal.SIGINT, before)
        watch.clear()
