"""Lines: inverse, images, tidying and counting by WCA Regulations 12a5, 12a6 (1 April 2026)."""

from __future__ import annotations

from itertools import groupby

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube import geometry
from game.cube.cube import SOLVED, Cube
from game.cube.geometry import ROTATIONS, SYMMETRIES, UNMOVED, Matrix
from game.cube.line import Line, etm, held, image, inverse, obtm, rotation_line, tidy
from game.cube.moves import MOVES, line_text, parse_line
from game.cube.symmetry import TWINS, twin
from tests.strategies import cubes, face_lines, lines, rotations

symmetries = st.sampled_from(SYMMETRIES)


# -- counting ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "outer", "executed"),
    [
        ("Rw x R2 y'", 2, 4),  # the example of WCA 12a5 and 12a6
        ("", 0, 0),
        ("R", 1, 1),
        ("R2", 1, 1),
        ("Rw2", 1, 1),
        ("2Lw'", 1, 1),
        ("x y2 z'", 0, 3),
        ("R U R' U'", 4, 4),
        ("F R U R' U' F'", 6, 6),
        # Slices are not in Article 12; two outer layers turn against the middle.
        ("M", 2, 1),
        ("E2", 2, 1),
        ("M' U M", 5, 3),
        # Turns of one axis that follow each other merge.
        ("R R", 1, 2),
        ("R R'", 0, 2),
        ("R R R R", 0, 4),
        ("R L R", 2, 3),
        ("R L' R' L", 0, 4),
        ("R U U' R", 1, 4),
        # No grip cheats: the centres name the faces.
        ("R M R", 2, 3),
        ("R x R", 1, 3),
        ("R y F", 1, 3),
        ("Rw L'", 0, 2),
        ("Rw Rw", 1, 2),
        ("Rw R'", 2, 2),
        ("Rw M' R", 1, 3),
    ],
)
def test_counts(text: str, outer: int, executed: int) -> None:
    """OBTM counts what remains after tidying, ETM every move as made."""
    line = parse_line(text)
    assert (obtm(line), etm(line)) == (outer, executed)


@pytest.mark.parametrize(
    ("text", "tidied"),
    [
        ("R R", "R2"),
        ("R R'", ""),
        ("R R2", "R'"),
        ("R L R", "R2 L"),
        ("R L R' U", "L U"),
        ("U R L' R' L U", "U2"),
        ("Rw", "L x"),
        ("M", "R L' x'"),
        ("S", "F' B z"),
        ("R M R", "R' L' x'"),
        # After Rw the front centre is on top, so the next U turns it.
        ("Rw U Rw'", "L F L'"),
        ("x U", "F x"),
        ("y R U R'", "B U B' y"),
        ("y' L' U' L", "B' U' B y'"),
        ("M2 U M2", "R2 L2 D R2 L2"),
        ("x y x'", "z"),
    ],
)
def test_tidied_lines(text: str, tidied: str) -> None:
    """Literal examples, each followed with a cube in hand."""
    assert tidy(parse_line(text)).text == tidied


@pytest.mark.parametrize("name", sorted(MOVES))
def test_one_move_counts_one_none_or_two(name: str) -> None:
    """WCA 12a5: faces and wide turns count 1 whatever the angle, rotations 0; slices 2 here."""
    expected = {"x": 0, "y": 0, "z": 0, "M": 2, "E": 2, "S": 2}.get(name[0], 1)
    assert obtm([MOVES[name]]) == expected
    assert etm([MOVES[name]]) == 1


@given(lines(20))
def test_a_tidied_line_has_the_same_effect(line: Line) -> None:
    """Face turns of centres and one rotation do what the line does, grip included."""
    found = tidy(line)
    assert SOLVED.turn(found.turns + rotation_line(found.rotation)) == SOLVED.turn(line)
    assert parse_line(found.text) == found.turns + rotation_line(found.rotation)


@given(lines(20))
def test_tidying_again_changes_nothing(line: Line) -> None:
    """A tidied line is face turns alone, and turns of one axis in a row are of different faces."""
    turns = tidy(line).turns
    again = tidy(turns)
    assert again.turns == turns
    assert again.rotation == UNMOVED
    assert all(move.name[0] in geometry.FACES and len(move.layers) == 1 for move in turns)
    for _, run in groupby(turns, key=lambda move: move.axis):
        faces = [move.name[0] for move in run]
        assert len(faces) == len(set(faces))


