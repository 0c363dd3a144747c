"""Where a pair lies, in words that tell every state apart."""

from __future__ import annotations

from itertools import product

import pytest

from game.cube.colours import colour_scheme
from game.cube.cube import SOLVED
from game.cube.geometry import CORNER_STICKERS, EDGE_STICKERS
from game.cube.moves import parse_line
from game.cube.pair import SLOTS, PairPlace, pair_place
from game.cube.words import corner_words, edge_words, pair_words, slot_words


@pytest.mark.parametrize("slot", SLOTS)
def test_all_576_states_have_words_of_their_own(slot: str) -> None:
    """24 x 24 states of a pair, 576 different descriptions."""
    states = product(CORNER_STICKERS, EDGE_STICKERS)
    words = {pair_words(PairPlace(*state), slot) for state in states}
    assert len(words) == 24 * 24
    assert all(text.isprintable() and text[-1] != "." for text in words)


@pytest.mark.parametrize(
    ("line", "slot", "words"),
    [
        # Followed with a cube in hand: white down, green in front, orange on the right.
        ("", "FR", "corner in its slot, white down; edge in its slot, green to the front"),
        (
            "R",
            "FR",
            "corner above its slot, white to the front;"
            " edge in the top layer on the right, green up",
        ),
        (
            "R U R'",
            "FR",
            "corner above FL, white to the left; edge in the top layer at the front, green up",
        ),
        (
            "F' U' F",
            "FR",
            "corner above BR, white to the back;"
            " edge in the top layer on the right, green to the right",
        ),
        (
            "F",
            "FR",
            "corner in slot FL, white to the left;"
            " edge in the bottom layer at the front, green to the front",
        ),
        ("D2", "FR", "corner in slot BL, white down; edge in its slot, green to the front"),
        (
            "L'",
            "FL",
            "corner above its slot, white to the front;"
            " edge in the top layer on the left, red to the left",
        ),
        # How the cube is held does not matter: after E2 the centres say that U and D have turned.
        ("E2", "BL", "corner in slot FR, white down; edge in its slot, blue to the back"),
        ("y", "BR", "corner in its slot, white down; edge in its slot, orange to the right"),
    ],
)
def test_words_of_pairs_after_short_lines(line: str, slot: str, words: str) -> None:
    """Literal descriptions of pairs that a short line moved."""
    assert pair_words(pair_place(SOLVED.turn(parse_line(line)), slot), slot) == words


def test_the_words_name_the_colours_shown() -> None:
    """With a yellow cross and blue in front, the same pair is told in these colours."""
    colours = colour_scheme("yellow", "blue")
    place = pair_place(SOLVED.turn(parse_line("R")), "FR")
    assert corner_words(place.corner, "FR", colours) == (
        "corner above its slot, yellow to the front"
    )
    assert edge_words(place.edge, "FR", colours) == "edge in the top layer on the right, blue up"


def test_slots_in_words() -> None:
    """A slot is named by its two sides."""
    words = [slot_words(slot) for slot in SLOTS]
    assert words == ["front right", "front left", "back left", "back right"]
