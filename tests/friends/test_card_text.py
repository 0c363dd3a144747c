"""A card in words."""

from __future__ import annotations

import pytest

from game.cube.moves import parse_line
from game.errors import ContestError
from game.friends.card_text import card_text, contest_name, summary
from game.friends.codes import Addressed, key, read_card
from game.friends.contest import Card, Contest, Rules
from game.friends.standings import Ranked, proven_turns
from game.play.result import Result
from tests.friends.test_entry import CONTEST, RESULTS

UNSOLVED = Result((), 900, 0, called=False, solved=False)
PARS = (3, 3, 7)
BY_TURNS = Contest("", CONTEST.positions, Rules())


def text_of(contest: Contest, *results: Result, to: str = "") -> list[str]:
    card = Addressed(to or key(contest), Card("Ada", results))
    return card_text(contest, card, PARS).split("\n")


def test_a_card_in_words() -> None:
    """What it is for, what it comes to, each position, and the code that carries all of it."""
    lines = text_of(BY_TURNS, RESULTS[0], UNSOLVED, RESULTS[2])
    assert lines[:3] == [
        "A contest of three positions",
        "Ada: 2 of 3 solved, all at par, 6.00",
        "par  -  par",
    ]
    assert read_card(lines[3]).card.results[1] == UNSOLVED


def test_time_comes_first_where_it_counts() -> None:
    """By time the time is told before the turns."""
    assert text_of(CONTEST, *RESULTS)[:2] == ["Three", "Ada: 3 of 3 solved, 9.00, all at par"]


def test_turns_over_par() -> None:
    """Each position has its turns over par beside the others."""
    card = Addressed(key(BY_TURNS), Card("Ada", RESULTS))
    assert card_text(BY_TURNS, card, (3, 1, None)).split("\n")[2] == "par  +2  7"


@pytest.mark.parametrize(
    ("pars", "told"),
    [
        ((3, 3, 7), "3 of 3 solved, all at par, 9.00"),
        ((2, 3, 6), "3 of 3 solved, 2 over par, 9.00"),
        ((None, 3, 7), "3 of 3 solved, 13 turns, 9.00"),
    ],
)
def test_a_summary(pars: tuple[int | None, ...], told: str) -> None:
    """Against par where all pars are known, else in turns."""
    card = Card("Ada", RESULTS)
    row = Ranked(1, card, proven_turns(BY_TURNS, card), namesake=False)
    assert summary(row, BY_TURNS, pars) == told


def test_what_does_not_hold_has_no_words() -> None:
    """A card that claims more than its lines do is refused."""
    wrong = Result(parse_line("R"), 1, 1, called=False, solved=True)
    with pytest.raises(ContestError, match="does not solve position 1"):
        text_of(CONTEST, wrong, wrong, wrong)


def test_names_are_shown_safely() -> None:
    """A title that would turn the direction of the text, or move the cursor, does neither."""
    contest = Contest("\x1b[2J\u202eevil\n", CONTEST.positions)
    assert contest_name(contest).isprintable()


def test_a_days_card_says_so() -> None:
    """It is called by its date, not by the title that nobody chose."""
    assert text_of(CONTEST, *RESULTS, to="2026-11-25")[0] == "The day's five, 2026-11-25"
