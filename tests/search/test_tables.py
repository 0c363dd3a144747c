"""Distance tables, held against published counts and against other programs' searches."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.cube import CORNERS, EDGES, SOLVED
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import FACE_MOVES, Move, turned_face
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS
from game.search.coordinates import (
    CORNER_MOVES,
    CROSSES,
    EDGE_MOVES,
    EDGE_PLACES,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
    edge_four_moves,
    edge_fours,
)
from game.search.nodes import start
from game.search.tables import KINDS, UNREACHED, Distances, PairTables, distances
from tests.breadth_first import level_sizes
from tests.cross_graph import cross_graph
from tests.strategies import face_lines, slot_sets

CROSSES_BY_DISTANCE = [1, 15, 158, 1394, 9809, 46381, 97254, 34966, 102]
"""L. Vandenbergh, Cross study, 2008."""
BLOCKS_BY_DISTANCE = [1, 9, 90, 852, 7169, 44182, 131636, 68940, 561]
"""Blocks of 2x2x2, half turns: M. Reid, Cube-Lovers, 24 May 1992."""


def crosses(tables: PairTables) -> Distances:
    return tables.crosses(FACES)


def sizes(table: Distances) -> list[int]:
    """How many states lie at distance 0, 1, 2 ..."""
    counts = np.bincount(table.ravel(), minlength=UNREACHED + 1)[:UNREACHED]
    return np.trim_zeros(counts, "b").tolist()


def test_crosses_by_distance(tables: PairTables) -> None:
    """The crosses lie as far from solved as is published (Vandenbergh)."""
    assert sizes(crosses(tables)) == CROSSES_BY_DISTANCE


def test_the_edge_table_knows_the_same_crosses(tables: PairTables) -> None:
    """The nearest state of a cross with any edge is as far as the cross alone."""
    edge = tables.table("edge", "FR", FACES)
    assert np.array_equal(edge.min(axis=1), crosses(tables))


def test_a_general_search_counts_blocks_as_published() -> None:
    """The plain search of these tests, on a second goal, gives Reid's counts."""
    corner = CORNERS[0]
    sides = {SOLVED_FACE[i] for i in corner}
    edges = [piece for piece in EDGES if {SOLVED_FACE[i] for i in piece} < sides]
    assert len(edges) == 3
    stickers = [corner[0], *(edge[0] for edge in edges)]
    assert level_sizes(stickers, FACE_MOVES) == BLOCKS_BY_DISTANCE


SOLVED_FACE = {i: FACES[i // 9] for i in range(54)}


def test_one_pair_has_384_states() -> None:
    """With the cross done a pair has 384 states (forum thread Case calculation, Dec 2008)."""
    occupied = {place // 2 for place in edge_fours().places[:, HOME_CROSS]}
    free = [place for place in range(24) if place // 2 not in occupied]
    assert 24 * len(free) == 384
    table = distances("edge")
    assert np.flatnonzero(table[HOME_CROSS] != UNREACHED).tolist() == free


# -- against SciPy -------------------------------------------------------------------------------


def test_crosses_are_as_far_as_scipy_says(tables: PairTables) -> None:
    """Every cross has the distance that SciPy's breadth-first search finds."""
    graph = cross_graph()
    steps = graph.steps_from(graph.state(SOLVED)).tolist()
    theirs = dict(zip(map(tuple, graph.places.tolist()), steps, strict=True))
    places = np.array(EDGE_PLACES)[edge_fours().places]
    ours = dict(zip(zip(*places.tolist(), strict=True), crosses(tables).tolist(), strict=True))
    assert len(ours) == CROSSES
    assert ours == theirs


@pytest.mark.parametrize("faces", ["U", "RL", "RU", "RD", "RUF"])
@pytest.mark.parametrize("kind", KINDS)
def test_few_faces_count_as_plain_search_does(kind: str, faces: str) -> None:
    """With few faces the table has as many states at each distance as a plain search."""
    turns = [turn for turn in FACE_MOVES if turned_face(turn) in faces]
    for slot in ("FR", "BL"):
        stickers = [*CROSS_EDGES, getattr(SLOT[slot].home, kind)]
        assert sizes(distances(kind, slot, faces)) == level_sizes(stickers, turns)


# -- what every table must be --------------------------------------------------------------------


@pytest.mark.parametrize("slot", SLOTS)
@pytest.mark.parametrize("kind", KINDS)
def test_a_turn_changes_a_distance_by_at_most_one(tables: PairTables, kind: str, slot: str) -> None:
    """Of every state and every quarter turn; and only home is at distance 0."""
    table = tables.table(kind, slot, FACES).astype(np.int8)
    moves, home = (CORNER_MOVES, HOME_CORNER) if kind == "corner" else (EDGE_MOVES, HOME_EDGE)
    assert np.argwhere(table == 0).tolist() == [[HOME_CROSS, home[slot]]]
    possible = table != -1
    for turn in range(0, 18, 3):
        after = table[edge_four_moves()[:, turn]][:, moves[:, turn]]
        assert np.abs(after - table)[possible].max() == 1


@pytest.mark.parametrize("slot", ["FL", "BL", "BR"])
@pytest.mark.parametrize("kind", KINDS)
def test_a_slot_seen_from_itself(tables: PairTables, kind: str, slot: str) -> None:
    """A slot's table, made from that of FR, is the one that a search from its own home builds."""
    assert np.array_equal(tables.table(kind, slot, FACES), distances(kind, slot))


@given(face_lines(12), slot_sets)
def test_bounds_never_exceed_the_turns_made(
    tables: PairTables, line: Line, slots: tuple[str, ...]
) -> None:
    """After n turns from solved, no bound says more than n."""
    root = start(SOLVED.turn(line))
    for bound in tables.bounds(slots, FACES):
        assert bound.within(root, len(line))[0]


@given(st.lists(st.sampled_from(FACE_MOVES[6:9] + FACE_MOVES[12:15]), max_size=15), slot_sets)
def test_bounds_by_few_faces_never_exceed_the_turns_made(
    tables: PairTables, line: list[Move], slots: tuple[str, ...]
) -> None:
    """After n turns of R and U from solved, no bound for these faces says more than n."""
    root = start(SOLVED.turn(line))
    for bound in tables.bounds(slots, "RU"):
        assert bound.within(root, len(line))[0]


def test_five_faces_reach_every_cross() -> None:
    """Without F, the crosses can all be solved still, some of them in more turns."""
    table = distances("edge", "FR", "BRLUD").min(axis=1)
    assert table.shape == (CROSSES,)
    assert 8 < table.max() < UNREACHED
