"""The best total pair by pair, held against its definition followed literally."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import FACES
from game.cube.moves import parse_line
from game.cube.pair import SLOTS, is_cross_solved, is_goal, is_pair_solved
from game.packs.difficulty import Find
from game.search.outcome import Solved, Stopped
from game.search.pair_by_pair import PairByPair, pair_by_pair
from game.search.shortest import search
from game.search.tables import Tables
from tests.deals import pairs_unsolved


def literally(cube: Cube, slots: Sequence[str], done: tuple[str, ...], find: Find) -> int:
    """Every order and every shortest way of each step, one search after another.

    The cube with the pairs `done` solved goes on with each of those left.
    """
    left = [slot for slot in slots if slot not in done]
    totals = []
    for slot in left:
        step = find(cube, (*done, slot), FACES)
        assert isinstance(step, Solved)
        assert step.complete
        totals += [
            step.par + literally(cube.turn(way), slots, (*done, slot), find)
            for way in step.solutions
        ]
    return min(totals, default=0)


def told(cube: Cube, slots: Sequence[str], tables: Tables) -> PairByPair:
    found = pair_by_pair(cube, slots, tables=tables)
    assert isinstance(found, PairByPair)
    return found


def check_told(cube: Cube, slots: Sequence[str], found: PairByPair, tables: Tables) -> None:
    """What is told is a way to play: each step solves the next pair and is a shortest one."""
    cube = cube.turn(found.cross)
    done = [slot for slot in slots if is_pair_solved(cube, slot)]
    assert is_cross_solved(cube)
    assert sum(map(len, found.steps)) + len(found.cross) == found.total
    for slot, step in zip(found.order, found.steps, strict=True):
        done = [*done, slot] if slot not in done else done
        alone = search(cube, done, tables=tables)
        assert isinstance(alone, Solved)
        assert alone.par == len(step)
        cube = cube.turn(step)
        assert is_goal(cube, done)
    assert is_goal(cube, slots)


@pytest.mark.parametrize("seed", range(5))
def test_two_pairs_as_defined(seed: int, tables: Tables, find: Find) -> None:
    """The total is the least over both orders and all shortest ways of each step."""
    cube = pairs_unsolved(2, 1, seed=seed)[0]
    kept = tuple(slot for slot in SLOTS if is_pair_solved(cube, slot))
    assert told(cube, SLOTS, tables).total == literally(cube, SLOTS, kept, find)


def test_three_pairs_as_defined(tables: Tables, find: Find) -> None:
    """The same with three pairs and six orders."""
    for setup in ("R U R' L' U' L B U2 B'", "F' L F L' B U' B' U R U' R'"):
        cube = SOLVED.turn(parse_line(setup))
        kept = tuple(slot for slot in SLOTS if is_pair_solved(cube, slot))
        assert len(kept) == 1, setup
        assert told(cube, SLOTS, tables).total == literally(cube, SLOTS, kept, find)


@pytest.mark.parametrize("pairs", [2, 3, 4])
def test_what_is_told_can_be_played(pairs: int, tables: Tables) -> None:
    """The steps told are shortest ones, solve the pairs in the order told, and add up."""
    for cube in pairs_unsolved(pairs, 2, seed=70 + pairs):
        check_told(cube, SLOTS, told(cube, SLOTS, tables), tables)


def test_the_cross_comes_first(tables: Tables) -> None:
    """Where the cross is not solved it is the first step, and pairs that are solved are kept."""
    cube = SOLVED.turn(parse_line("F R U' B L2"))
    found = told(cube, SLOTS, tables)
    assert found.cross
    check_told(cube, SLOTS, found, tables)


def test_never_below_par(tables: Tables) -> None:
    """All pairs at once never take more turns than one after another."""
    for cube in pairs_unsolved(2, 4, seed=12):
        at_once = search(cube, SLOTS, tables=tables)
        assert isinstance(at_once, Solved)
        assert at_once.par <= told(cube, SLOTS, tables).total


def test_open_slots_stay_open(tables: Tables) -> None:
    """Pairs that are not asked for are no step, whatever becomes of them."""
    cube = SOLVED.turn(parse_line("R U R' L' U' L"))
    found = told(cube, ("FR", "BR"), tables)
    alone = search(cube, ("FR", "BR"), tables=tables)
    assert isinstance(alone, Solved)
    assert (found.order, found.total) == (("FR",), alone.par)


def test_nothing_to_do(tables: Tables) -> None:
    """A solved cube takes no turns."""
    assert told(SOLVED, SLOTS, tables) == PairByPair(0, (), (), ())


def test_the_grip_does_not_matter(tables: Tables) -> None:
    """However the cube is held, the total and the steps by centres are the same."""
    cube = pairs_unsolved(2, 1, seed=3)[0]
    held = cube.turn(parse_line("y x'"))
    assert told(held, SLOTS, tables) == told(cube, SLOTS, tables)


def test_it_can_be_stopped(tables: Tables) -> None:
    """A computation that is told to stop says so."""
    cube = pairs_unsolved(4, 1, seed=3)[0]
    assert isinstance(pair_by_pair(cube, SLOTS, tables=tables, cancelled=lambda: True), Stopped)
