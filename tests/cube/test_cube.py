"""Cubes and the group that turning makes of them, held against published orders and counts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import reduce
from itertools import pairwise, product
from math import factorial, lcm

import pytest
from hypothesis import given
from sympy.combinatorics import Permutation, PermutationGroup

from game.cube import geometry
from game.cube.cube import (
    CORNERS,
    EDGES,
    PIECE_OF,
    SOLVED,
    Cube,
    cube_of,
    impossibility,
)
from game.cube.geometry import CENTRES, IDENTITY, ROTATIONS, STICKERS, Matrix
from game.cube.line import Line, obtm, rotation_line
from game.cube.moves import FACE_MOVES, MOVES, Move, parse_line, permutation
from game.errors import PositionError
from tests.breadth_first import level_sizes
from tests.strategies import cubes, face_lines, lines, rotations, upright_cubes

WHOLE_GROUP = 43252003274489856000
"""M. Schoenert, Analyzing Rubik's Cube with GAP, 1993."""
SUPERFLIP = "U R2 F B R B2 R U2 L B2 R U' D' R2 F R' L B2 U2 F2"
REFERENCES = [piece[0] for piece in CORNERS + EDGES]
QUARTER_TURNS = [move for move in FACE_MOVES if move.quarters != 2]
HALF_TURNS = [move for move in FACE_MOVES if move.quarters == 2]


def order(line: str) -> int:
    """How often the line must be made until the cube is as before."""
    moves, cube, times = parse_line(line), SOLVED.turn(parse_line(line)), 1
    while cube != SOLVED:
        cube, times = cube.turn(moves), times + 1
    return times


def group(moves: Iterable[Move]) -> PermutationGroup:
    """SymPy's group of what the moves do to our stickers."""
    return PermutationGroup([Permutation(list(permutation(move))) for move in moves])


# -- the group -----------------------------------------------------------------------------------


def test_the_order_of_the_whole_group() -> None:
    """Six faces generate Schoenert's 43252003274489856000 states, by SymPy's Schreier-Sims."""
    assert group(MOVES[face] for face in "FBRLUD").order() == WHOLE_GROUP


def test_rotations_multiply_the_group_by_24() -> None:
    """With the whole cube's rotations there are 24 grips for each state."""
    assert group(MOVES[name] for name in "FBRLUDxy").order() == 24 * WHOLE_GROUP


def test_the_three_invariants_leave_the_published_group() -> None:
    """Of the 3 * 2 * 2 ways to twist, flip and exchange, one is possible: Schoenert's count."""
    possible = 0
    for twist, flip, exchanged in product(range(3), range(2), range(2)):
        places = {i: i for i in REFERENCES}
        places[CORNERS[0][0]] = CORNERS[0][twist]
        places[EDGES[0][0]] = EDGES[0][flip]
        if exchanged:
            a, b = CORNERS[1][0], CORNERS[2][0]
            places[a], places[b] = b, a
        try:
            cube_of(places)
        except PositionError:
            continue
        possible += 1
    arrangements = factorial(8) * 3**8 * factorial(12) * 2**12
    assert arrangements * possible == 12 * WHOLE_GROUP


def test_counts_by_distance_in_half_turns() -> None:
    """OEIS A080601: states at distance 0..5 when any turn of a face counts one."""
    assert level_sizes(REFERENCES, FACE_MOVES, 5) == [1, 18, 243, 3240, 43239, 574908]


def test_counts_by_distance_in_quarter_turns() -> None:
    """OEIS A080602: states at distance 0..6 when a quarter turn counts one."""
    expected = [1, 12, 114, 1068, 10011, 93840, 878880]
    assert level_sizes(REFERENCES, QUARTER_TURNS, 6) == expected


def test_counts_of_two_faces() -> None:
    """OEIS A080628: the group of U and R by quarter turns, 73483200 states in all."""
    turns = [move for move in QUARTER_TURNS if move.name[0] in "UR"]
    expected = [1, 4, 10, 24, 58, 140, 338, 816, 1970, 4756, 11448]
    assert level_sizes(REFERENCES, turns, 10) == expected
    assert group(turns).order() == 73483200


def test_counts_of_half_turns() -> None:
    """OEIS A080627: the group of half turns, every one of its 663552 states visited."""
    sizes = level_sizes(REFERENCES, HALF_TURNS)
    assert sizes[:8] == [1, 6, 27, 120, 519, 1932, 6484, 20310]
    assert sum(sizes) == 663552


