"""Searches that build the large tables when they need them."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from game.cli.progress import BuildTeller, Watch
from game.cube.cube import Cube
from game.errors import CacheBusy, CacheError

if TYPE_CHECKING:
    from game.search.outcome import Outcome
    from game.search.tables import Tables

PAUSE = 0.1
"""Seconds between two looks at whether another process has ended its build."""


class Searcher:
    """Searches with the tables of a folder. first: one shortest solution is enough.

    A search that is long without the large tables waits until they are built. Where they cannot
    be, that is told once, and searches take as long as they take.
    """

    def __init__(self, cache: Path, *, first: bool = False) -> None:
        self._cache = cache
        self._first = first
        self._tables: Tables | None = None
        self._may_build = False
        self.seconds = 0.0
        """How long the last search took, the tables being there."""

    @property
    def tables(self) -> Tables:
        """Those that there are."""
        if self._tables is None:
            self.load()
        assert self._tables is not None
        return self._tables

    def load(self) -> None:
        """Read the tables, so that the first search need not."""
        from game.search.cache import has_near_sets, load_all_tables  # noqa: PLC0415 - NumPy

        self._tables = load_all_tables(self._cache)
        self._may_build = not has_near_sets(self._tables)

    def search(self, cube: Cube, solve: tuple[str, ...], faces: str, watch: Watch) -> Outcome:
        """What a search finds. Ctrl-C stops it, and a build before it."""
        from game.search.cache import ENOUGH  # noqa: PLC0415 - likewise
        from game.search.shortest import search  # noqa: PLC0415

        if self._tables is None:
            self.load()

        def found(max_nodes: int | None) -> Outcome:
            began = time.perf_counter()
            assert self._tables is not None
            outcome = search(
                cube,
                solve,
                faces,
                tables=self._tables,
                first=self._first,
                max_nodes=max_nodes,
                progress=watch.progress,
                cancelled=watch.cancelled,
            )
            self.seconds = time.perf_counter() - began
            return outcome

        return self._with_tables(found, ENOUGH, watch) if self._may_build else found(None)

    def _with_tables(
        self, found: Callable[[int | None], Outcome], enough: int, watch: Watch
    ) -> Outcome:
        from game.search.outcome import is_finished  # noqa: PLC0415

        outcome = found(enough)
        if is_finished(outcome, first=self._first) or watch.stopped:
            return outcome
        self._build(watch)
        return outcome if watch.stopped else found(None)

    def _build(self, watch: Watch) -> None:
        """Build the large tables, or wait while another process does."""
        from game.search.cache import build_near_sets  # noqa: PLC0415

        watch.clear()
        print("This takes the large tables, 194 MB; they are built once.", file=sys.stderr)
        teller = BuildTeller(watch)
        while not watch.stopped:
            try:
                if not build_near_sets(self._cache, teller.tell, watch.cancelled):
                    return
            except CacheBusy:
                watch.tell("another process is building tables")
                time.sleep(PAUSE)
                continue
            except CacheError as fault:
                watch.clear()
                print(f"Going on without: {fault}", file=sys.stderr)
                self._may_build = False
                return
            watch.clear()
            self.load()
            self._may_build = False
            return
