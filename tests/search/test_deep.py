"""Three and four pairs with the large tables, held against a plain C program.

The program (tests/bench/reference.c) shares nothing with the search: it knows the cube by the faces
on which stickers lie, and makes a table of its own.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from pathlib import Path

import pytest

from game.cube.cube import SOLVED, Cube
from game.cube.moves import FACE_MOVES, parse_line
from game.cube.pair import SLOTS, is_goal
from game.search.outcome import Solved
from game.search.shortest import search
from game.search.tables import Tables
from tests.bench.compiled import Found, ask, compiled, described
from tests.deals import pairs_unsolved
from tests.large import peak


def test_a_cube_as_the_program_reads_it() -> None:
    """Each piece is followed by the faces on which its stickers lie."""
    assert described(SOLVED) == (
        "DF=DF DR=DR DB=DB DL=DL FR=FR RB=RB BL=BL LF=LF DFR=DFR DRB=DRB DBL=DBL DLF=DLF"
    )
    turned = described(SOLVED.turn([FACE_MOVES[6]]))  # R: what was below is in front
    assert "DR=FR" in turned
    assert "FR=UR" in turned
    assert "DFR=FUR" in turned
    assert "LF=LF" in turned


@pytest.mark.parametrize(
    ("setup", "par", "solutions"),
    [
        ("F U' R2 U2 R2 U2 F' R' U' R'", 10, 3),
        ("R' B' U2 R U' B R B' U' B", 10, 1),
        ("B' U2 B2 R B' R' U' L' B' U' L", 11, 1),
        ("R' B2 F' U' F R B U B R B", 11, 2),
        ("R2 U2 L F' L' R F' R2 U R F", 11, 1),
    ],
)
def test_a_sample_of_three_pairs(tables: Tables, setup: str, par: int, solutions: int) -> None:
    """What the program found of some deals of three pairs, the small tables find, too."""
    found = search(SOLVED.turn(parse_line(setup)), SLOTS, tables=tables)
    assert isinstance(found, Solved)
    assert (found.par, len(set(found.solutions)), found.complete) == (par, solutions, True)


SUPERFLIP = "U R2 F B R B2 R U2 L B2 R U' D' R2 F R' L B2 U2 F2"


@pytest.mark.slow
def test_a_search_stays_below_a_gigabyte(large_folder: Path) -> None:
    """However many nodes there are: with every edge turned over, cross and pairs take 16 turns."""
    assert peak(large_folder, SUPERFLIP) < 10**9


@pytest.fixture(scope="module")
def program(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The C program; without a compiler these tests cannot be run, and fail."""
    found = compiled(tmp_path_factory.mktemp("program"))
    assert found is not None, "no C compiler"
    return found


def check(cubes: Sequence[Cube], large: Tables, program: Path) -> None:
    """Par and the number of shortest solutions are the program's; each solution solves."""
    for cube, theirs in zip(cubes, ask(program, cubes), strict=True):
        every = search(cube, SLOTS, tables=large)
        assert isinstance(every, Solved)
        assert every.complete
        assert (every.par, len(set(every.solutions))) == (theirs.par, theirs.solutions)
        assert all(is_goal(cube.turn(line), SLOTS) for line in every.solutions)
        one = search(cube, SLOTS, tables=large, first=True)
        assert isinstance(one, Solved)
        assert one.par == theirs.par
        assert one.solutions[0] in every.solutions


@pytest.mark.slow
def test_three_pairs(large: Tables, program: Path) -> None:
    """100 random deals of three pairs."""
    check(pairs_unsolved(3, 100, seed=31), large, program)


@pytest.mark.slow
@pytest.mark.parametrize("half", [0, 1])
def test_four_pairs(large: Tables, program: Path, half: int) -> None:
    """30 random deals of four pairs, in two halves that share the cores."""
    check(pairs_unsolved(4, 30, seed=41)[half::2], large, program)


@pytest.mark.slow
def test_crosses_unsolved(large: Tables, program: Path) -> None:
    """10 random deals with nothing solved, the cross neither."""
    chance = random.Random(51)
    check([SOLVED.turn(chance.choices(FACE_MOVES, k=30)) for _ in range(10)], large, program)


@pytest.mark.slow
def test_the_program_knows_simple_cubes(program: Path) -> None:
    """What the program finds of cubes that need no search."""
    cubes = [SOLVED, SOLVED.turn(FACE_MOVES[:1]), SOLVED.turn(FACE_MOVES[12:13])]
    found = [(one.par, one.solutions) for one in ask(program, cubes)]
    assert found == [(0, 1), (1, 1), (0, 1)]
    assert isinstance(next(ask(program, cubes, first=True)), Found)


@pytest.mark.slow
def test_slots_left_open(large: Tables, tables: Tables) -> None:
    """With slots open and with few faces, large and small tables give the same answers."""
    for cube in pairs_unsolved(3, 4, seed=61):
        for wanted in (SLOTS[:3], SLOTS[1:3], ("BR",), ()):
            assert search(cube, wanted, tables=large) == search(cube, wanted, tables=tables)
