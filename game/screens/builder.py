"""The large tables, built beside the game in a thread of its own, once something needs them."""

from __future__ import annotations

import time
from collections.abc import Callable
from enum import Enum
from pathlib import Path
from threading import Event, Thread
from typing import TYPE_CHECKING

from game.errors import CacheBusy

if TYPE_CHECKING:
    from game.search.growth import Growing

RETRY_SECONDS = 2.0
"""Between two looks at whether another process has finished them."""
STEP = 0.01
"""The part of the work after which it is told again."""
TRUSTED = 0.05
"""The part of the work that must be done before the time left is told."""


class State(Enum):
    """How far the work is."""

    IDLE = "not begun"
    RUNNING = "under way"
    OVER = "over, well or not"


class Builder:
    """Builds the tables of a folder, once. changed: called in its thread when it got further."""

    def __init__(self, folder: Path, changed: Callable[[], None]) -> None:
        self._folder = folder
        self._changed = changed
        self._stopping = Event()
        self.state = State.IDLE
        self._began = 0.0
        self.done = 0.0
        """How much of the work is done, 0 to 1."""
        self.problem = ""
        """Why they cannot be built, in one line; nothing while all is well."""

    def start(self) -> None:
        """Begin, unless it was begun before."""
        if self.state is State.IDLE:
            self.state = State.RUNNING
            self._began = time.monotonic()
            Thread(target=self._work, name="builder", daemon=True).start()

    @property
    def seconds_left(self) -> float | None:
        """How long it will take as things go; None while that cannot be told."""
        if self.state is not State.RUNNING or self.done < TRUSTED:
            return None
        spent = time.monotonic() - self._began
        return spent / self.done - spent

    def stop(self) -> None:
        """Stop for good; a table that is finished stays."""
        self._stopping.set()

    # -- in the thread ---------------------------------------------------------------------------

    def _work(self) -> None:
        try:
            self._build()
        except Exception as fault:  # a thread has nobody above it: whatever it is must be said
            self.problem = f"{fault or type(fault).__name__}"
        self.state = State.OVER
        self._changed()

    def _build(self) -> None:
        from game.search.cache import build_near_sets  # noqa: PLC0415 - NumPy only in a thread

        while not self._stopping.is_set():
            try:
                build_near_sets(self._folder, self._tell, self._stopping.is_set)
                return
            except CacheBusy:  # what another process is writing will do as well
                self._stopping.wait(RETRY_SECONDS)

    def _tell(self, growing: Growing) -> None:
        if growing.done >= self.done + STEP:
            self.done = growing.done
            self._changed()