# -- sequences -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "times"),
    [
        ("U R U' F2", 10),  # OEIS A338883, B. Whitmore, 2020
        ("R U2 D' B D'", 1260),  # common practice, no source; the largest order is A338883's 1260
        # The others were computed with SymPy.
        ("R U", 105),
        ("R U'", 63),
        ("R U2", 30),
        ("R U R' U'", 6),
        ("R U R' U", 5),
        ("F R U R' U' F'", 6),
    ],
)
def test_orders_of_sequences(line: str, times: int) -> None:
    """A sequence comes back to the start after its known number of repetitions."""
    assert order(line) == times
    moves = [Permutation(list(permutation(move))) for move in parse_line(line)]
    assert reduce(lambda a, b: a * b, moves).order() == times


def test_the_superflip_is_in_the_centre_of_the_group() -> None:
    """Superflip in 20 turns: order 2, the same before and after any turn, every edge flipped."""
    line = parse_line(SUPERFLIP)
    flipped = SOLVED.turn(line)
    assert obtm(line) == 20
    assert order(SUPERFLIP) == 2
    for face in "FBRLUD":
        assert flipped.turn([MOVES[face]]) == SOLVED.turn([MOVES[face]]).turn(line)
    for piece in CORNERS:
        assert all(flipped.where[i] == i for i in piece)
    for one, other in EDGES:
        assert (flipped.where[one], flipped.where[other]) == (other, one)


def partitions(n: int, largest: int) -> Iterator[tuple[int, ...]]:
    if n == 0:
        yield ()
    for first in range(min(n, largest), 0, -1):
        for rest in partitions(n - first, first):
            yield (first, *rest)


def cycle_types(pieces: tuple[tuple[int, ...], ...]) -> Iterator[tuple[bool, int]]:
    """Parity and order of every way to permute and twist the pieces so that the twists cancel.

    Each is made of cycles of pieces; the last piece of a cycle comes back twisted.
    """
    other_pieces = EDGES if pieces is CORNERS else CORNERS
    for lengths in partitions(len(pieces), len(pieces)):
        for twists in product(range(len(pieces[0])), repeat=len(lengths)):
            cycles = list(zip(lengths, twists, strict=True))
            if sum(twists) % len(pieces[0]) or cycles != sorted(cycles, reverse=True):
                continue
            where = {i: i for i in REFERENCES}
            start = 0
            for length, twist in cycles:
                cycle = pieces[start : start + length]
                where |= {a[0]: b[0] for a, b in pairwise(cycle)}
                where[cycle[-1][0]] = cycle[0][twist]
                start += length
            is_odd = (len(pieces) - len(lengths)) % 2 == 1
            if is_odd:  # exchange two of the other kind, so that turning can reach the cube
                a, b = other_pieces[:2]
                where |= {a[0]: b[0], b[0]: a[0]}
            made = Permutation(list(cube_of(where).where))
            yield is_odd, lcm(*(len(c) for c in made.cyclic_form if PIECE_OF[c[0]] in pieces))


def test_there_are_73_orders_and_the_largest_is_1260() -> None:
    """OEIS A338883: orders of elements, from cubes built piece by piece of every cycle type."""
    corners, edges = set(cycle_types(CORNERS)), set(cycle_types(EDGES))
    orders = {lcm(c, e) for odd, c in corners for odd_too, e in edges if odd == odd_too}
    assert len(orders) == 73
    assert max(orders) == 1260


# -- values --------------------------------------------------------------------------------------


@given(cubes())
def test_at_is_the_inverse_of_where(cube: Cube) -> None:
    """What lies at a place is the sticker that went there."""
    assert all(cube.at[cube.where[i]] == i for i in range(54))


@given(upright_cubes(), face_lines(5), lines(5))
def test_turning_is_composition(cube: Cube, first: Line, second: Line) -> None:
    """First one line, then the other, is the line of both; nothing is the line of none."""
    assert cube.turn(first).turn(second) == cube.turn(first + second)
    assert cube.turn(()) == cube
    made = SOLVED.turn(first).where
    assert cube.turn(first).where == geometry.then(cube.where, made)


@given(upright_cubes(), rotations)
def test_a_grip_changes_nothing_but_the_grip(cube: Cube, grip: Matrix) -> None:
    """A cube turned as a whole has that grip, and upright it is the cube from before."""
    held = cube.turn(rotation_line(grip))
    assert held.grip == grip
    assert held.upright == cube
    assert cube.grip == geometry.UNMOVED


def test_solved_in_any_grip() -> None:
    """All 24 grips of a solved cube are solved; one turn from it is not."""
    for grip in ROTATIONS:
        assert SOLVED.turn(rotation_line(grip)).is_solved()
    for move in MOVES.values():
        assert SOLVED.turn([move]).is_solved() == move.is_rotation


