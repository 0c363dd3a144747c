from __future__ import annotations

import random
from collections.abc import Sequence

import pytest

from game.cube.cube import SOLVED, Cube
from game.cube.line import Line
from game.cube.moves import FACE_MOVES
from game.cube.pair import SLOTS
from game.search.nodes import joined, start
from game.search.outcome import Solved
from game.search.shortest import search
from game.search.tables import Tables
from game.search.together import Ways, line_of, ways
from game.search.workers import Cancelled
from tests.deals import one_pair_unsolved
from tests.search.plain import Plain, in_order


def found(cubes: Sequence[Cube], slots: tuple[str, ...], tables: Tables) -> Ways:
    return ways(joined([start(cube) for cube in cubes]), slots, tables, lambda: False)


def lines(told: Ways, node: int) -> list[Line]:
    return [line_of(told.turns[row]) for row in range(len(told.node)) if told.node[row] == node]


def test_as_if_each_were_searched_alone(tables: Tables) -> None:
    """Each of forty pairs has the ways that a search of its own finds, none twice."""
    cubes = one_pair_unsolved("FL")[::4]
    told = found(cubes, SLOTS, tables)
    for node, cube in enumerate(cubes):
        alone = search(cube, SLOTS, tables=tables)
        assert isinstance(alone, Solved)
        assert told.pars[node] == alone.par
        assert sorted(lines(told, node), key=str) == sorted(alone.solutions, key=str)


def test_as_a_plain_search_finds_them(tables: Tables) -> None:
    """Of thirty lines of up to six turns, two slots asked, the ways are those of a plain search."""
    plain = Plain(("FR", "BL"))
    chance = random.Random(5)
    cubes = [SOLVED.turn(chance.choices(FACE_MOVES, k=chance.randrange(7))) for _ in range(30)]
    told = found(cubes, ("FR", "BL"), tables)
    for node, cube in enumerate(cubes):
        expected = plain.shortest(cube, 6)
        assert expected is not None
        assert (told.pars[node], {in_order(line) for line in lines(told, node)}) == expected


def test_what_is_solved_has_one_way(tables: Tables) -> None:
    """A node at the goal has the way of no turns, and no other."""
    told = found([SOLVED, SOLVED.turn(FACE_MOVES[:1])], SLOTS, tables)
    assert list(told.pars) == [0, 1]
    assert lines(told, 0) == [()]
    assert len(lines(told, 1)) == 1


def test_it_can_be_stopped(tables: Tables) -> None:
    """It ends when it is told to."""
    with pytest.raises(Cancelled):
        ways(start(one_pair_unsolved("FR")[0]), SLOTS, tables, lambda: True)
