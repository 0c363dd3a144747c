"""Cards replayed and ranked."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from game.cube.line import Line, inverse, obtm, tidy
from game.cube.moves import line_text, parse_line
from game.errors import ContestError
from game.friends.contest import Card, Contest, Rules
from game.friends.standings import Ranked, proven_turns, standings
from game.play.inspection import PENALTY
from game.play.position import position_after
from game.play.result import Result
from tests.strategies import lines

SETUPS = ("R U R'", "F' U2 F", "R U R' U'")
PARS = (3, 3, 4)
CONTEST = Contest("Tea", tuple(position_after(parse_line(setup)) for setup in SETUPS))
BY_TIME = replace(CONTEST, rules=Rules("time"))
SHORTEST = ("R U' R'", "F' U2 F", "U R U' R'")
LONGER = ("R2 U2 " * 6 + SHORTEST[0], *SHORTEST[1:])
"""(R2 U2)6 changes nothing, so it is twelve turns more."""


def result(line: str, time: int = 100, called: bool = False, solved: bool = True) -> Result:
    return Result(parse_line(line), time, time, called, solved)


def card(name: str, *written: str, time: int = 100, called: bool = False) -> Card:
    """A card with these lines; "-" for a position that was not solved."""
    results = (
        Result((), time, time, False, False) if line == "-" else result(line, time, called)
        for line in written
    )
    return Card(name, tuple(results))


def ranks(contest: Contest, *cards: Card) -> list[tuple[int, str]]:
    return [(row.rank, row.card.name) for row in standings(contest, cards).rows]


def test_turns_are_those_of_the_replay() -> None:
    """A row has the turns of each position, none where it was not solved, and their sum."""
    (row,) = standings(CONTEST, [card("Ada", SHORTEST[0], "-", SHORTEST[2])]).rows
    assert row.turns == (3, None, 4)
    assert (row.solved, row.all_turns, row.time) == (2, 7, 400)


def test_more_solved_comes_first_then_turns_then_time() -> None:
    """Whatever the turns, who solved more is ahead; of equals who turned less, then the quicker."""
    cards = (
        card("one", "-", "-", SHORTEST[2], time=1),
        card("long", *LONGER, time=2),
        card("slow", *SHORTEST, time=900),
        card("quick", *SHORTEST, time=800),
    )
    assert ranks(CONTEST, *cards) == [(1, "quick"), (2, "slow"), (3, "long"), (4, "one")]


def test_by_time_turns_do_not_count() -> None:
    """By time, who was quicker is ahead, with more turns too; equal times tie."""
    cards = (
        card("one", "-", "-", SHORTEST[2], time=1),
        card("long", *LONGER, time=2),
        card("slow", *SHORTEST, time=900),
        card("same", *LONGER, time=900),
    )
    assert ranks(BY_TIME, *cards) == [(1, "long"), (2, "same"), (2, "slow"), (4, "one")]


def test_ties_share_a_rank() -> None:
    """Two equal first cards are both first, the next is third; by name among themselves."""
    cards = [card(name, *SHORTEST) for name in ("Cy", "Ada")] + [card("Bo", *SHORTEST, time=101)]
    assert ranks(CONTEST, *cards) == [(1, "Ada"), (1, "Cy"), (3, "Bo")]


def test_the_same_card_counts_once_and_a_namesake_is_marked() -> None:
    """An equal card is no other; two different ones of one name are both listed and marked."""
    one, other = card("Ada", *SHORTEST), card("ADA\u200b", *SHORTEST, time=5)
    rows = standings(CONTEST, [one, card("Bo", *SHORTEST), one, other]).rows
    assert [(row.card.name, row.namesake) for row in rows] == [
        ("ADA\u200b", True),
        ("Ada", True),
        ("Bo", False),
    ]


@pytest.mark.parametrize(
    ("bad", "reason"),
    [
        (card("x", *SHORTEST[:2]), "counts two results where there are three positions"),
        (card("x", *SHORTEST, "R"), "counts four results where there are three positions"),
        (card("x", "R U R'", *SHORTEST[1:]), "does not solve position 1 by the three moves it"),
        (card("x", SHORTEST[0], *SHORTEST[::2]), "does not solve position 2 by the three moves"),
        (
            card("x", *SHORTEST[:2], SHORTEST[2] + " y"),
            "solves position 3 by four moves and yet goes on",
        ),
        (
            Card("x", (replace(result(SHORTEST[0]), inspection=PENALTY),) * 3),
            "counts seconds for inspection, which this contest does not have",
        ),
    ],
)
def test_a_card_that_does_not_hold_is_refused_with_the_reason(bad: Card, reason: str) -> None:
    """It is listed, not ranked, and changes nothing for the others."""
    good = card("good", *SHORTEST)
    found = standings(CONTEST, [bad, good])
    assert [row.card for row in found.rows] == [good]
    ((refused, why),) = [(r.card, r.reason) for r in found.refused]
    assert refused == bad and why.startswith(reason)


def test_a_forbidden_face_is_refused() -> None:
    """A card that turns a face which may not turn is not ranked, even if that is undone."""
    only = Contest("", (position_after(parse_line("R U R'"), faces="RU"),))
    assert ranks(only, card("Ada", "R U' R'")) == [(1, "Ada")]
    (refused,) = standings(only, [card("Bo", "L L' R U' R'")]).refused
    assert refused.reason.startswith("breaks the rules of position 1: L turns face L")


def test_seconds_for_inspection_count_where_there_is_inspection() -> None:
    """With inspection in the rules they are part of the time."""
    inspected = Contest("", CONTEST.positions[:1], Rules(inspection=True))
    late = Card("Ada", (replace(result(SHORTEST[0]), inspection=PENALTY),))
    (row,) = standings(inspected, [late]).rows
    assert row.time == 400


@given(lines(12))
def test_a_line_of_any_moves_is_replayed_as_it_was_made(line: Line) -> None:
    """Wide turns, slices and rotations: the turns are those of the line, tidied and counted."""
    position = position_after(inverse(tidy(line).turns), view="full")
    at = [n for n in range(len(line) + 1) if position.is_goal(position.cube.turn(line[:n]))]
    assume(at[0] > 0)
    first = line[: at[0]]
    one = Card("Ada", (Result(first, 0, 0, False, True),))
    assert proven_turns(Contest("", (position,)), one) == (obtm(first),), line_text(first)


@given(st.permutations([card(n, *SHORTEST, time=t) for n, t in (("a", 1), ("b", 2), ("c", 2))]))
def test_the_order_of_the_chat_does_not_matter(cards: list[Card]) -> None:
    """The same cards in any order have the same standings."""
    assert ranks(CONTEST, *cards) == [(1, "a"), (2, "b"), (2, "c")]


def test_calls_are_right_at_par() -> None:
    """Everybody who called a line at par has the credit; a call over par is none."""
    row = Ranked(1, card("Ada", *SHORTEST, called=True), (3, 4, 4), namesake=False)
    assert (row.calls, row.right_calls(PARS)) == (3, 2)
    assert row.right_calls((3, None, 4)) == 2


def test_over_par_is_of_the_positions_solved() -> None:
    """Turns less par, where it is known of all that were solved."""
    row = Ranked(1, card("Ada", SHORTEST[0], "-", SHORTEST[2]), (5, None, 4), namesake=False)
    assert row.over(PARS) == 2
    assert row.over((3, None, 4)) == 2
    assert row.over((None, 3, 4)) is None


def test_a_card_for_no_solution_is_ranked_last() -> None:
    """Nothing solved is no fault: it has a rank, no turns and no time."""
    found = standings(CONTEST, [card("Bo", "-", "-", "-"), card("Ada", *SHORTEST)]).rows
    assert [(row.rank, row.solved, row.time) for row in found] == [(1, 3, 600), (2, 0, 0)]


def test_proven_turns_say_why_not() -> None:
    """The reason is the error's one line."""
    with pytest.raises(ContestError, match=r"^counts one result where there are three positions$"):
        proven_turns(CONTEST, card("x", SHORTEST[0]))