@given(upright_cubes(), rotations)
def test_an_image_keeps_the_centres_names(cube: Cube, symmetry: Matrix) -> None:
    """The image of an upright cube is upright, and the solved cube is its own image."""
    assert cube.image(symmetry).grip == geometry.UNMOVED
    assert SOLVED.image(symmetry) == SOLVED


# -- pieces --------------------------------------------------------------------------------------


def faces_of(piece: tuple[int, ...]) -> str:
    return "".join(STICKERS[i].face for i in piece)


def test_the_pieces_are_those_of_a_cube() -> None:
    """Eight corners of three faces, clockwise from U or D; twelve edges from U, D, F or B."""
    corners = {"ULB", "UBR", "URF", "UFL", "DBL", "DRB", "DFR", "DLF"}
    edges = {"UF", "UB", "UR", "UL", "DF", "DB", "DR", "DL", "FR", "FL", "BR", "BL"}
    assert {faces_of(piece) for piece in CORNERS} == corners
    assert {faces_of(piece) for piece in EDGES} == edges
    assert sorted([*PIECE_OF, *CENTRES.values()]) == list(IDENTITY)


@given(upright_cubes())
def test_a_cube_is_its_pieces_places(cube: Cube) -> None:
    """`cube_of` builds the cube whose reference stickers lie there."""
    assert cube_of({i: cube.where[i] for i in REFERENCES}) == cube


@given(upright_cubes(), face_lines(12))
def test_turning_keeps_the_invariants(cube: Cube, line: Line) -> None:
    """No line makes a possible cube impossible."""
    assert impossibility(cube.turn(line)) == ""


AT_HOME = {i: i for i in REFERENCES}
FIRST_CORNER, SECOND_CORNER = CORNERS[:2]
FIRST_EDGE, SECOND_EDGE = EDGES[:2]


@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        ({FIRST_CORNER[0]: FIRST_CORNER[1]}, "one corner is twisted"),
        ({FIRST_CORNER[0]: FIRST_CORNER[2]}, "one corner is twisted"),
        ({FIRST_EDGE[0]: FIRST_EDGE[1]}, "one edge is flipped"),
        (
            {FIRST_CORNER[0]: SECOND_CORNER[0], SECOND_CORNER[0]: FIRST_CORNER[0]},
            "two pieces are exchanged",
        ),
        (
            {FIRST_EDGE[0]: SECOND_EDGE[0], SECOND_EDGE[0]: FIRST_EDGE[0]},
            "two pieces are exchanged",
        ),
    ],
)
def test_a_cube_that_turning_cannot_reach_is_refused(changed: dict[int, int], fault: str) -> None:
    """One twisted corner, one flipped edge or two exchanged pieces: the three ways to fail."""
    with pytest.raises(PositionError) as refused:
        cube_of(AT_HOME | changed)
    assert str(refused.value) == f"turning cannot reach this cube: {fault}"


@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        ({FIRST_CORNER[0]: SECOND_CORNER[0]}, "two pieces lie at one place"),
        ({FIRST_CORNER[0]: FIRST_EDGE[0]}, "a corner cannot lie where an edge belongs"),
        ({FIRST_EDGE[0]: FIRST_CORNER[0]}, "an edge cannot lie where a corner belongs"),
    ],
)
def test_pieces_in_each_others_place_are_refused(changed: dict[int, int], fault: str) -> None:
    """Two pieces at one place, or one where its kind does not fit, are no cube."""
    with pytest.raises(PositionError) as refused:
        cube_of(AT_HOME | changed)
    assert str(refused.value) == fault


@given(upright_cubes())
def test_every_single_disturbance_of_any_cube_is_refused(cube: Cube) -> None:
    """From any possible cube: twist the corner, flip the edge or exchange two, and it is none."""
    places = {i: cube.where[i] for i in REFERENCES}
    corner, edge = PIECE_OF[places[FIRST_CORNER[0]]], PIECE_OF[places[FIRST_EDGE[0]]]
    for piece, home in ((corner, FIRST_CORNER[0]), (edge, FIRST_EDGE[0])):
        other = piece[(piece.index(places[home]) + 1) % len(piece)]
        with pytest.raises(PositionError, match=r"one (corner is twisted|edge is flipped)"):
            cube_of(places | {home: other})
    swapped = {FIRST_EDGE[0]: places[SECOND_EDGE[0]], SECOND_EDGE[0]: places[FIRST_EDGE[0]]}
    with pytest.raises(PositionError, match="two pieces are exchanged"):
        cube_of(places | swapped)
