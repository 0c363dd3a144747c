"""Charts as text: as wide and high as told, and true to their values."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.screens.statistics.charts import (
    EIGHTHS,
    MOST_WIDE,
    STEPS,
    bar,
    bounds,
    columns,
    histogram,
    share,
    step,
    stretched,
)

VALUES = st.lists(st.none() | st.floats(0, 1000), max_size=40)


def test_columns_are_as_high_as_their_values() -> None:
    """Eighths of a cell, over as many rows as there are."""
    assert columns([0, 4, 8], 1, 3, 0, 8) == ["▁▄█"]
    assert columns([8, 12, 16], 2, 3, 0, 16) == [" ▄█", "███"]


def test_no_value_leaves_a_gap() -> None:
    """Where nothing is known nothing is drawn; where it is nought, an eighth."""
    assert columns([None, 0, 8], 1, 3, 0, 8) == [" ▁█"]


def test_few_values_are_stretched() -> None:
    """A value is as wide as fits, but no wall."""
    assert stretched([1, 2], 5) == [1, 1, 2, 2]
    assert stretched([1], 50) == [1] * MOST_WIDE
    assert columns([], 2, 4, 0, 1) == ["    ", "    "]


@given(VALUES, st.integers(1, 5), st.integers(40, 90))
def test_charts_fit_their_room(values: list[float | None], rows: int, width: int) -> None:
    """Every row has the width that was told, and is of blocks."""
    drawn = columns(values, rows, width, *bounds(values))
    assert [len(row) for row in drawn] == [width] * rows
    assert set("".join(drawn)) <= set(EIGHTHS)


@given(st.floats(0, 50), st.floats(0, 50), st.integers(1, 60))
def test_a_longer_bar_is_a_greater_value(one: float, other: float, width: int) -> None:
    """Bars grow with their values and never beyond their room."""
    short, long = (bar(value, 50, width) for value in sorted((one, other)))
    assert len(short) <= len(long) <= width
    assert bar(50, 50, width) == "█" * width


def test_eighths_of_a_bar() -> None:
    """The end of a bar is as fine as an eighth of a cell."""
    assert bar(1, 16, 2) == "▏"
    assert bar(12, 16, 2) == "█▌"
    assert bar(0, 0, 3) == "███"


@given(st.floats(0, 9), st.floats(0, 9), st.floats(0, 9))
def test_steps_follow_their_values(value: float, low: float, high: float) -> None:
    """A step is one of those there are, the least at the low end, the greatest at the high."""
    low, high = sorted((low, high))
    assert 0 <= step(value, low, high) < STEPS
    assert step(low, low, high) == 0
    assert step(high, low, high) == (STEPS - 1 if high > low else 0)
    assert 0 <= share(value, low, high) <= 1


@pytest.mark.parametrize(
    ("numbers", "expected"),
    [((), [0, 0, 0, 0]), ((0, 1, 24, 25, 99, 100, 900), [3, 1, 0, 3])],
)
def test_every_number_falls_into_one_span(numbers: tuple[int, ...], expected: list[int]) -> None:
    """Spans begin with their lower end, and the last takes all that is beyond."""
    assert histogram(numbers, 4, 100) == expected
