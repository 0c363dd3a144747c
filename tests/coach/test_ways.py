"""Questions of a shorter way, and what a search makes of them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given

from game.coach.ways import Way, is_by_pairs, pairs_words, sides_of, way_words, ways
from game.cube import symmetry
from game.cube.line import inverse
from game.cube.moves import parse_line
from game.cube.pair import SLOTS
from game.packs.difficulty import Find
from game.play.position import Position, position_after
from game.search.outcome import NoneUpTo, Outcome, Solved, Stopped, Unsolvable
from game.search.pair_by_pair import PairByPair
from tests import strategies

HOOK = position_after(inverse(parse_line("R B U2 B' R'")))


def asked(position: Position) -> list[tuple[str, str]]:
    """Each question with its faces."""
    return [(way.label, way.faces) for way in ways(position)]


def test_sides_as_seen_from_the_edge() -> None:
    """Worked out with a cube in the hands: the slot's edge towards the eyes, the top above."""
    assert [sides_of(slot) for slot in SLOTS] == [("F", "R"), ("L", "F"), ("B", "L"), ("R", "B")]


@pytest.mark.parametrize("slot", SLOTS)
def test_sides_follow_a_rotation_and_change_hands_in_a_mirror(slot: str) -> None:
    """Turned round a slot keeps its hands; a mirror exchanges them."""
    left, right = sides_of("FR")
    turn, mirror = symmetry.to_slot(slot), symmetry.twin("diagonal", slot)
    assert sides_of(slot) == tuple(symmetry.face_image(face, turn) for face in (left, right))
    left, right = sides_of(slot)
    assert symmetry.face_image(left, mirror) == right


def test_the_questions_of_one_pair() -> None:
    """All faces, both sides of the slot, and each of them alone, with the top."""
    assert asked(HOOK) == [
        ("in any way", "FBRLUD"),
        ("on both sides", "FRU"),
        ("on the right side", "RU"),
        ("on the left side", "FU"),
    ]


def test_only_faces_that_may_turn_are_asked_of() -> None:
    """Where two faces are allowed, what they leave of the other questions is asked."""
    position = position_after(parse_line("R U R' U'"), faces="RU")
    assert asked(position) == [("in any way", "RU"), ("on the left side", "U")]


@given(strategies.positions())
def test_no_question_is_asked_twice(position: Position) -> None:
    """The faces of the questions differ, and the first has all that may turn."""
    faces = [way.faces for way in ways(position)]
    assert len(set(faces)) == len(faces)
    assert faces[0] == position.faces
    assert all(set(each) <= set(position.faces) and each for each in faces)


def test_limits_are_told() -> None:
    """A fact without its faces would be false."""
    assert [way.limits for way in ways(HOOK)] == [
        "any face",
        "only F, R and U",
        "only R and U",
        "only F and U",
    ]
    assert Way("in any way", "R").limits == "only R"


def test_the_facts_of_the_hook(find: Find) -> None:
    """Par is five in one way; the hands need seven; the left side alone cannot (computed)."""
    found = [way_words(find(HOOK.cube, HOOK.solve, way.faces)) for way in ways(HOOK)]
    assert found == ["5 turns, 1 way", "7 turns, 3 ways", "7 turns, 1 way", "impossible"]


@pytest.mark.parametrize(
    ("outcome", "words"),
    [
        (None, "being searched"),
        (Solved(1, (parse_line("R"),), complete=True), "1 turn, 1 way"),
        (Solved(2, (parse_line("R U"),), complete=False), "2 turns, at least 1 way"),
        (Unsolvable("the corner cannot be turned"), "impossible"),
        (NoneUpTo(20), "none of up to 20 turns"),
        (Stopped(7), "none under 7 turns; stopped there"),
    ],
)
def test_no_more_is_said_than_was_proven(outcome: Outcome | None, words: str) -> None:
    """Each outcome of a search has its own words."""
    assert way_words(outcome) == words


def test_pair_by_pair_in_words() -> None:
    """The best total and its order, beside par where that is known."""
    found = PairByPair(27, ("FR", "BL", "FL", "BR"), ((), (), (), ()), ())
    told = "solved pairs kept: 27 turns, order FR, BL, FL, BR"
    assert pairs_words(found, 14) == f"Pair by pair, {told}; all at once: 14"
    assert pairs_words(found, None) == f"Pair by pair, {told}"
    crossed = replace(found, cross=parse_line("F2"))
    assert pairs_words(crossed, None) == f"Cross first, then pair by pair, {told}"


def test_where_there_is_a_total_pair_by_pair() -> None:
    """Only where two pairs or more are in play and every face may turn."""
    two = "F U F2 U F"
    asked = [("R U R'", "FBRLUD"), (two, "FBRLUD"), (two, "FU")]
    found = [is_by_pairs(position_after(parse_line(setup), (), f)) for setup, f in asked]
    assert found == [False, True, False]
