"""The large tables, read or built in a thread of their own once a search needs them."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread, get_native_id
from typing import TYPE_CHECKING

from game.engine.searching import build_large

if TYPE_CHECKING:
    from game.search.growth import Growing
    from game.search.tables import Tables

EVERY = 0.25
"""Seconds between two words about a build at least."""
NICENESS = 10
"""So much the build stands behind the game and everything else, where a thread can."""
BUSY = "Another Pairwright builds the large tables ..."


class LargeTables:
    """Has them once started; a build goes on until it is done or `stop` is called.

    tell: called with how far it is, in words; done: once, with the tables, which lack the large
    ones where they cannot be built, and then with why. Both in the thread.
    """

    def __init__(
        self, cache: Path, tell: Callable[[str], None], done: Callable[[Tables, str], None]
    ) -> None:
        self._cache = cache
        self._tell = tell
        self._done = done
        self._stopping = Event()
        self._began = 0.0
        self._next = 0.0
        self._thread = Thread(target=self._work, name="large tables", daemon=True)

    @property
    def has_started(self) -> bool:
        """Whether `start` was called."""
        return self._thread.ident is not None

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def stop(self) -> None:
        """Stop a build; what is finished of it stays."""
        self._stopping.set()

    # -- in the thread ---------------------------------------------------------------------------

    def _work(self) -> None:
        from game.search.cache import has_near_sets, load_all_tables  # noqa: PLC0415 - NumPy

        problem = ""
        tables = load_all_tables(self._cache)
        if not has_near_sets(tables):
            try:
                self._build()
            except Exception as fault:  # nobody is above a thread: whatever it is must be said
                if self._stopping.is_set():
                    return
                problem = f"Large tables cannot be built: {fault or type(fault).__name__}"
            tables = load_all_tables(self._cache)
        if not self._stopping.is_set():
            self._done(tables, problem)

    def _build(self) -> None:
        """Raises CacheError."""
        if sys.platform == "linux":  # elsewhere this is of the whole process
            os.setpriority(os.PRIO_PROCESS, get_native_id(), NICENESS)
        self._began = time.monotonic()
        build_large(self._cache, self._progress, lambda: self._tell(BUSY), self._stopping.is_set)

    def _progress(self, growing: Growing) -> None:
        now = time.monotonic()
        if now < self._next:
            return
        self._next = now + EVERY
        told = f"Large tables are built once, for three and four pairs: {growing.done:.0%}"
        left = growing.left(now - self._began)
        self._tell(told if left is None else f"{told}, {left:.0f} s left")
