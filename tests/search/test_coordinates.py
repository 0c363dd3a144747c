"""Coordinates, held against cubes that are really turned."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given

from game.cube import symmetry
from game.cube.cube import SOLVED, Cube
from game.cube.geometry import transpose
from game.cube.moves import FACE_MOVES
from game.cube.pair import SLOTS
from game.search import coordinates
from game.search.coordinates import (
    CORNER_MOVES,
    CORNER_PLACES,
    CROSSES,
    EDGE_MOVES,
    EDGE_PLACES,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
)
from tests.strategies import cubes, slots, upright_cubes


def test_there_are_190080_crosses() -> None:
    """Four different edges of twelve, each two ways: 12 * 11 * 10 * 9 * 16 (counting)."""
    places = coordinates.cross_places()
    assert places.shape == (4, CROSSES)
    distinct = {
        column for column in product(range(24), repeat=4) if len({p // 2 for p in column}) == 4
    }
    assert set(zip(*places.tolist(), strict=True)) == distinct


def test_the_solved_cube_is_at_home() -> None:
    """The solved cube has the home coordinates of every slot."""
    assert coordinates.cross_of(SOLVED) == HOME_CROSS
    for slot in SLOTS:
        assert coordinates.corner_of(SOLVED, slot) == HOME_CORNER[slot]
        assert coordinates.edge_of(SOLVED, slot) == HOME_EDGE[slot]


@given(upright_cubes())
def test_a_turn_of_the_coordinates_is_the_turn_of_the_cube(cube: Cube) -> None:
    """Every turn moves cross, corner and edge as turning the cube does."""
    for number, turn in enumerate(FACE_MOVES):
        turned = cube.turn([turn])
        cross = coordinates.cross_of(cube)
        assert coordinates.cross_moves()[cross, number] == coordinates.cross_of(turned)
        for slot in SLOTS:
            corner = coordinates.corner_of(cube, slot)
            edge = coordinates.edge_of(cube, slot)
            assert CORNER_MOVES[corner, number] == coordinates.corner_of(turned, slot)
            assert EDGE_MOVES[edge, number] == coordinates.edge_of(turned, slot)


@given(cubes(), slots)
def test_seen_from_a_slot(cube: Cube, slot: str) -> None:
    """Turning the whole cube until the slot is at FR changes the coordinates as the tables say."""
    image = cube.upright.image(transpose(symmetry.to_slot(slot)))
    crosses = coordinates.cross_seen_from(slot)
    corners = coordinates.places_seen_from(slot, CORNER_PLACES)
    edges = coordinates.places_seen_from(slot, EDGE_PLACES)
    assert crosses[coordinates.cross_of(cube)] == coordinates.cross_of(image)
    assert corners[coordinates.corner_of(cube, slot)] == coordinates.corner_of(image, "FR")
    assert edges[coordinates.edge_of(cube, slot)] == coordinates.edge_of(image, "FR")


@pytest.mark.parametrize("turn", range(18))
def test_the_inverse_turn_undoes_it(turn: int) -> None:
    """A turn and its inverse bring every cross back."""
    moves = coordinates.cross_moves()
    back = moves[moves[:, turn], coordinates.inverse_turn(turn)]
    assert np.array_equal(back, np.arange(CROSSES))


def test_turns_of_faces_are_numbered_as_the_face_moves() -> None:
    """The turns of R and U are those six, in the order of FACE_MOVES."""
    names = [FACE_MOVES[turn].name for turn in coordinates.turns_of("UR")]
    assert names == ["R", "R2", "R'", "U", "U2", "U'"]
