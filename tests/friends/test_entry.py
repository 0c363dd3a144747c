"""A contest as far as one player has played it."""

from __future__ import annotations

import json
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.line import inverse
from game.cube.moves import parse_line
from game.errors import ContestError
from game.friends.codes import key
from game.friends.contest import TIME, Contest, Rules
from game.friends.day import day
from game.friends.entry import LONGEST, ContestProgress, ContestTry, progress_of, progress_text
from game.play.position import position_after
from game.play.result import Result

LINES = tuple(map(parse_line, ("R U R'", "L' U' L", "R U2 R' U' R U R'")))
CONTEST = Contest("Three", tuple(position_after(inverse(line)) for line in LINES), Rules(TIME))
RESULTS = tuple(Result(line, 100, 200, called=False, solved=True) for line in LINES)
TRIES = tuple(ContestTry(p.text, r) for p, r in zip(CONTEST.positions, RESULTS, strict=True))


def after(count: int) -> ContestProgress:
    """So many positions played."""
    entered = ContestProgress(CONTEST)
    for result in RESULTS[:count]:
        entered = entered.after(result)
    return entered


@pytest.mark.parametrize("count", range(4))
def test_positions_are_played_in_order(count: int) -> None:
    """It is over after the last, and only then is there a card."""
    entered = after(count)
    assert (entered.number, entered.is_finished) == (count, count == 3)
    if count < 3:
        assert entered.own_card("Ada") == ()
        with pytest.raises(ContestError, match="to its end"):
            entered.card("Ada")
    else:
        addressed = entered.card("Ada")
        assert (addressed.to, addressed.card.results) == (key(CONTEST), RESULTS)
        assert entered.own_card("Ada") == (addressed.card,)


def test_nothing_comes_after_the_end() -> None:
    """There are no more results than positions."""
    with pytest.raises(ContestError, match="more results"):
        after(3).after(RESULTS[0])


def test_a_days_card_names_the_date() -> None:
    """It needs no invite."""
    five = day(date(2026, 11, 25))
    result = Result((), 5, 5, called=False, solved=False)
    entered = ContestProgress(five, "2026-11-25", (result,) * 5)
    assert entered.kind == entered.card("Ada").to == entered.card("Ada").day == "2026-11-25"


def test_the_clock_runs_on() -> None:
    """From the first showing, whatever is shown again; anew for the next position."""
    entered = after(1)
    assert entered.gone(5000) == 0
    begun = entered.beginning(1000).beginning(1100)
    assert begun.gone(1060) == 60
    assert begun.gone(900) == 0  # the computer's clock was put back
    assert begun.gone(10**9) == LONGEST
    assert begun.after(RESULTS[1]).gone(5000) == 0


@given(st.integers(0, 3), st.none() | st.integers(0, 2**40))
def test_what_is_kept_makes_the_same_again(count: int, begun: int | None) -> None:
    """The text and the attempts give back how far it is played, and when the next was shown."""
    entered = after(count)
    if begun is not None and not entered.is_finished:
        entered = entered.beginning(begun)
    assert progress_of(progress_text(entered), TRIES[:count]) == entered


def test_a_position_that_ended_is_no_longer_begun() -> None:
    """The text may be older than the last attempt: a kill can come between the two."""
    text = progress_text(after(1).beginning(1000))
    assert progress_of(text, TRIES[:2]) == after(2)


def test_attempts_that_do_not_follow_are_passed_over() -> None:
    """A position that was tried twice counts once, and one that comes too early not at all."""
    text = progress_text(ContestProgress(CONTEST))
    assert progress_of(text, [TRIES[0], TRIES[0], TRIES[2], TRIES[1]]) == after(2)


def changed(**fields: object) -> str:
    return json.dumps({**json.loads(progress_text(ContestProgress(CONTEST))), **fields})


@pytest.mark.parametrize(
    "text",
    [
        "",
        "null",
        "[]",
        "{}",
        "[" * 100_000,
        changed(format=2),
        changed(invite="EPAIR"),
        changed(invite=5),
        changed(day="2026-02-30"),
        changed(day=5),
        changed(begun=[0]),
        changed(begun=[0, -1]),
        changed(begun=[0, 2**41]),
        changed(begun=["0", 1]),
        changed(begun=[0, True]),
        changed(begun="0"),
    ],
)
def test_any_other_text_is_refused(text: str) -> None:
    """In one line, whatever it is."""
    with pytest.raises(ContestError) as told:
        progress_of(text)
    assert "\n" not in str(told.value)


def test_two_contests_that_differ_are_of_two_kinds() -> None:
    """The title counts too."""
    other = Contest("Other", CONTEST.positions, CONTEST.rules)
    assert ContestProgress(other).kind != ContestProgress(CONTEST).kind
