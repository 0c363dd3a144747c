"""The line that the first puzzles say."""

from __future__ import annotations

from game.coach.prompt import LONG_WAIT_MS, WAIT_MS, key_words, prompt
from game.cube.moves import MOVES, parse_line
from game.play.attempt import begin
from game.play.position import position_after

SHORT = parse_line("R U R'")
START = position_after(parse_line("R U' R'"))


def said(turns: str, waited_ms: int = 0) -> str:
    """The line after these turns and a wait."""
    attempt = begin(START)
    for move in parse_line(turns):
        attempt = attempt.turn(move, 0)
    return prompt(attempt, [SHORT], waited_ms)


def test_the_aim_comes_first() -> None:
    """Before any turn the line says what is asked, and no turn."""
    assert said("") == "Bring corner and edge home, to the front right."


def test_waiting_tells_one_turn_then_all() -> None:
    """A wait brings the next turn as a key, a long wait brings the rest."""
    assert said("", WAIT_MS) == "Try r."
    assert said("", LONG_WAIT_MS) == "Press r, then u, then Shift+r."


def test_on_the_way() -> None:
    """After a right turn the help starts from there."""
    assert said("R") == "Good so far."
    assert said("R", WAIT_MS) == "Try u."
    assert said("R U", WAIT_MS) == "Try Shift+r."


def test_half_way_through_a_half_turn() -> None:
    """One of two presses of a half turn is on its way; the press that is missing is told."""
    position = position_after(parse_line("R U2 R'"))
    attempt = begin(position).turn(MOVES["R"], 0).turn(MOVES["U"], 0)
    assert prompt(attempt, [parse_line("R U2 R'")], WAIT_MS) == "Try u."


def test_a_turn_undone_by_hand_is_no_turn() -> None:
    """A turn and its inverse leave the prompt where it was: the line is tidied first."""
    assert said("F F'") == said("")


def test_astray() -> None:
    """After a turn that no shortest way makes, the line tells how to take it back."""
    assert said("F") == "Backspace takes a turn back; that is free."
    assert said("F", LONG_WAIT_MS) == said("F")


def test_in_another_grip_the_keys_follow() -> None:
    """With the cube turned round, the key is that of the face at the same hand."""
    assert said("y", WAIT_MS) == "Try f."


def test_the_aim_follows_the_grip() -> None:
    """The slot is named as it is seen; where nothing is at the front right, it is not placed."""
    assert said("y") == "Bring corner and edge home, to the front left."
    assert said("x") == "Bring corner and edge home, to their slot."


def test_solved_says_nothing() -> None:
    """A solved attempt needs no prompt."""
    assert said("R U R'") == ""


def test_before_solutions_are_known() -> None:
    """Without solutions only the aim is said, and how to go back."""
    attempt = begin(START)
    assert prompt(attempt, [], LONG_WAIT_MS) == said("")
    assert "Backspace" in prompt(attempt.turn(MOVES["R"], 0), [], 0)


def test_two_pairs() -> None:
    """With two pairs in play the aim names no place."""
    attempt = begin(position_after(parse_line("R U R' L' U' L")))
    assert prompt(attempt, [], 0) == "Bring each corner and its edge home."


def test_every_line_fits() -> None:
    """No line is longer than the narrowest window that can be played in."""
    lines = [said(turns, wait) for turns in ("", "R", "F") for wait in (0, WAIT_MS, LONG_WAIT_MS)]
    assert max(map(len, lines)) <= 58


def test_keys_of_turns() -> None:
    """A half turn is the key pressed twice."""
    assert [key_words(MOVES[name]) for name in ("U", "U'", "U2")] == ["u", "Shift+u", "u twice"]
