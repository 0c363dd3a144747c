"""How easy lines are on the hands: facts of our own measure, and what it must not change."""

from __future__ import annotations

import pytest
from hypothesis import given

from game.cube import line as lines
from game.cube.ease import easiest_grip, effort
from game.cube.line import Line
from game.cube.moves import line_text, parse_line
from game.cube.symmetry import LEFT_RIGHT
from tests.strategies import face_lines
from tests.strategies import lines as any_lines


def of(text: str) -> float:
    return effort(parse_line(text))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", 0.0),
        ("R U R' U'", 4.0),
        ("L' U' L U", 4.0),
        ("R U2 R'", 3.5),
        ("F' U F", 4.0),
        ("D", 2.0),
        ("B2", 4.5),
        ("R F", 3.0),
        ("y' R U R'", 4.5),
        ("Rw U Rw'", 4.0),
        ("M", 2.0),
    ],
)
def test_the_measure_as_described(text: str, expected: float) -> None:
    """Costs add up as the table in the module says."""
    assert of(text) == expected


@pytest.mark.parametrize(
    ("easier", "dearer"),
    [
        ("R", "F"),
        ("F", "D"),
        ("D", "B"),
        ("U", "U2"),
        ("R U R'", "B U B'"),
        ("R U R'", "y R U R'"),
        ("R U", "R F"),
        ("R L", "R B"),
        ("R", "Rw"),
    ],
)
def test_the_order_of_plain_cases(easier: str, dearer: str) -> None:
    """What a hand finds easier costs less."""
    assert of(easier) < of(dearer)


@given(any_lines())
def test_both_hands_are_equal(line: Line) -> None:
    """A line and its left-right image cost the same."""
    assert effort(line) == effort(lines.image(line, LEFT_RIGHT))


@given(any_lines())
def test_a_line_costs_at_least_its_moves(line: Line) -> None:
    """No move costs less than one easy quarter turn."""
    assert effort(line) >= len(line)


@given(face_lines())
def test_the_easiest_grip_makes_the_same_turns(line: Line) -> None:
    """Held in its easiest grip, a line turns the same faces of the same centres."""
    held = easiest_grip(line)
    assert lines.tidy(held).turns == lines.tidy(line).turns
    assert lines.obtm(held) == lines.obtm(line)
    assert sum(move.is_rotation for move in held) <= 1


@given(face_lines())
def test_the_easiest_grip_is_no_harder(line: Line) -> None:
    """It never costs more than the line as it stands."""
    assert effort(easiest_grip(line)) <= effort(line)


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("R U R'", "R U R'"),
        ("L' U L", "L' U L"),
        ("B U B'", "y R U R'"),
        ("B' U' B", "y R' U' R"),
        ("F' U F", "F' U F"),
        ("B U B' R B R'", "y R U R' F R F'"),
        ("", ""),
    ],
)
def test_the_easiest_grip_of_plain_cases(text: str, held: str) -> None:
    """The back is turned to the side; a rotation that gains nothing is left out."""
    assert line_text(easiest_grip(parse_line(text))) == held
