"""The rating system against its paper."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.drill.rating import Rating, expected, rated

PLAYER = Rating(1500, 200, 0.06)
OPPONENTS = ((Rating(1400, 30), 1.0), (Rating(1550, 100), 0.0), (Rating(1700, 300), 0.0))


def test_worked_example() -> None:
    """The paper's example (Glickman 2013): it rounds to 1464.06, 151.52, 0.05999."""
    after = rated(PLAYER, OPPONENTS)
    assert after.rating == pytest.approx(1464.06, abs=0.011)
    assert after.deviation == pytest.approx(151.52, abs=0.005)
    assert after.volatility == pytest.approx(0.05999, abs=0.00001)


def test_worked_example_in_full_precision() -> None:
    """The same without the paper's intermediate rounding (computed)."""
    after = rated(PLAYER, OPPONENTS)
    assert after.rating == pytest.approx(1464.0507, abs=0.0001)
    assert after.deviation == pytest.approx(151.5165, abs=0.0001)
    assert after.volatility == pytest.approx(0.0599960, abs=1e-7)


def test_expected_scores_of_the_example() -> None:
    """The paper's table gives E = 0.639, 0.432, 0.303."""
    chances = [expected(PLAYER, other) for other, _ in OPPONENTS]
    assert chances == pytest.approx([0.639, 0.432, 0.303], abs=0.0005)


def test_without_results_only_doubt_grows() -> None:
    """A period without results leaves rating and volatility and raises the deviation."""
    after = rated(PLAYER, [])
    assert (after.rating, after.volatility) == (1500, 0.06)
    assert 200 < after.deviation < 201


ratings = st.builds(Rating, st.floats(0, 4000), st.floats(20, 350), st.floats(0.03, 0.1))


@given(ratings, st.lists(st.tuples(ratings, st.sampled_from([0.0, 0.5, 1.0])), max_size=20))
def test_results_move_the_rating_their_way(
    one: Rating, results: list[tuple[Rating, float]]
) -> None:
    """A rating moves towards better results than expected, and stays finite."""
    after = rated(one, results)
    assert 0 < after.deviation <= 360
    assert 0 < after.volatility < 1
    surplus = [score - expected(one, other) for other, score in results]
    if surplus and min(surplus) > 0:
        assert after.rating >= one.rating
    if surplus and max(surplus) < 0:
        assert after.rating <= one.rating
