"""The sieve: whatever the order of the bounds, it keeps what all of them allow."""

from __future__ import annotations

import random
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from game.cube.cube import SOLVED
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.pair import SLOTS
from game.search import sieve
from game.search.nodes import Block, Cells, Children, followers, joined, start
from game.search.sieve import Sieve
from game.search.tables import Bound, Nodes, Tables
from tests.deals import pairs_unsolved
from tests.strategies import face_lines

ALL = followers(FACES)


@dataclass
class Every:
    """A bound that keeps about every so-manieth node, and counts how often it is asked."""

    step: int
    reach: int = 8
    asked: int = 0

    def within(self, nodes: Nodes, turns: int) -> NDArray[np.bool_]:
        self.asked += nodes.cross.size
        return (31 * nodes.cross + 17 * nodes.corners + 7 * nodes.edges) % self.step == 0


def some_nodes() -> Block:
    """All nodes two turns from some cube."""
    root = start(pairs_unsolved(4, 1, seed=1)[0])
    block = Children(Cells(root), np.arange(18)).block()
    return Children(Cells(block), np.flatnonzero(ALL[block.turn])).block()


@given(face_lines(8), st.integers(0, 8))
def test_kept_is_what_all_bounds_allow(tables: Tables, setup: Line, turns: int) -> None:
    """A child is kept exactly if every bound says that it may be near enough."""
    root = start(SOLVED.turn(setup))
    bounds = list(tables.bounds(SLOTS, FACES))
    everyone = Children(Cells(root), np.arange(18)).block()
    telling = [bound.within(everyone, turns) for bound in bounds if bound.reach >= turns]
    near = np.all([np.ones(18, dtype=bool), *telling], axis=0)
    kept = Sieve(ALL, bounds).sift(root, turns)
    assert kept.turn.tolist() == np.flatnonzero(near).tolist()


def test_a_measured_order_keeps_all_that_is_near_enough(tables: Tables) -> None:
    """Measured on many nodes, the sieve may leave a bound out, but never rejects more than all."""
    nodes = some_nodes()
    bounds = list(tables.bounds(SLOTS, FACES))
    everyone = Children(Cells(nodes), np.flatnonzero(ALL[nodes.turn]))
    for turns in range(5, 10):
        kept = set(Sieve(ALL, bounds).sift(nodes, turns).cell.tolist())
        telling = [bound.within(everyone, turns) for bound in bounds if bound.reach >= turns]
        near = np.all([np.ones(len(everyone), dtype=bool), *telling], axis=0)
        assert set(everyone.cell[near].tolist()) <= kept <= set(everyone.cell.tolist())


def test_the_most_telling_bound_comes_first() -> None:
    """Measured on enough nodes, the one that rejects most is asked of all and first."""
    nodes = some_nodes()
    assert len(nodes) < sieve.SAMPLE
    many = joined([nodes, nodes])
    weak, strong = Every(2), Every(5)
    cells = Sieve(ALL, [weak, strong])
    kept = cells.sift(many, 8)
    assert len(kept)
    assert weak.within(kept, 8).all()
    assert strong.within(kept, 8).all()
    weak.asked = strong.asked = 0
    cells.sift(many, 8)
    assert strong.asked == 18 * len(many)
    assert 0 < weak.asked < strong.asked / 2


def test_a_bound_that_rejects_nothing_is_not_asked_again() -> None:
    """What is not worth the time on the sample is left out."""
    many = joined([some_nodes()] * 2)
    useless, useful = Every(1), Every(3)
    cells = Sieve(ALL, [useless, useful])
    cells.sift(many, 8)
    useless.asked = useful.asked = 0
    cells.sift(many, 8)
    assert (useless.asked, useful.asked > 0) == (0, True)


def test_a_bound_is_not_asked_beyond_its_reach() -> None:
    """With more turns left than a bound can tell, all children are kept and it is not asked."""
    bound = Every(3, reach=4)
    kept = Sieve(ALL, [bound]).sift(start(SOLVED), 5)
    assert (len(kept), bound.asked) == (18, 0)


@pytest.mark.parametrize("bounds", [[], [Every(1)]])
def test_turns_that_may_not_follow_are_never_kept(bounds: list[Bound]) -> None:
    """With and without bounds, only turns that may follow lead to children."""
    nodes = some_nodes()
    chance = random.Random(1)
    for row in chance.sample(range(len(nodes)), 20):
        node = nodes.part(slice(row, row + 1))
        kept = Sieve(ALL, bounds).sift(node, 8)
        assert kept.turn.tolist() == np.flatnonzero(ALL[node.turn[0]]).tolist()
