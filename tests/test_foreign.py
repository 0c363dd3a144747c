"""Names and titles of others, made fit to be shown."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.foreign import MAX_ACCENTS, NAMELESS, shown, width


@given(st.text() | st.text(max_size=3).map(lambda text: text * 5000), st.integers(1, 60))
def test_what_is_shown_is_one_short_line(text: str, columns: int) -> None:
    """Whatever the text: printable, no wider than asked, never empty."""
    told = shown(text, columns)
    assert told and told.isprintable()
    assert width(told) <= columns


@given(st.text("abc XYZ 123 äß Ω Ж", max_size=40).map(lambda text: " ".join(text.split())))
def test_plain_text_is_left_as_it_is(text: str) -> None:
    """Letters and digits of narrow scripts, with single spaces between."""
    assert shown(text) == (text or NAMELESS)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Ada\nLovelace", "Ada Lovelace"),
        ("\x1b[2J\x07Bo\x9b31m", "[2JBo31m"),
        ("Bo \u202e gnol \u2066x", "Bo gnol x"),
        ("\u200b\u200d\ufeff", NAMELESS),
        (" \t ", NAMELESS),
        ("a" * 10_000, "a" * 39 + "…"),
        ("将" * 30, "将" * 19 + "…"),
        ("Z\u0335\u0336\u0337\u0338a", "Z\u0335\u0336a"),
        ("\u0301x", "x"),
        ("\ud800x", "x"),
        ("👩\u200d🚀", "👩🚀"),
    ],
    ids=ascii,
)
def test_what_could_do_harm_is_left_out(text: str, told: str) -> None:
    """Line breaks, controls, overrides, halves of characters, heaps of accents, ten thousand."""
    assert shown(text) == told


def test_a_letter_keeps_some_accents() -> None:
    """As many as stand on a letter in any orthography we know of (common practice, no source)."""
    assert shown("e\u0301\u0323" + "\u0301" * 50) == "e\u0301\u0323"
    assert MAX_ACCENTS == 2
