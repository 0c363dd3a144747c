"""Runs and rows: two pixels a cell, neighbours of one style together."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.draw.cells import Ink, Run, beside, half_cells, merged, row_width, width
from tests.draw.pixels import letters_of, pixels_of

inks = st.sampled_from([None, 1, 2, (9, 9, 9)])
runs = st.builds(Run, st.text("x ▀▄", max_size=3), inks, inks, st.booleans())


@given(inks, inks)
def test_a_cell_shows_its_two_pixels(upper: Ink, lower: Ink) -> None:
    """Whatever two inks are asked for, the cell's halves have them."""
    assert pixels_of(((half_cells(upper, lower),),)) == [[upper], [lower]]


@pytest.mark.parametrize(
    ("upper", "lower", "run"),
    [
        (1, 1, Run("  ", None, 1)),
        (None, None, Run("  ")),
        (1, 2, Run("▀▀", 1, 2)),
        (1, None, Run("▀▀", 1, None)),
        (None, 2, Run("▄▄", 2, None)),
    ],
)
def test_equal_pixels_are_a_space_and_others_a_half_block(upper: Ink, lower: Ink, run: Run) -> None:
    """A space is used where both halves match, and the terminal's own colour is never named."""
    assert half_cells(upper, lower, 2) == run


@given(st.lists(runs))
def test_merging_changes_nothing_that_is_seen(row: list[Run]) -> None:
    """Pixels and letters of a merged row are those of the row."""
    assert pixels_of((merged(row),)) == pixels_of((tuple(row),))
    assert letters_of((merged(row),)) == letters_of((tuple(row),))


def test_spaces_join_any_neighbour_on_the_same_ground() -> None:
    """A letter between two spaces of its ground is one run, and so are half blocks and spaces."""
    assert merged([Run(" ", None, 3), Run("W", 0, 3), Run("  ", None, 3)]) == (Run(" W  ", 0, 3),)
    assert merged([Run("▀", 1, 3), Run(" ", None, 3), Run("▀", 2, 3)]) == (
        Run("▀ ", 1, 3),
        Run("▀", 2, 3),
    )


def test_pictures_side_by_side_start_at_the_same_row() -> None:
    """A lower picture is filled up below, and columns stay in line."""
    tall = ((Run("ab"),), (Run("c"),))
    low = ((Run("x", 1),),)
    both = beside(tall, low, tall, gap=1)
    assert letters_of(both) == {
        (0, 0): "a", (0, 1): "b", (0, 3): "x", (0, 5): "a", (0, 6): "b", (1, 0): "c", (1, 5): "c",
    }  # fmt: skip
    assert {row_width(row) for row in both} == {7}
    assert width(both) == 7
