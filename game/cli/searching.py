"""Searches that build the large tables when they need them."""

from __future__ import annotations

import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

from game.cli.progress import BuildTeller, ProgressLine
from game.cube.cube import Cube
from game.engine.questions import Question
from game.engine.searching import build_large, needs_more, outcome_of
from game.errors import CacheError

if TYPE_CHECKING:
    from game.search.outcome import Outcome
    from game.search.tables import Tables


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

    def search(
        self, cube: Cube, solve: tuple[str, ...], faces: str, watch: ProgressLine
    ) -> Outcome:
        """What a search finds. Ctrl-C stops it, and a build before it."""
        question = Question(cube, solve, faces, first=self._first)
        outcome = self._outcome(question, watch)
        if not self._may_build or watch.stopped or not needs_more(question, outcome):
            return outcome
        self._build(watch)
        if watch.stopped:
            return outcome
        self._may_build = False
        return self._outcome(question, watch)

    def _outcome(self, question: Question, watch: ProgressLine) -> Outcome:
        tables, began = self.tables, time.perf_counter()
        outcome = outcome_of(
            question,
            tables,
            may_gain=self._may_build,
            progress=watch.progress,
            cancelled=watch.cancelled,
        )
        self.seconds = time.perf_counter() - began
        return outcome

    def _build(self, watch: ProgressLine) -> None:
        """Have the large tables, if that is possible."""
        watch.clear()
        print("This takes the large tables, 194 MB; they are built once.", file=sys.stderr)
        teller = BuildTeller(watch)
        try:
            is_built = build_large(
                self._cache,
                teller.tell,
                lambda: watch.tell("another process is building tables"),
                watch.cancelled,
            )
        except CacheError as fault:
            watch.clear()
            print(f"Going on without: {fault}", file=sys.stderr)
            return
        watch.clear()
        if is_built:
            self.load()
