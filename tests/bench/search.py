"""Tables and searches."""

from __future__ import annotations

import random
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from game.cube.cube import SOLVED, Cube
from game.cube.moves import FACE_MOVES
from game.cube.pair import SLOTS
from game.search.cache import load_tables
from game.search.outcome import Solved
from game.search.shortest import search
from game.search.tables import Tables
from tests.bench.reference import par_from_both_ends
from tests.bench.table import Row, seconds_each
from tests.cross_graph import cross_graph
from tests.deals import one_pair_unsolved, pairs_unsolved

BOTH_ENDS = "plain search from both ends over sets"
SCIPY = "SciPy's breadth-first search"


def rows() -> Iterator[Row]:
    """Building and reading the tables; one and two pairs; one cross."""
    with TemporaryDirectory() as folder:
        yield Row("tables built, in a new process", _in_new_processes("None"), "at most 2 s")
        tables = load_tables(Path(folder))
        yield Row("tables read, in a new process", _in_new_processes(f"Path({folder!r})"))
    for slot in SLOTS:
        search(SOLVED.turn(FACE_MOVES), (slot,), tables=tables, max_turns=1)
    one = [cube for slot in SLOTS for cube in one_pair_unsolved(slot)]
    two = pairs_unsolved(2, 120, seed=2026)
    yield _pairs("one pair, three kept", one, 24, tables, "median 20 ms, worst 0.2 s")
    yield _pairs("two pairs, two kept", two, 3, tables, "median 0.3 s, worst 3 s")
    yield _crosses(tables)


def _in_new_processes(folder: str) -> list[float]:
    """Seconds for the tables in three new processes, NumPy already imported."""
    program = (
        "import time; from pathlib import Path; from game.search.cache import load_tables\n"
        f"began = time.perf_counter(); load_tables({folder}); print(time.perf_counter() - began)"
    )
    command = [sys.executable, "-c", program]
    return [float(subprocess.check_output(command, text=True)) for _ in range(3)]


def _pairs(what: str, cubes: Sequence[Cube], compared: int, tables: Tables, goal: str) -> Row:
    """All solutions of each cube; some of par 9 or less are compared, which sets can still hold."""
    seconds = seconds_each(_all_solutions(SLOTS, tables), cubes)
    pars = [_par(cube, SLOTS, tables) for cube in cubes]
    some = random.Random(1).sample([i for i, par in enumerate(pars) if par <= 9], compared)
    theirs = seconds_each(lambda i: _agree(pars[i], par_from_both_ends(cubes[i], SLOTS)), some)
    ratio = sum(seconds[i] for i in some) / sum(theirs)
    return Row(f"{what}, all solutions", seconds, goal, ratio, f"{BOTH_ENDS} ({compared} of them)")


def _crosses(tables: Tables) -> Row:
    chance = random.Random(2026)
    cubes = [SOLVED.turn(chance.choices(FACE_MOVES, k=25)) for _ in range(30)]
    seconds = seconds_each(_all_solutions((), tables), cubes)
    pars = [_par(cube, (), tables) for cube in cubes]
    graph = cross_graph()
    home = graph.state(SOLVED)
    theirs = seconds_each(
        lambda posed: _agree(posed[1], graph.distance(posed[0], home)),
        list(zip(map(graph.state, cubes), pars, strict=True)),
    )
    return Row("one cross, all solutions", seconds, "", sum(seconds) / sum(theirs), SCIPY)


def _all_solutions(slots: Sequence[str], tables: Tables) -> Callable[[Cube], object]:
    return lambda cube: search(cube, slots, tables=tables)


def _par(cube: Cube, slots: Sequence[str], tables: Tables) -> int:
    outcome = search(cube, slots, tables=tables, first=True)
    assert isinstance(outcome, Solved)
    return outcome.par


def _agree(ours: int, theirs: int) -> None:
    """A reference that finds something else is no reference."""
    assert ours == theirs
