"""How near sets number states, and what they say of cubes."""

from __future__ import annotations

import random
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings

from game.cube import symmetry
from game.cube.cube import SOLVED, Cube
from game.cube.geometry import FACES, transpose
from game.cube.line import Line
from game.cube.moves import FACE_MOVES
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS
from game.search.coordinates import corners_of, cross_of
from game.search.near import (
    CROSS_PAIR,
    MIRROR,
    PARTS,
    THREE_EDGES,
    Bits,
    NearBound,
    NearTables,
    Part,
    view,
)
from game.search.nodes import start
from tests.search.plain import Plain
from tests.strategies import cubes, face_lines

STICKERS = {
    CROSS_PAIR: (*CROSS_EDGES, *SLOT["FR"].home),
    THREE_EDGES: (
        *(SLOT[slot].home.corner for slot in SLOTS),
        *(SLOT[slot].home.edge for slot in ("FL", "BR", "FR")),
    ),
}
"""What makes up a state, in the tests' own words."""


def state(part: Part, cube: Cube, slot: str = "FR") -> int:
    return int(view(part, slot).states(start(cube))[0])


def test_as_many_states_as_are_known() -> None:
    """72,990,720 of the cross with one pair (forum post of May 2009); 136,080 x 24 x 22 x 20."""
    assert CROSS_PAIR.states == 72_990_720
    assert THREE_EDGES.states == 136_080 * 24 * 22 * 20


def test_all_sets_take_194_megabytes() -> None:
    """On disk and in memory, at most 250 MB for all."""
    assert sum(part.octets * len(part.turns) for part in PARTS) == 193_524_480


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
@settings(max_examples=40)
@given(cube=cubes())
def test_mirror_images_have_one_number(part: Part, cube: Cube) -> None:
    """A state and its mirror image are one, but where the main pieces mirror themselves."""
    image = cube.image(MIRROR)
    main = cross_of if part.main == "cross" else corners_of
    if main(cube) != main(image):
        assert state(part, cube) == state(part, image)
    assert 0 <= state(part, cube) < 8 * part.octets


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
def test_different_states_have_different_numbers(part: Part) -> None:
    """All states three turns from solved and some farther ones: a number belongs to one state."""
    chance = random.Random(1)
    near = Plain(SLOTS).cubes()
    far = [cube.turn(chance.choices(FACE_MOVES, k=12)) for cube in near]
    states: dict[int, set[tuple[int, ...]]] = {}
    for cube in near + far:
        shown = [cube.upright, cube.upright.image(MIRROR)]
        places = min(tuple(c.where[i] for i in STICKERS[part]) for c in shown)
        states.setdefault(state(part, cube), set()).add(places)
    assert len(states) > len(near)
    assert all(len(same) == 1 for same in states.values())


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
@settings(max_examples=40)
@given(cube=cubes())
def test_a_slot_sees_what_fr_sees_of_the_turned_cube(part: Part, cube: Cube) -> None:
    """Turned as a whole until the slot is at FR, the cube has the state that the slot sees."""
    for slot in SLOTS:
        turned = cube.upright.image(transpose(symmetry.to_slot(slot)))
        assert state(part, cube, slot) == state(part, turned)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
def test_rows_stand_for_mirror_images(part: Part) -> None:
    """Every arrangement of the main pieces has a row, its own or its mirror image's."""
    assert np.array_equal(part.mirrored[part.mirrored], np.arange(part.fours.count))
    assert np.array_equal(part.rows[part.kept], 2 * np.arange(len(part.kept)))
    assert np.array_equal(part.rows >> 1, part.rows[part.mirrored] >> 1)
    own = cross_of(SOLVED) if part.main == "cross" else corners_of(SOLVED)
    assert part.mirrored[own] == own


def test_a_near_set_holds_what_is_near_and_nothing_else(
    sets: dict[Part, dict[int, Bits]],
) -> None:
    """The states of all cubes three turns from solved are in the set, and it holds no other."""
    near = Plain(SLOTS).cubes()
    for part, some in sets.items():
        inside = {state(part, cube) for cube in near}
        assert set(np.flatnonzero(np.unpackbits(some[3], bitorder="little")).tolist()) == inside


def test_smaller_sets_lie_within_larger_ones(sets: dict[Part, dict[int, Bits]]) -> None:
    """What is within three turns is within four."""
    for some in sets.values():
        for fewer, more in pairwise(sorted(some)):
            assert not (some[fewer] & ~some[more]).any()


@given(face_lines(4))
def test_no_bound_says_more_than_the_turns_made(near_tables: NearTables, setup: Line) -> None:
    """After n turns from solved, every bound of every slot allows n turns and more."""
    root = start(SOLVED.turn(setup))
    for bound in near_tables.bounds(SLOTS, FACES):
        for turns in range(len(setup), bound.reach + 1):
            assert bound.within(root, turns)[0]


@given(cubes())
def test_a_bound_asks_the_smallest_set_that_will_do(
    near_tables: NearTables, sets: dict[Part, dict[int, Bits]], cube: Cube
) -> None:
    """For one or three turns the set of three is asked, for four that of four."""
    root = start(cube)
    for part, some in sets.items():
        bound = NearBound(view(part, "BL"), some)
        assert bound.reach == 4
        number = state(part, cube, "BL")
        for turns, known in ((1, 3), (3, 3), (4, 4)):
            inside = some[known][number // 8] >> (number % 8) & 1
            assert bound.within(root, turns).tolist() == [bool(inside)]


@pytest.mark.parametrize(
    ("slots", "bounds"), [((), 0), (("FR",), 1), (("FR", "BL", "BR"), 3), (SLOTS, 8)]
)
def test_parts_are_asked_where_their_pieces_must_be_solved(
    near_tables: NearTables, slots: tuple[str, ...], bounds: int
) -> None:
    """The cross and a pair for every slot to solve; all corners only if all slots must be."""
    found = [b for b in near_tables.bounds(slots, FACES) if isinstance(b, NearBound)]
    assert len(found) == bounds
    assert len(list(near_tables.bounds(slots, FACES))) == bounds + max(1, 2 * len(slots))
