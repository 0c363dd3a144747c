"""Cards as text."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.moves import MOVES
from game.errors import CodeError
from game.friends.codes import Addressed, card_code, read_card
from game.friends.contest import MAX_BYTES, MAX_POSITIONS, Card
from game.play.result import MAX_MOVES, Result
from game.play.times import MAX_HUNDREDTHS
from tests.friends.codes.values import cards

HOUR = 360_000
"""Hundredths of a second."""
LONGEST_SHORT = 2**20 - 1
"""Hundredths of a second: 2.9 hours, the longest time for which a card is promised to be short."""


@given(cards())
def test_cards_come_back(addressed: Addressed) -> None:
    """What a card's code carries is the card, and what it belongs to."""
    assert read_card(card_code(addressed)) == addressed


@given(st.lists(st.integers(0, 75), min_size=4, max_size=4), st.integers(0, 10**9))
def test_a_card_of_five_fits_200_characters(cuts: list[int], seed: int) -> None:
    """A name of 16 bytes, times of hours, and any 75 moves shared out in any way."""
    dice = random.Random(seed)
    bounds = [0, *sorted(cuts), 75]
    counts = [b - a for a, b in pairwise(bounds)]
    for time in (HOUR, LONGEST_SHORT):
        results = tuple(
            Result(tuple(dice.choices(list(MOVES.values()), k=n)), time, time, n > 0, n > 0, 2)
            for n in counts
        )
        card = Card("éééééééé", results)
        assert len(card.name.encode()) == 16
        for to in ("ffffffffff", "2399-12-31"):
            assert len(card_code(Addressed(to, card))) <= 200


def test_no_such_card_is_longer() -> None:
    """The largest numbers that can be packed for such a card still fit."""
    lengths = (2 * 2**5) ** 3 * (2 * 2**10) ** 2  # two lines of more than 31 moves at most
    results = 6**5 * (4 * 2**20) ** 10 * lengths * 54**75
    most = 2**40 * (MAX_BYTES + 1) * 256**16 * MAX_POSITIONS * results
    digits = 0
    while 31**digits < most:
        digits += 1
    assert len("EPAIRC1" + "OVER") + digits + digits % 2 + 4 <= 200


def test_nothing_is_cut() -> None:
    """The longest name, lines and times, at the most positions, are carried."""
    line = (tuple(MOVES.values()) * 20)[:MAX_MOVES]
    result = Result(line, MAX_HUNDREDTHS, MAX_HUNDREDTHS, called=True, solved=True, inspection=2)
    addressed = Addressed("0123456789", Card("x" * MAX_BYTES, (result,) * MAX_POSITIONS))
    assert read_card(card_code(addressed)) == addressed


@pytest.mark.parametrize(
    "to", ["", "0123", "0123456789A", "ABCDEF0123", "2026-13-01", "1999-01-01", "2026-1-1"]
)
def test_what_a_card_cannot_belong_to(to: str) -> None:
    """It is a key or a date, and nothing else."""
    with pytest.raises(CodeError):
        Addressed(to, Card("Ada", (Result((), 0, 0, False, False),)))
