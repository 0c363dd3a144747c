"""Times as results are written: WCA Regulations, 9f1 and 9f2 (version of 1 April 2026)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.play.times import TEN_MINUTES, cut, mean, result, written

times = st.integers(0, 10**7)


def test_a_result_is_cut() -> None:
    """12.678 s is 12.67 s (the Regulations' own example)."""
    assert written(cut(12_678)) == "12.67"


@pytest.mark.parametrize(
    ("hundredths", "text"),
    [
        (0, "0.00"),
        (5, "0.05"),
        (5999, "59.99"),
        (6000, "1:00.00"),
        (6234, "1:02.34"),
        (60_000, "10:00.00"),
        (60_001, "10:00"),
        (60_049, "10:00"),
        (60_050, "10:01"),
        (72_349, "12:03"),
        (600_000, "100:00"),
    ],
)
def test_written(hundredths: int, text: str) -> None:
    """Hundredths up to ten minutes; over that the nearest second, x.5 upwards."""
    assert written(hundredths) == text


@given(st.lists(times, min_size=1, max_size=9))
def test_a_mean_is_rounded(some: list[int]) -> None:
    """A mean is the nearest hundredth, over ten minutes the nearest second; halves go up."""
    exact = Fraction(sum(some), len(some))
    found = mean(some)
    if found <= TEN_MINUTES:
        assert Fraction(-1, 2) <= exact - found < Fraction(1, 2)
    else:
        assert found % 100 == 0
        assert abs(exact - found) <= Fraction(101, 2)


@given(times)
def test_up_to_ten_minutes_nothing_changes(hundredths: int) -> None:
    """A result of up to ten minutes stands as it was cut."""
    kept = result(hundredths)
    assert kept == hundredths if hundredths <= TEN_MINUTES else kept % 100 == 0
