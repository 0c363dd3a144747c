"""Notes: what each placeholder says, in other colours and for twins, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.colours import HOME_COLOURS, colour_scheme
from game.cube.geometry import compose
from game.cube.line import image
from game.cube.moves import line_text
from game.cube.symmetry import FRONT_BACK, LEFT_RIGHT, twin
from game.errors import NotationError
from game.packs.notes import check_note, fill_note
from tests.strategies import lines, upright_symmetries

EVERY = (
    "{cross} {top} {colour F} {colour R} {colour B} {front} {back} {left} {right} "
    "{slot FR} {slot BL} {turns R U' B2}"
)
BLUE_DOWN = colour_scheme("blue", "white")


@pytest.mark.parametrize(
    ("symmetry", "words"),
    [
        ("", "front back left right FR BL R U' B2"),
        ("left-right", "front back right left FL BR L' U B2"),
        ("front-back", "back front left right BR FL R' U F2"),
        ("diagonal", "right left back front FR BL F' U L2"),
    ],
)
def test_sides_slots_and_turns_of_twins(symmetry: str, words: str) -> None:
    """Sides, slots and turns are those of the mirror image (worked out by hand)."""
    note = "{front} {back} {left} {right} {slot FR} {slot BL} {turns R U' B2}"
    mirror = {"symmetry": twin(symmetry, "FR")} if symmetry else {}
    assert fill_note(note, HOME_COLOURS, **mirror) == words


def test_colours_at_home() -> None:
    """With white down and green in front, yellow is up and orange right (common practice)."""
    note = "{cross} {top} {colour F} {colour R} {colour B} {colour D}"
    assert fill_note(note, HOME_COLOURS) == "white yellow green orange blue white"


def test_colours_of_a_scheme() -> None:
    """Colours are those of the centres in the player's own scheme."""
    assert fill_note("{cross} {colour F}", BLUE_DOWN) == "blue white"


def test_colours_of_a_twin() -> None:
    """A mirror image shows each centre in the colour of the centre whose place it takes."""
    assert fill_note("{colour R} {colour F}", HOME_COLOURS, LEFT_RIGHT) == "red green"
    assert fill_note("{colour R} {colour F}", HOME_COLOURS, FRONT_BACK) == "orange blue"


@given(upright_symmetries, upright_symmetries, lines())
def test_turns_are_mapped_one_symmetry_after_another(first, second, line) -> None:  # type: ignore[no-untyped-def]
    """Filling a note that was mapped already maps it once more."""
    once = "{turns " + line_text(image(line, first)) + "}" if line else ""
    both = "{turns " + line_text(line) + "}" if line else ""
    at_once = fill_note(both, HOME_COLOURS, compose(first, second))
    assert fill_note(once, HOME_COLOURS, second) == at_once


def test_text_between_is_kept() -> None:
    """What stands between placeholders stays as it is, backslashes and all."""
    assert fill_note(r"a \1 {top}-b: 100 %", HOME_COLOURS) == r"a \1 yellow-b: 100 %"


@pytest.mark.parametrize(
    ("note", "message"),
    [
        (
            "Hide {crosss} first.",
            'unknown placeholder "crosss"; did you mean "cross"?\n'
            "    Hide {crosss} first.\n"
            "          ^^^^^^",
        ),
        (
            "Turn {turns R Q}.",
            'unknown turn "Q"; expected F B R L U D, wide Fw ... Dw, M E S or x y z, '
            "each alone or with ' or 2\n"
            "    Turn {turns R Q}.\n"
            "                  ^",
        ),
        (
            "{colour X}",
            'unknown face "X"; expected one of F B R L U D\n    {colour X}\n            ^',
        ),
        ("{slot RF}", 'unknown slot "RF"; expected FR, FL, BL or BR\n    {slot RF}\n          ^^'),
        ("{turns }", "{turns ...} needs a line after it\n    {turns }\n     ^^^^^^"),
        ("{top left}", "{top} stands without anything after it\n    {top left}\n     ^^^^^^^^"),
        (
            "a {b",
            '"{" stands alone; a placeholder is a word between { and }\n    a {b\n      ^',
        ),
        (
            "{{top}}",
            '"{" stands alone; a placeholder is a word between { and }\n    {{top}}\n    ^',
        ),
    ],
)
def test_faults_are_pointed_at(note: str, message: str) -> None:
    """A placeholder that cannot be filled in is refused, with a caret under what is wrong."""
    with pytest.raises(NotationError) as checked:
        check_note(note)
    assert str(checked.value) == message


@given(st.text(alphabet="{} abcrosFR'2turnslot\\\n\u202e", max_size=40))
def test_what_is_checked_can_be_filled(note: str) -> None:
    """A note that the check lets pass is filled in without braces left; any other is refused."""
    try:
        check_note(note)
    except NotationError:
        with pytest.raises(NotationError):
            fill_note(note, HOME_COLOURS)
    else:
        assert not set("{}") & set(fill_note(note, HOME_COLOURS, LEFT_RIGHT))


def test_every_placeholder_passes() -> None:
    """The check lets every kind of placeholder pass."""
    check_note(EVERY)
