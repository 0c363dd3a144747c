"""Dice that throw alike everywhere."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.deal.dice import Dice

HASHES = (
    "708882981416814ead8780f7a6613268bceb647f3777c4f1de07b0c43bc9d23c",
    "d094da6b96f574ee5a8a6000bb5bb396d1c756114e51d35dfe2fc53810d0698c",
)
"""What GNU coreutils' sha256sum prints for `printf 'pair\\n0'` and `printf 'pair\\n1'`."""


def test_a_throw_is_the_hash_of_seed_and_count() -> None:
    """The first two throws of the seed "pair" are those two hashes."""
    dice = Dice("pair")
    assert [dice.below(1000), dice.below(1000)] == [int(text, 16) % 1000 for text in HASHES]


def test_another_process_throws_alike() -> None:
    """The order of sets and the hashes of texts, which differ by process, play no part."""
    program = "from game.deal.dice import Dice; print(Dice('x').shuffled(range(12)))"
    shown = {
        subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            check=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": "."},
        ).stdout
        for seed in ("1", "2")
    }
    assert shown == {f"{Dice('x').shuffled(range(12))}\n"}


@given(st.text(), st.integers(1, 10**30))
def test_throws_stay_in_range(seed: str, sides: int) -> None:
    """Every throw is one of the numbers asked for."""
    dice = Dice(seed)
    assert all(0 <= dice.below(sides) < sides for _ in range(3))


@pytest.mark.parametrize("sides", [2, 3, 7])
def test_throws_are_even(sides: int) -> None:
    """Of 3000 throws each side gets its share within five standard deviations."""
    dice = Dice("even")
    counts = Counter(dice.below(sides) for _ in range(3000))
    share = 3000 / sides
    deviation = (share * (1 - 1 / sides)) ** 0.5
    assert all(abs(counts[side] - share) < 5 * deviation for side in range(sides))


@given(st.lists(st.integers()), st.text())
def test_shuffling_keeps_everything(things: list[int], seed: str) -> None:
    """Nothing is lost and nothing comes twice."""
    assert sorted(Dice(seed).shuffled(things)) == sorted(things)


def test_every_order_comes() -> None:
    """All six orders of three things come, each about as often."""
    dice = Dice("orders")
    counts = Counter(tuple(dice.shuffled("abc")) for _ in range(1200))
    assert len(counts) == 6
    assert min(counts.values()) > 140


@given(st.lists(st.integers(0, 5), min_size=1).filter(any), st.text())
def test_what_weighs_nothing_never_comes(weights: list[int], seed: str) -> None:
    """An index is drawn only where there is weight."""
    dice = Dice(seed)
    assert all(weights[dice.weighted(weights)] > 0 for _ in range(5))


def test_weights_are_kept() -> None:
    """Three to one, within five standard deviations of 2000 draws."""
    dice = Dice("weights")
    heavy = sum(dice.weighted([1, 3]) for _ in range(2000))
    assert abs(heavy - 1500) < 5 * (2000 * 0.75 * 0.25) ** 0.5
