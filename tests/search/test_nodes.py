"""Nodes in blocks: which turns follow which, what their children are, and the goal."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube import pair
from game.cube.cube import SOLVED, Cube
from game.cube.geometry import FACES
from game.cube.moves import FACE_MOVES
from game.cube.pair import SLOTS
from game.search import coordinates
from game.search.coordinates import corner_fours, edge_fours
from game.search.nodes import START, Block, Cells, Children, followers, goal, joined, start
from tests.strategies import cubes, slot_sets

ALL = followers(FACES)


def test_lines_are_as_many_as_positions() -> None:
    """To depth 3 every line leads elsewhere: 1, 18, 243, 3240 of both (OEIS A080601)."""
    counts = []
    ends = np.zeros(START + 1, dtype=int)
    ends[START] = 1
    for _ in range(4):
        counts.append(int(ends.sum()))
        ends = np.append(ends @ ALL, 0)
    assert counts == [1, 18, 243, 3240]


@pytest.mark.parametrize(
    ("before", "turn", "may"),
    [
        ("R", "R", False),
        ("R", "R2", False),
        ("R", "U", True),
        ("R", "L'", True),
        ("L", "R", False),
        ("F2", "B", True),
        ("B", "F2", False),
        ("U'", "D", True),
        ("D", "U", False),
    ],
)
def test_what_follows_what(before: str, turn: str, may: bool) -> None:
    """No face twice in a row; of two opposite faces one order only."""
    names = [move.name for move in FACE_MOVES]
    assert ALL[names.index(before), names.index(turn)] == may


def test_only_allowed_faces_follow() -> None:
    """With R and U, nothing else is turned, not even at the start."""
    allowed = followers("RU")
    turned = {FACE_MOVES[turn].name[0] for turn in np.flatnonzero(allowed.any(axis=0))}
    assert turned == {"R", "U"}
    assert allowed[START].sum() == 6


def check(block: Block, row: int, cube: Cube) -> None:
    """A row of a block has the coordinates of the cube."""
    assert block.cross[row] == coordinates.cross_of(cube)
    assert block.corners[row] == coordinates.corners_of(cube)
    assert block.edges[row] == coordinates.edges_of(cube)


@given(cubes())
def test_children_are_the_cube_after_each_turn(cube: Cube) -> None:
    """The cells of the start are the upright cube after each of the 18 turns."""
    root = start(cube)
    check(root, 0, cube)
    children = Children(Cells(root), np.arange(18)).block()
    assert children.turn.tolist() == list(range(18))
    assert children.parent.tolist() == [0] * 18
    for number, turn in enumerate(FACE_MOVES):
        check(children, number, cube.upright.turn([turn]))


@given(cubes(), st.sets(st.integers(0, 18 * 18 - 1), min_size=1))
def test_some_cells_are_the_same_few_or_many(cube: Cube, chosen: set[int]) -> None:
    """Whether few cells are looked up one by one, or many by rows, they hold the same."""
    block = Children(Cells(start(cube)), np.arange(18)).block()
    everyone = Children(Cells(block), np.arange(18 * 18))
    cell = np.array(sorted(chosen))
    some = Children(Cells(block), cell)
    for name in ("cross", "corners", "edges"):
        assert np.array_equal(getattr(some, name), getattr(everyone, name)[cell])
    assert np.array_equal(some.row, cell // 18)
    for slot in SLOTS:
        for kind in ("corner", "edge"):
            places = some.block().place(kind, slot)
            assert np.array_equal(some.place(kind, slot), places)
            assert np.array_equal(everyone.place(kind, slot)[cell], places)
            grid = Cells(block).place(kind, slot)
            assert np.array_equal(grid.reshape(-1)[cell], places)


@given(cubes())
def test_a_place_is_one_of_the_four(cube: Cube) -> None:
    """The place of a slot's piece is read off the number of all four."""
    root = start(cube)
    for k, slot in enumerate(SLOTS):
        assert root.place("corner", slot)[0] == corner_fours().places[k, root.corners[0]]
        assert root.place("edge", slot)[0] == edge_fours().places[k, root.edges[0]]


@given(cubes(), st.lists(st.booleans(), min_size=18, max_size=18))
def test_where_keeps_those(cube: Cube, keep: list[bool]) -> None:
    """Children that are kept stay as they are, whatever was worked out of them before."""
    children = Children(Cells(start(cube)), np.arange(18))
    before = children.edges
    kept = children.where(np.array(keep))
    assert kept.cell.tolist() == np.flatnonzero(keep).tolist()
    assert kept.edges.tolist() == before[keep].tolist()
    assert len(kept) == sum(keep)


def test_parts_and_joined() -> None:
    """A block cut into parts and joined again is the same; each part tells its first row."""
    block = Children(Cells(start(SOLVED)), np.arange(18)).block(first=100)
    parts = list(block.parts(7))
    assert [(first, len(part)) for first, part in parts] == [(0, 7), (7, 7), (14, 4)]
    again = joined([part for _, part in parts])
    assert again.cross.tolist() == block.cross.tolist()
    assert again.parent.tolist() == [100] * 18


@given(cubes(), slot_sets)
def test_the_goal_is_the_cross_and_the_slots(cube: Cube, slots: tuple[str, ...]) -> None:
    """A node is at the goal exactly if its cube is."""
    reached = goal(slots).reached(start(cube)).tolist()
    assert reached == ([0] if pair.is_goal(cube, slots) else [])


def test_only_solved_children_are_at_the_goal() -> None:
    """One turn before the goal, exactly the turn that undoes it leads there, or no turn at all."""
    before = start(SOLVED.turn([FACE_MOVES[3]]))
    children = Children(Cells(before), np.arange(18)).block()
    assert children.turn[goal(SLOTS).reached(children)].tolist() == [5]
    assert children.turn[goal(()).reached(children)].tolist() == [5]
