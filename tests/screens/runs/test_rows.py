"""The terms of a run, stepped through as rows."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from game.modes import DASH, HOURGLASS
from game.runs import RunTerms
from game.screens.runs.rows import SECONDS, Setup, seconds_words, setup_for
from game.screens.shared.selection_rows import THE_DAY, Chosen

CHOSEN = Chosen((), date(2026, 11, 25))
USUAL = Setup(CHOSEN)
DEAL = "deal/1/0/FR+FL+BL+BR/FBRLUD/focus"


def stepped(setup: Setup, *keys: str, step: int = 1) -> Setup:
    for key in keys:
        setup = setup.stepped(key, step)
    return setup


def test_usual_terms() -> None:
    """Five positions, half a second a turn, no inspection."""
    assert USUAL.terms == RunTerms(DASH, 5, DEAL, 50, inspection=False)


def test_each_mode_has_its_own_amount() -> None:
    """A dash counts positions, an hourglass seconds, and each remembers its own."""
    setup = stepped(USUAL, "amount", "mode", "amount")
    assert setup.terms == RunTerms(HOURGLASS, 300, DEAL)
    assert stepped(setup, "mode").terms == RunTerms(DASH, 7, DEAL)


def test_added_and_inspection() -> None:
    """What is added for a turn, and whether there is inspection."""
    assert stepped(USUAL, "added", "inspection").terms == RunTerms(
        DASH, 5, DEAL, 100, inspection=True
    )
    nothing = stepped(USUAL, "added", "added", step=-1)
    assert nothing.terms.added == 0
    assert nothing.rows()[2].value == "nothing"


def test_the_days_five_are_five() -> None:
    """They are a dash of five, whatever was chosen before."""
    setup = Setup(replace(CHOSEN, source=THE_DAY), HOURGLASS, positions=10)
    assert setup.terms == RunTerms(DASH, 5, "day/2026-11-25")
    assert setup.rows()[1].value == "five positions"


@pytest.mark.parametrize(
    "setup",
    [
        USUAL,
        Setup(CHOSEN, HOURGLASS, seconds=600, added=200, inspection=True),
        Setup(replace(CHOSEN, pairs=2, open=1), positions=12),
        Setup(replace(CHOSEN, source=THE_DAY)),
    ],
)
def test_terms_lead_back_to_their_rows(setup: Setup) -> None:
    """The rows begin with the terms of the run before."""
    assert setup_for(setup.terms, setup.selection, CHOSEN).terms == setup.terms


def test_amounts_that_no_row_has() -> None:
    """From an amount that is no choice, a step leads to the nearest that is."""
    odd = setup_for(RunTerms(DASH, 11, DEAL), USUAL.selection, CHOSEN)
    assert odd.terms.amount == 11
    assert stepped(odd, "amount").terms.amount in (10, 12)


def test_seconds_in_words() -> None:
    """Whole minutes are told as such."""
    words = [seconds_words(seconds) for seconds in SECONDS]
    assert words[:4] == ["10 seconds", "30 seconds", "one minute", "two minutes"]
