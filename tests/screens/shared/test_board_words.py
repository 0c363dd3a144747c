from __future__ import annotations

import pytest

from game.cube.colours import HOME_COLOURS
from game.cube.cube import SOLVED
from game.cube.geometry import Matrix
from game.cube.moves import parse_line
from game.errors import ForbiddenTurn
from game.play.attempt import begin
from game.play.position import Position, position_after
from game.play.score import score
from game.screens.shared.board_words import (
    forbidden_words,
    goal_words,
    mark_rows,
    par_words,
    terms_words,
    turns_words,
    verdict_words,
)


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


def grip(line: str) -> Matrix:
    return SOLVED.turn(parse_line(line)).grip


@pytest.mark.parametrize(
    ("rotation", "goal", "slot"),
    [
        ("y", "Solve the pair at the front left", "back right"),
        ("y2", "Solve the pair at the back left", "front right"),
        ("x", "Solve the pair at the green-orange slot", "blue-red"),
    ],
)
def test_words_follow_the_grip(rotation: str, goal: str, slot: str) -> None:
    """Slots are named as they are seen; by their colours when the cross is not below."""
    start = position("R U R'", ("BL",), "RU")
    assert goal_words(start, grip(rotation)) == goal
    assert terms_words(start, grip(rotation)) == [
        f"Slot left open: {slot}",
        "Only the orange and yellow faces may turn",
    ]


def test_a_refused_turn_is_told_in_the_grip() -> None:
    """Faces go by their letters as held at the start, by their colours otherwise."""
    fault = ForbiddenTurn("R", "B", "RU")
    assert forbidden_words(fault, grip(""), HOME_COLOURS) == (
        "R turns face B; here only R and U may turn."
    )
    assert forbidden_words(fault, grip("y"), HOME_COLOURS) == (
        "R turns the blue face; here only the orange and yellow faces may turn."
    )
    alone = ForbiddenTurn("R", "B", "U")
    assert forbidden_words(alone, grip("y"), HOME_COLOURS).endswith("the yellow face may turn.")


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


def test_par_with_few_faces_claims_no_more() -> None:
    """Where some faces may not turn, the mark says that it is par with the others."""
    attempt = begin(position("R U R'", (), "RU"))
    for move in parse_line("R U' R'"):
        attempt = attempt.turn(move, 0)
    assert mark_rows(score(attempt, 3, 3), "RU")[2] == (True, "at par: no shorter with these faces")
    assert mark_rows(score(attempt, 3, 3))[2] == (True, "at par: no shorter way at all")


def test_one_turn_is_singular() -> None:
    """1 turn, 2 turns."""
    assert (turns_words(1), turns_words(2)) == ("1 turn", "2 turns")


def test_what_is_known_of_par() -> None:
    """Par itself, a bound as "12+", or a question mark."""
    assert [par_words(13, 12), par_words(None, 12), par_words(None, 0)] == ["13", "12+", "?"]
