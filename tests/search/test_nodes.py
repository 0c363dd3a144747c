"""Blocks of nodes: which turns follow which, and what expanding keeps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import FACE_MOVES
from game.cube.pair import SLOTS
from game.search import coordinates
from game.search.nodes import START, Block, expand, followers, start
from game.search.tables import Distances, Nodes, Tables
from tests.strategies import cubes, face_lines, slot_sets

ALL = followers(FACES)


class Anything:
    """A bound that forbids nothing."""

    def __call__(self, nodes: Nodes) -> Distances:
        return np.zeros(nodes.cross.shape, dtype=np.uint8)


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
    for slot in block.corners:
        assert block.corner(slot)[row] == coordinates.corner_of(cube, slot)
        assert block.edge(slot)[row] == coordinates.edge_of(cube, slot)


@given(cubes(), slot_sets)
def test_children_are_the_cube_after_each_turn(cube: Cube, slots: tuple[str, ...]) -> None:
    """Without bounds the start has 18 children, each the upright cube after its turn."""
    root = start(cube, slots)
    check(root, 0, cube)
    children = expand(root, ALL, [Anything()], 0)
    assert children.turn.tolist() == list(range(18))
    blocks = list(children.blocks(7))
    assert [len(block) for block in blocks] == [7, 7, 4]
    for k, turn in enumerate(FACE_MOVES):
        check(blocks[k // 7], k % 7, cube.upright.turn([turn]))
        assert blocks[k // 7].parent[k % 7] == 0


@given(face_lines(8), st.integers(0, 8))
def test_bounds_keep_what_may_be_near_enough(tables: Tables, setup: Line, remaining: int) -> None:
    """A child is kept exactly if every bound says that it may be near enough."""
    root = start(SOLVED.turn(setup), SLOTS)
    bounds = list(tables.bounds(SLOTS, FACES))
    (everyone,) = expand(root, ALL, [Anything()], 0).blocks(18)
    near = np.all([bound(everyone) <= remaining for bound in bounds], axis=0)
    assert expand(root, ALL, bounds, remaining).turn.tolist() == np.flatnonzero(near).tolist()


def test_only_solved_children_are_solved() -> None:
    """One turn before the goal, exactly the turn that undoes it leads there."""
    children = expand(start(SOLVED.turn([FACE_MOVES[3]]), SLOTS), ALL, [Anything()], 0)
    assert children.solved().turn.tolist() == [5]
