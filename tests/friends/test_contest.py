"""Contests, cards and results: what they are, and what they cannot be."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from game.cube.moves import parse_line
from game.errors import ContestError
from game.friends.contest import MAX_BYTES, MAX_POSITIONS, Card, Contest, Rules
from game.play.inspection import PENALTY
from game.play.position import position_after
from game.play.result import MAX_MOVES, Result
from game.play.times import MAX_HUNDREDTHS

POSITION = position_after(parse_line("R U R'"))
SOLVING = Result(parse_line("R U' R'"), 250, 130, called=True, solved=True)
FULL = "\N{PERSONAL COMPUTER}" * (MAX_BYTES // 4)
"""As many bytes as a name may have, in characters of four bytes."""


def test_a_time_is_all_of_it() -> None:
    """Seeing, doing and the penalty add up, in hundredths of a second."""
    assert SOLVING.time == 380
    assert replace(SOLVING, inspection=PENALTY).time == 580


def test_the_bounds_are_allowed() -> None:
    """As many positions, moves, hundredths and bytes as there may be make a contest and a card."""
    long = Result(SOLVING.line[:1] * MAX_MOVES, MAX_HUNDREDTHS, MAX_HUNDREDTHS, False, False)
    assert len(Contest(FULL, (POSITION,) * MAX_POSITIONS).positions) == MAX_POSITIONS
    assert len(Card(FULL, (long,) * MAX_POSITIONS).results) == MAX_POSITIONS


@pytest.mark.parametrize(
    ("title", "positions", "problem"),
    [
        ("", (), "0 positions; a contest has 1 to 40"),
        ("", (POSITION,) * (MAX_POSITIONS + 1), "41 positions; a contest has 1 to 40"),
        ("", (POSITION, position_after(())), "position 2 of the contest is solved at the start"),
        (FULL + ".", (POSITION,), "the title of a contest has more than 160 bytes in UTF-8"),
        ("x" * 10_000, (POSITION,), "the title of a contest has more than 160 bytes in UTF-8"),
        ("\ud800", (POSITION,), "the title of a contest has half a character in it"),
    ],
)
def test_a_contest_that_cannot_be(title: str, positions: Any, problem: str) -> None:
    """A contest out of bounds, or with nothing to solve, is refused in one line."""
    with pytest.raises(ContestError, match=f"^{problem}$"):
        Contest(title, positions)


@pytest.mark.parametrize(
    ("name", "results", "problem"),
    [
        ("", (SOLVING,), "a card has the name of its player"),
        (FULL + "é", (SOLVING,), "the name of a player has more than 160 bytes in UTF-8"),
        ("Ada", (), "0 results; a card has 1 to 40"),
        ("Ada", (SOLVING,) * 41, "41 results; a card has 1 to 40"),
    ],
)
def test_a_card_that_cannot_be(name: str, results: Any, problem: str) -> None:
    """A card without a name, or out of bounds, is refused in one line."""
    with pytest.raises(ContestError, match=f"^{problem}$"):
        Card(name, results)


@pytest.mark.parametrize(
    "changes",
    [
        {"line": SOLVING.line[:1] * (MAX_MOVES + 1)},
        {"seeing": -1},
        {"doing": MAX_HUNDREDTHS + 1},
        {"inspection": 1},
        {"line": ()},
        {"solved": False},
    ],
    ids=str,
)
def test_a_result_that_cannot_be(changes: dict[str, Any]) -> None:
    """Too long a line, an impossible time, solved by nothing, and a call of nothing are refused."""
    with pytest.raises(ContestError):
        replace(SOLVING, **changes)


def test_rules_know_two_ways_to_rank() -> None:
    """By turns or by time; anything else is refused."""
    assert Rules() == Rules("turns", inspection=False)
    with pytest.raises(ContestError, match=r"^a contest is ranked by turns or by time$"):
        Rules("luck")
