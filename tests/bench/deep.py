"""Three and four pairs with the large tables, beside a plain C program with one of them."""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from game.cube.cube import Cube
from game.cube.pair import SLOTS
from game.search.cache import build_near_sets, load_all_tables
from game.search.outcome import Progress, Solved
from game.search.shortest import search
from game.search.tables import Tables
from tests.bench.compiled import Found, ask, compiled
from tests.bench.table import Row, seconds_each
from tests.deals import pairs_unsolved

C = "C, depth first, one thread, cross-corner-edge table"


def rows() -> Iterator[Row]:
    """The large tables built; first and all solutions of three and four pairs."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        yield Row("large tables built", seconds_each(lambda _: build_near_sets(folder), [0]))
        tables = load_all_tables(folder)
        program = compiled(folder)
        if program is None:
            print("no C compiler: no ratios for three and four pairs", file=sys.stderr)
        three = pairs_unsolved(3, 100, seed=2026)
        four = pairs_unsolved(4, 30, seed=2026)
        search(four[0], SLOTS, tables=tables, first=True)
        for what, cubes, compared, goal in (
            ("three pairs, one kept", three, 30, "median 0.3 s, worst 5 s"),
            ("four pairs", four, 6, "median 3 s, worst 45 s"),
        ):
            for first in (True, False):
                yield _pairs(
                    what,
                    cubes,
                    compared,
                    first=first,
                    tables=tables,
                    program=program,
                    goal=goal if first else "",
                )


def _pairs(
    what: str,
    cubes: Sequence[Cube],
    compared: int,
    *,
    first: bool,
    tables: Tables,
    program: Path | None,
    goal: str,
) -> Row:
    """Every cube; some of them, by chance, are compared."""
    found: list[Found] = []
    seconds = seconds_each(_searched(first, tables, found), cubes)
    rate = sum(one.nodes for one in found) / sum(seconds) / 1e6
    name = f"{what}, {'first' if first else 'all'} ({rate:.1f} M nodes/s)"
    if program is None:
        return Row(name, seconds, goal)
    some = random.Random(1).sample(range(len(cubes)), compared)
    theirs = list(ask(program, [cubes[i] for i in some], first=first))
    for i, other in zip(some, theirs, strict=True):
        assert (other.par, first or other.solutions) == (found[i].par, first or found[i].solutions)
    ratio = sum(seconds[i] for i in some) / sum(other.seconds for other in theirs)
    rate = sum(other.nodes for other in theirs) / sum(other.seconds for other in theirs) / 1e6
    reference = f"{C} ({compared} of them, {rate:.1f} M nodes/s)"
    return Row(name, seconds, goal, ratio, reference)


def _searched(first: bool, tables: Tables, found: list[Found]) -> Callable[[Cube], object]:
    def work(cube: Cube) -> None:
        told: list[Progress] = []
        outcome = search(cube, SLOTS, tables=tables, first=first, progress=told.append)
        assert isinstance(outcome, Solved)
        found.append(Found(outcome.par, len(outcome.solutions), told[-1].nodes, 0.0))

    return work
