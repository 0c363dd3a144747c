from __future__ import annotations

import pytest

from game.attempt import begin
from game.cube.moves import parse_line
from game.position import Position, position_after
from game.score import score
from game.screens.side_words import goal_words, mark_rows, terms_words, turns_words, verdict_words


def position(setup: str, open_: tuple[str, ...] = (), faces: str = "FBRLUD") -> Position:
    return position_after(parse_line(setup), open_, faces)


@pytest.mark.parametrize(
    ("setup", "open_", "words"),
    [
        ("R U R'", (), "Solve the pair at the front right"),
        ("L' U L", (), "Solve the pair at the front left"),
        ("R U R' L' U L", (), "Solve the pairs at the front right and the front left"),
        ("D", ("FR", "FL", "BL", "BR"), "Solve the cross"),
        ("U", (), "Nothing to solve"),
    ],
)
def test_the_aim_in_words(setup: str, open_: tuple[str, ...], words: str) -> None:
    """The cross where it is not done, then each pair in play."""
    assert goal_words(position(setup, open_)) == words


def test_what_else_holds() -> None:
    """Open slots and the faces that may turn are told, and nothing where nothing else holds."""
    assert terms_words(position("R U R'")) == []
    terms = terms_words(position("R U R'", ("BL",), "RU"))
    assert any("back left" in term for term in terms)
    assert any("R and U" in term for term in terms)


@pytest.mark.parametrize(
    ("line", "words"),
    [("R U' R'", "Solved in 3: at par"), ("R U' R2 F F' R", "Solved in 3: at par")],
)
def test_the_headline_counts_tidied_turns(line: str, words: str) -> None:
    """What cancels does not count."""
    attempt = begin(position("R U R'"))
    for move in parse_line(line):
        attempt = attempt.turn(move, 0)
    assert verdict_words(score(attempt, 3, 3)) == words


@pytest.mark.parametrize(("par", "words"), [(2, "one over par"), (1, "two over par")])
def test_turns_over_par_are_told(par: int, words: str) -> None:
    """The headline says how many turns over par."""
    attempt = begin(position("R U R'"))
    for move in parse_line("R U' R'"):
        attempt = attempt.turn(move, 0)
    assert words in verdict_words(score(attempt, par, None))


def test_a_mark_that_is_still_searched_is_neither_earned_nor_lost() -> None:
    """Over par and with the hand's par unknown, the second mark is open."""
    attempt = begin(position("R U R'"))
    for move in parse_line("R U' R'"):
        attempt = attempt.turn(move, 0)
    assert [earned for earned, _ in mark_rows(score(attempt, 2, None))] == [True, None, False]
    assert [earned for earned, _ in mark_rows(score(attempt, 2, 3))] == [True, True, False]
    assert [earned for earned, _ in mark_rows(score(attempt, 3, 3))] == [True, True, True]


def test_one_turn_is_singular() -> None:
    """1 turn, 2 turns."""
    assert (turns_words(1), turns_words(2)) == ("1 turn", "2 turns")
