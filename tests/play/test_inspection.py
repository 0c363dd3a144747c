"""The rule of inspection: WCA Regulations, A3 and A4 (version of 1 April 2026)."""

from __future__ import annotations

import pytest

from game.play.inspection import PENALTY, Inspection, inspection_words, seconds_added, seeing_ms


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


def test_an_inspection_goes_on_until_it_ends() -> None:
    """It warns once each, costs by when it ended with a start, and its time stands from then on."""
    inspection = Inspection(since=100.0)
    assert inspection.goes_on and inspection.added is None and inspection.taken_ms == 0
    assert inspection.warn(107.9) is inspection
    warned = inspection.warn(108.0)
    assert (warned.warned, warned.warn(109.0) is warned) == (1, True)
    assert warned.warn(112.5).warned == 2
    assert not inspection.is_too_late(116.875)
    assert inspection.is_too_late(117.0)
    ended = inspection.end(114.5)
    assert (ended.taken_ms, ended.added, ended.ms(200.0)) == (14_500, 0, 14_500)
    assert ended.end(150.0) is ended


@pytest.mark.parametrize(("moment", "added"), [(115.0, PENALTY), (116.875, PENALTY), (117.0, None)])
def test_what_an_end_costs(moment: float, added: int | None) -> None:
    """From 15.00 s on two seconds, from 17.00 s on the position (WCA A4d1, A4d2)."""
    assert Inspection(since=100.0).end(moment).added == added


def test_an_inspection_that_is_given_up_costs_no_seconds() -> None:
    """Nothing was started; its time is there all the same."""
    ended = Inspection(since=100.0).end(116.0, starts=False)
    assert (ended.added, ended.taken_ms) == (None, 16_000)
