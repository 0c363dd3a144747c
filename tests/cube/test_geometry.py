"""Stickers and symmetries, held against a real cube's look and plain arithmetic."""

from __future__ import annotations

from collections import Counter

import pytest

from game.cube import geometry
from game.cube.geometry import (
    CENTRES,
    CORNER_STICKERS,
    EDGE_STICKERS,
    FACES,
    IDENTITY,
    INDEX,
    NORMAL,
    OPPOSITE,
    ROTATIONS,
    STICKERS,
    SYMMETRIES,
    UNMOVED,
    sticker,
)


def test_there_are_nine_stickers_on_each_face() -> None:
    """54 stickers: 24 on corners, 24 on edges, 6 on centres, nine to a face."""
    assert Counter(s.face for s in STICKERS) == dict.fromkeys(FACES, 9)
    assert len(set(STICKERS)) == 54
    assert len(CORNER_STICKERS) == len(EDGE_STICKERS) == 24
    assert set(CORNER_STICKERS) | set(EDGE_STICKERS) | set(CENTRES.values()) == set(IDENTITY)


def test_the_faces_come_in_the_order_of_the_regulations() -> None:
    """The order of faces is that of WCA Regulations 12a1."""
    assert FACES == "FBRLUD"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        # The unfolded cube: which stickers of two faces meet at an edge, read off the drawing.
        (("F", 0, 0), ("U", 2, 0)),
        (("F", 0, 2), ("R", 0, 0)),
        (("F", 2, 1), ("D", 0, 1)),
        (("F", 1, 0), ("L", 1, 2)),
        (("U", 0, 0), ("B", 0, 2)),
        (("U", 0, 2), ("B", 0, 0)),
        (("U", 1, 0), ("L", 0, 1)),
        (("U", 1, 2), ("R", 0, 1)),
        (("D", 2, 0), ("B", 2, 2)),
        (("D", 1, 2), ("R", 2, 1)),
        (("D", 1, 0), ("L", 2, 1)),
        (("R", 1, 2), ("B", 1, 0)),
        (("L", 1, 0), ("B", 1, 2)),
    ],
)
def test_stickers_that_meet_on_the_unfolded_cube_share_a_piece(
    first: tuple[str, int, int], second: tuple[str, int, int]
) -> None:
    """Rows and columns are those of the unfolded cube (common practice, no source)."""
    assert STICKERS[sticker(*first)].place == STICKERS[sticker(*second)].place


def test_a_sticker_lies_on_the_outside() -> None:
    """A sticker's normal points out of the cube at its place, and its number finds it."""
    for i, s in enumerate(STICKERS):
        assert geometry.dot(s.place, s.normal) == 1
        assert INDEX[s] == i
        assert s.normal == NORMAL[s.face]


def test_opposite_faces_have_opposite_normals() -> None:
    """The table of opposite faces says what the normals say."""
    for face in FACES:
        assert geometry.add(NORMAL[face], NORMAL[OPPOSITE[face]]) == (0, 0, 0)


def test_the_cube_has_48_symmetries_of_which_24_are_rotations() -> None:
    """The octahedral group: 48 symmetries, 24 rotations, closed, the identity first."""
    assert len(set(SYMMETRIES)) == 48
    assert len(set(ROTATIONS)) == 24
    assert SYMMETRIES[0] == ROTATIONS[0] == UNMOVED
    assert {geometry.compose(a, b) for a in ROTATIONS for b in ROTATIONS} == set(ROTATIONS)
    assert {geometry.determinant(m) for m in set(SYMMETRIES) - set(ROTATIONS)} == {-1}


def test_each_rotation_takes_a_corner_sticker_to_another_place() -> None:
    """24 rotations, 24 places of a corner sticker: each place is reached by exactly one."""
    for home in CORNER_STICKERS:
        places = [geometry.whole(m)[home] for m in ROTATIONS]
        assert sorted(places) == sorted(CORNER_STICKERS)


def test_compose_does_the_first_then_the_second() -> None:
    """The direction of composition is the one stated, for matrices and for permutations."""
    for a in SYMMETRIES[::5]:
        for b in SYMMETRIES[::7]:
            both = geometry.compose(a, b)
            for v in ((1, 0, 0), (1, -1, 1)):
                assert geometry.apply(both, v) == geometry.apply(b, geometry.apply(a, v))
            assert geometry.whole(both) == geometry.then(geometry.whole(a), geometry.whole(b))


def test_the_worked_example_of_the_composition_direction() -> None:
    """R takes F's top right sticker to U's top right; then U takes that to the front right."""
    right = geometry.permutation(geometry.clockwise(0, 1), frozenset((1,)), 0)
    top = geometry.permutation(geometry.clockwise(1, 1), frozenset((1,)), 1)
    assert right[sticker("F", 0, 2)] == sticker("U", 0, 2)
    assert top[sticker("U", 0, 2)] == sticker("U", 2, 2)
    assert geometry.then(right, top)[sticker("F", 0, 2)] == sticker("U", 2, 2)
    assert geometry.then(top, right)[sticker("F", 0, 2)] == sticker("L", 0, 2)


def test_the_transpose_undoes_a_symmetry() -> None:
    """Symmetries are orthogonal: transposing inverts them, and so does inverting permutations."""
    for m in SYMMETRIES:
        back = geometry.transpose(m)
        assert geometry.compose(m, back) == UNMOVED
        assert geometry.inverse(geometry.whole(m)) == geometry.whole(back)


@pytest.mark.parametrize(
    ("axis", "from_", "to"),
    [
        # x turns as R, y as U, z as F (WCA Regulations 12a4): where a neighbouring face goes.
        (0, "F", "U"),
        (1, "F", "L"),
        (2, "U", "R"),
    ],
)
def test_a_quarter_about_an_axis_is_clockwise_from_its_positive_end(
    axis: int, from_: str, to: str
) -> None:
    """Clockwise seen from R, U or F takes F up, F to the left, U to the right."""
    quarter = geometry.clockwise(axis, 1)
    assert geometry.apply(quarter, NORMAL[from_]) == NORMAL[to]
    assert geometry.clockwise(axis, 4) == UNMOVED
    assert geometry.clockwise(axis, -1) == geometry.transpose(quarter)
    assert geometry.clockwise(axis, 2) == geometry.compose(quarter, quarter)
