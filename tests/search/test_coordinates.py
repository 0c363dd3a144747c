"""Coordinates, held against cubes that are really turned."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import Matrix
from game.cube.moves import FACE_MOVES
from game.cube.pair import CROSS_EDGES, SLOTS, pair_place
from game.search import coordinates
from game.search.coordinates import (
    CORNER_MOVES,
    CORNER_PLACES,
    EDGE_MOVES,
    EDGE_PLACES,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
    SLOT_HOMES,
    Fours,
    corner_fours,
    edge_fours,
)
from tests.strategies import cubes, upright_cubes, upright_symmetries


@pytest.mark.parametrize(
    ("fours", "stickers", "count"), [(edge_fours(), 2, 190080), (corner_fours(), 3, 136080)]
)
def test_four_pieces_have_so_many_arrangements(fours: Fours, stickers: int, count: int) -> None:
    """Four different edges of twelve, two ways each; four corners of eight, three ways each.

    12 * 11 * 10 * 9 * 16 and 8 * 7 * 6 * 5 * 81 (counting).
    """
    distinct = {
        column
        for column in product(range(24), repeat=4)
        if len({place // stickers for place in column}) == 4
    }
    assert set(zip(*fours.places.tolist(), strict=True)) == distinct
    assert fours.count == len(distinct) == count
    assert np.array_equal(fours.numbered(fours.places), np.arange(count))


def test_what_is_no_arrangement_has_no_number() -> None:
    """Two pieces at one place are none."""
    assert edge_fours().numbered(np.array([[0], [1], [4], [6]], dtype=np.uint8)).tolist() == [-1]


def test_the_solved_cube_is_at_home() -> None:
    """The solved cube has the home coordinates of every slot."""
    assert coordinates.cross_of(SOLVED) == HOME_CROSS
    for k, slot in enumerate(SLOTS):
        assert corner_fours().places[k, coordinates.corners_of(SOLVED)] == HOME_CORNER[slot]
        assert edge_fours().places[k, coordinates.edges_of(SOLVED)] == HOME_EDGE[slot]


@given(cubes())
def test_a_slots_pieces_lie_where_the_cube_says(cube: Cube) -> None:
    """The place of each slot's corner and edge can be read off the numbers of all four."""
    for k, slot in enumerate(SLOTS):
        place = pair_place(cube, slot)
        corner = corner_fours().places[k, coordinates.corners_of(cube)]
        edge = edge_fours().places[k, coordinates.edges_of(cube)]
        assert (CORNER_PLACES[corner], EDGE_PLACES[edge]) == place


@given(upright_cubes())
def test_a_turn_of_the_coordinates_is_the_turn_of_the_cube(cube: Cube) -> None:
    """Every turn moves cross, corners and edges as turning the cube does."""
    for number, turn in enumerate(FACE_MOVES):
        turned = cube.turn([turn])
        for moves, of in (
            (coordinates.edge_four_moves(), coordinates.cross_of),
            (coordinates.edge_four_moves(), coordinates.edges_of),
            (coordinates.corner_four_moves(), coordinates.corners_of),
        ):
            assert moves[of(cube), number] == of(turned)
        for k in range(len(SLOTS)):
            corners, edges = corner_fours().places[k], edge_fours().places[k]
            before = corners[coordinates.corners_of(cube)], edges[coordinates.edges_of(cube)]
            after = corners[coordinates.corners_of(turned)], edges[coordinates.edges_of(turned)]
            assert (CORNER_MOVES[before[0], number], EDGE_MOVES[before[1], number]) == after


@given(cubes(), upright_symmetries)
def test_shown_by_a_symmetry(cube: Cube, symmetry: Matrix) -> None:
    """A symmetry that keeps the cross below changes the numbers as it changes the cube."""
    shown = cube.upright.image(symmetry)
    for fours, homes, of in (
        (edge_fours(), CROSS_EDGES, coordinates.cross_of),
        (edge_fours(), SLOT_HOMES["edge"], coordinates.edges_of),
        (corner_fours(), SLOT_HOMES["corner"], coordinates.corners_of),
    ):
        assert fours.seen_by(symmetry, homes)[of(cube)] == of(shown)


@pytest.mark.parametrize("turn", range(18))
def test_the_inverse_turn_undoes_it(turn: int) -> None:
    """A turn and its inverse bring every arrangement back."""
    for moves in (coordinates.edge_four_moves(), coordinates.corner_four_moves()):
        back = moves[moves[:, turn], coordinates.inverse_turn(turn)]
        assert np.array_equal(back, np.arange(len(moves)))


def test_turns_of_faces_are_numbered_as_the_face_moves() -> None:
    """The turns of R and U are those six, in the order of FACE_MOVES."""
    names = [FACE_MOVES[turn].name for turn in coordinates.turns_of("UR")]
    assert names == ["R", "R2", "R'", "U", "U2", "U'"]


def test_places_as_a_number() -> None:
    """Places are digits in base 24, the first piece's counting most."""
    places = np.array([[1, 23], [2, 23], [3, 23]], dtype=np.uint8)
    assert coordinates.as_number(places).tolist() == [1 * 576 + 2 * 24 + 3, 24**3 - 1]
