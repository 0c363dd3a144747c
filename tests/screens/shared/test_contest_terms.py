"""The terms of a match."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from game.friends.contest import MAX_POSITIONS, TIME, TURNS
from game.screens.shared.contest_terms import BY_WHAT, COUNT, INSPECTION, USUAL_COUNT, ContestTerms
from game.screens.shared.selection_rows import A_DEAL, THE_DAY, Chosen

USUAL = ContestTerms(Chosen((), date(2026, 4, 1)))


def values(terms: ContestTerms) -> dict[str, str]:
    return {row.key: row.value for row in terms.rows()}


def test_the_usual_terms() -> None:
    """A few dealt positions, by turns, without inspection."""
    found = values(USUAL)
    assert (found["source"], found[COUNT]) == (A_DEAL, str(USUAL_COUNT))
    assert (found[BY_WHAT], found[INSPECTION]) == (TURNS, "no")


def test_the_rules_go_round() -> None:
    """By turns, by time, by turns; inspection or none."""
    there = USUAL.stepped(BY_WHAT, 1)
    assert there.rules.by == TIME and there.stepped(BY_WHAT, 1) == USUAL
    assert values(USUAL.stepped(INSPECTION, -1))[INSPECTION] == "yes"


def test_the_number_goes_round() -> None:
    """After the most comes one, and before one the most."""
    assert ContestTerms(USUAL.chosen, 1).stepped(COUNT, -1).count == MAX_POSITIONS
    assert ContestTerms(USUAL.chosen, MAX_POSITIONS).stepped(COUNT, 1).count == 1


def test_no_more_than_there_are() -> None:
    """Of the day's five at most five are played."""
    many = ContestTerms(USUAL.chosen, 30)
    assert many.stepped("source", -1).chosen.source == THE_DAY
    assert many.stepped("source", -1).count == 5


@given(st.lists(st.tuples(st.integers(0, 7), st.sampled_from((1, -1))), max_size=20))
def test_every_step_gives_terms_that_can_be(steps: list[tuple[int, int]]) -> None:
    """Whatever is stepped, there is a selection and a number that it has."""
    terms = USUAL
    for row, step in steps:
        rows = terms.rows()
        terms = terms.stepped(rows[row % len(rows)].key, step)
        assert terms.chosen.selection.words
        assert 1 <= terms.count <= terms.most
