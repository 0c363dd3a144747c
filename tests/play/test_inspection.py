"""The rule of inspection: WCA Regulations, A3 and A4 (version of 1 April 2026)."""

from __future__ import annotations

import pytest

from game.play.inspection import inspection_words, seconds_added, seeing_ms


@pytest.mark.parametrize(
    ("ms", "added"),
    [(0, 0), (14_999, 0), (15_000, 2), (16_999, 2), (17_000, None), (10**9, None)],
)
def test_what_a_start_costs(ms: int, added: int | None) -> None:
    """Under 15 s nothing, exactly 15.00 s two seconds, exactly 17.00 s the position."""
    assert seconds_added(ms) == added


def test_words() -> None:
    """The seconds are told, with a warning after 8 and 12 and what it costs from 15 on."""
    assert inspection_words(0) == "Inspection 0 s"
    assert inspection_words(7_999) == "Inspection 7 s"
    assert inspection_words(8_000) == "Inspection 8 s: 8 seconds!"
    assert inspection_words(13_999) == "Inspection 13 s: 12 seconds!"
    assert inspection_words(15_000) == "Inspection 15 s: 2 seconds are added"


def test_what_giving_up_costs() -> None:
    """Inspection is free for who plays on, and counts where the position is given up."""
    assert seeing_ms(1_200, 14_000, gave_up=False) == 1_200
    assert seeing_ms(1_200, 14_000, gave_up=True) == 15_200
    assert seeing_ms(0, 14_000, gave_up=True) == 14_000
