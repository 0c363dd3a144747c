"""Turns against par, and the marks."""

from __future__ import annotations

import pytest

from game.cube.line import inverse
from game.cube.moves import parse_line
from game.play.attempt import Attempt, begin
from game.play.position import position_after
from game.play.score import Call, Mark, score

SHORT = parse_line("R B U2 B' R'")
HOOK = position_after(inverse(SHORT))


def solved(text: str) -> Attempt:
    """The hook position (par 5, proven by the search's tests) solved by this line."""
    attempt = begin(HOOK)
    for move in parse_line(text):
        attempt = attempt.turn(move, 0)
    assert attempt.is_solved, text
    return attempt


HABIT = "R U' R' U2 R U R'"
"""Seven turns that solve the hook with the top and the right side alone."""


def test_at_par_earns_every_mark() -> None:
    """A shortest line is at par and at hand, whatever the hands could do."""
    result = score(solved("R B U2 B' R'"), 5, 7)
    assert (result.over, result.at_par) == (0, True)
    assert result.marks == (Mark.SOLVED, Mark.AT_HAND, Mark.AT_PAR)


def test_at_hand_without_par() -> None:
    """Seven turns are no more than the hands need here, but two over par."""
    result = score(solved(HABIT), 5, 7)
    assert result.over == 2
    assert result.marks == (Mark.SOLVED, Mark.AT_HAND)


def test_hand_par_not_known_yet() -> None:
    """While the search runs the mark is open, unless par settles it."""
    assert score(solved(HABIT), 5, None).at_hand is None
    assert score(solved("R B U2 B' R'"), 5, None).at_hand is True


def test_shown_solutions_leave_one_mark() -> None:
    """After the solutions were shown only `solved` can be earned; the numbers stay true."""
    result = score(solved("R B U2 B' R'"), 5, 7, shown=True, called=True)
    assert result.marks == (Mark.SOLVED,)
    assert result.at_par


def test_calls() -> None:
    """A call is right exactly at par."""
    assert score(solved("R B U2 B' R'"), 5, 7, called=True).call is Call.RIGHT
    assert Mark.CALLED in score(solved("R B U2 B' R'"), 5, 7, called=True).marks
    assert score(solved(HABIT), 5, 7, called=True).call is Call.WRONG
    assert score(solved(HABIT), 5, 7).call is Call.NONE


def test_only_solved_attempts_have_a_score() -> None:
    """An attempt in hand has no score."""
    with pytest.raises(ValueError, match="only a solved attempt"):
        score(begin(HOOK), 5, 7)
