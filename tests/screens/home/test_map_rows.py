"""The rows of the map."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from game.packs import Puzzle
from game.records import Best
from game.screens.home.map_rows import SHORT_WIDTH, level_head, level_row, pack_row, pairs_text
from game.screens.shared.fitting import fit
from game.screens.shared.marks import earned, marks_content
from game.screens.statistics.tally import Tally, solved_texts, tally

FIRST = "00-first-turns/open-door"
BEST = Best(
    attempts=4, solved=True, at_hand=True, at_par=False, called=True,
    over=2, turns=5, seeing_ms=2340, doing_ms=12_345,
)  # fmt: skip


@given(st.text(st.characters(categories=["L", "N", "P"]), max_size=30), st.integers(0, 20))
def test_fit_is_exact(text: str, width: int) -> None:
    """A fitted text takes exactly the columns it is given, wide letters included."""
    assert cell_len(fit(text, width)) == width


def test_fit_shows_that_it_cut() -> None:
    """What does not fit ends in "…", what fits is left alone."""
    assert fit("Follow the corner", 10) == "Follow th…"
    assert fit("Follow", 8) == "Follow  "


@pytest.mark.parametrize("width", [28, SHORT_WIDTH - 1, SHORT_WIDTH, 50, 90])
def test_rows_are_as_wide_as_their_list(shipped: dict[str, Puzzle], width: int) -> None:
    """Every level's row and the headings end at the same column."""
    for puzzle in shipped.values():
        assert cell_len(level_row(puzzle, BEST, width, hides_par=False).plain) == width
    assert cell_len(level_head(width).plain) == width
    pack = shipped[FIRST].pack
    assert cell_len(pack_row(pack, Tally(5, 2, 1), width).plain) == width


def test_a_row_tells_the_best(shipped: dict[str, Puzzle]) -> None:
    """A row holds slot, par, best turns, best doing time and marks, in that order."""
    row = level_row(shipped[FIRST], BEST, 60, hides_par=False).plain
    assert row.split() == ["The", "Open", "Door", "+1", "FR", "3", "5", "12.3", "●●○", "●"]
    untried = level_row(shipped[FIRST], None, 60, hides_par=False).plain
    assert untried.split() == ["The", "Open", "Door", "+1", "FR", "3", "○○○"]


def test_par_can_be_hidden(shipped: dict[str, Puzzle]) -> None:
    """Where par is to be called, the row does not tell it."""
    row = level_row(shipped[FIRST], None, 60, hides_par=True).plain
    assert row.split()[-2] == "?"


def test_a_twin_is_named(shipped: dict[str, Puzzle]) -> None:
    """A twin's row names the mirror and its own slot."""
    row = level_row(shipped[f"{FIRST}~left-right"], None, 60, hides_par=False).plain
    assert row.split()[:3] == ["left-right", "twin", "FL"]


def test_short_names_of_pairs() -> None:
    """One or two pairs are named, more are counted."""
    assert pairs_text(("FR",)) == "FR"
    assert pairs_text(("FR", "BL")) == "FR+BL"
    assert pairs_text(("FR", "FL", "BL")) == "3 of 4"
    assert pairs_text(("FR", "FL", "BL", "BR")) == "all 4"


def test_marks() -> None:
    """The signs stand in the order of the marks; a call that was not made leaves no sign."""
    assert marks_content(earned(BEST)).plain == "●●○ ●"
    assert marks_content(earned(None)).plain == "○○○  "


def test_tally_counts_levels_alone(shipped: dict[str, Puzzle]) -> None:
    """Counts are of levels: a twin that is solved adds nothing."""
    first = shipped[FIRST]
    bests = {first.position.text: BEST, shipped[f"{FIRST}~left-right"].position.text: BEST}
    assert tally([first.pack], bests) == Tally(len(first.pack.levels), 1, 0)
    assert solved_texts(bests) == set(bests)