@given(lines(20))
def test_tidying_never_adds_a_turn(line: Line) -> None:
    """OBTM is at most one a face or wide turn and two a slice, and at most the sum of its parts."""
    assert obtm(line) <= sum(obtm([move]) for move in line)
    for cut in range(len(line)):
        assert obtm(line) <= obtm(line[:cut]) + obtm(line[cut:])


@given(lines(20), symmetries)
def test_the_count_is_the_same_in_every_mirror_and_backwards(line: Line, symmetry: Matrix) -> None:
    """OBTM and ETM do not change under symmetries or by inverting."""
    for other in (image(line, symmetry), inverse(line)):
        assert obtm(other) == obtm(line)
        assert etm(other) == etm(line)


@given(lines(15), rotations)
def test_no_grip_changes_the_count(line: Line, grip: Matrix) -> None:
    """The same turns made in another grip are the same turns of the same centres."""
    turns = tidy(line).turns
    assert tidy(held(turns, grip), grip).turns == turns
    assert obtm((*rotation_line(grip), *held(turns, grip))) == obtm(line)


# -- inverse, images, grips ----------------------------------------------------------------------


@given(lines(20), cubes())
def test_the_inverse_undoes_the_line(line: Line, cube: Cube) -> None:
    """A line and then its inverse leave any cube as it was."""
    assert cube.turn(line).turn(inverse(line)) == cube
    assert inverse(inverse(line)) == line


@given(lines(12), symmetries, cubes())
def test_images_commute_with_turning(line: Line, symmetry: Matrix, cube: Cube) -> None:
    """Turning and then looking in the mirror shows the mirrored line on the mirrored cube."""
    assert cube.turn(line).image(symmetry) == cube.image(symmetry).turn(image(line, symmetry))


@given(lines(12), symmetries, symmetries)
def test_images_compose(line: Line, a: Matrix, b: Matrix) -> None:
    """The image of an image is the image under both, and every symmetry is undone by another."""
    assert image(image(line, a), b) == image(line, geometry.compose(a, b))
    assert image(image(line, a), geometry.transpose(a)) == line


@pytest.mark.parametrize(
    ("name", "slot", "mirrored"),
    [
        # What the other hand does (common practice, no source).
        ("left-right", "FR", "L' U' L M S'"),
        ("front-back", "FR", "R' U' R M' S"),
        ("diagonal", "FR", "F' U' F S M"),
        ("diagonal", "BL", "F' U' F S M"),
        ("diagonal", "FL", "B' U' B S' M'"),
        ("diagonal", "BR", "B' U' B S' M'"),
    ],
)
def test_twins_of_a_line(name: str, slot: str, mirrored: str) -> None:
    """The three mirrors of R U R' and of two slices."""
    found = image(parse_line("R U R' M S"), twin(name, slot))
    assert line_text(found) == mirrored


def test_every_twin_is_its_own_inverse() -> None:
    """Mirroring a line twice gives the line."""
    line = tuple(MOVES.values())
    for name in TWINS:
        for slot in ("FR", "FL"):
            assert image(image(line, twin(name, slot)), twin(name, slot)) == line


def test_every_rotation_is_written_in_at_most_two_moves() -> None:
    """24 rotations: one of no move, nine of one, fourteen of two."""
    written = [rotation_line(rotation) for rotation in ROTATIONS]
    assert sorted(len(line) for line in written) == [0] + [1] * 9 + [2] * 14
    for rotation, line in zip(ROTATIONS, written, strict=True):
        assert all(move.is_rotation for move in line)
        assert SOLVED.turn(line).grip == rotation


@given(face_lines(12), rotations)
def test_hands_hold_the_same_turns_in_any_grip(turns: Line, grip: Matrix) -> None:
    """Turning centres and then rotating is rotating and then turning what lies there now."""
    rotation = rotation_line(grip)
    assert SOLVED.turn(turns).turn(rotation) == SOLVED.turn(rotation).turn(held(turns, grip))
