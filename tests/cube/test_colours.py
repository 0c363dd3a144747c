"""The usual colours in every choice of cross and front."""

from __future__ import annotations

from itertools import product

import pytest

from game.cube.colours import COLOURS, HOME_COLOURS, colour_scheme
from game.cube.geometry import FACES, OPPOSITE
from game.errors import SettingsError

OPPOSITE_COLOUR = {"white": "yellow", "green": "blue", "red": "orange"}
OPPOSITE_COLOUR |= {b: a for a, b in OPPOSITE_COLOUR.items()}


def test_the_home_colours() -> None:
    """White down, green in front: yellow up, orange right (common practice, no source)."""
    assert colour_scheme("white", "green") == HOME_COLOURS
    assert HOME_COLOURS["D"] == "white"
    assert HOME_COLOURS["F"] == "green"
    assert HOME_COLOURS["U"] == "yellow"
    assert HOME_COLOURS["R"] == "orange"
    assert set(HOME_COLOURS) == set(FACES)
    assert set(HOME_COLOURS.values()) == set(COLOURS) == set(OPPOSITE_COLOUR)


@pytest.mark.parametrize(
    ("cross", "front", "right"),
    [
        # A cube in hand, turned over: with yellow down and green in front, red is on the right.
        ("yellow", "green", "red"),
        ("yellow", "blue", "orange"),
        ("white", "orange", "blue"),
        ("white", "red", "green"),
        ("white", "blue", "red"),
        ("blue", "white", "orange"),
        ("green", "red", "yellow"),
        ("red", "yellow", "green"),
    ],
)
def test_schemes_of_a_cube_in_hand(cross: str, front: str, right: str) -> None:
    """Cross and front colour decide the colour on the right."""
    assert colour_scheme(cross, front)["R"] == right


def test_there_are_24_schemes() -> None:
    """Any colour below, any neighbour in front: 24 schemes, all different, opposites opposite."""
    found = []
    for cross, front in product(COLOURS, COLOURS):
        if front in (cross, OPPOSITE_COLOUR[cross]):
            continue
        scheme = colour_scheme(cross, front)
        assert (scheme["D"], scheme["F"]) == (cross, front)
        assert all(scheme[OPPOSITE[face]] == OPPOSITE_COLOUR[scheme[face]] for face in FACES)
        found.append(tuple(scheme[face] for face in FACES))
    assert len(found) == len(set(found)) == 24


@pytest.mark.parametrize(
    ("cross", "front", "message"),
    [
        ("white", "yellow", "yellow cannot be in front of a white cross: it is not beside white"),
        ("red", "red", "red cannot be in front of a red cross: it is not beside red"),
        ("whit", "green", 'unknown colour "whit"; did you mean "white"?'),
        (
            "white",
            "pink\n",
            'unknown colour "pink?"; expected one of green, blue, orange, red, yellow, white',
        ),
    ],
)
def test_impossible_colours_are_refused(cross: str, front: str, message: str) -> None:
    """A word that is no colour and a front that is not beside the cross: one line each."""
    with pytest.raises(SettingsError) as refused:
        colour_scheme(cross, front)
    assert str(refused.value) == message
