"""What is shown of a contest as text."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from game.deal.joined_days import Played
from game.friends.entry import ContestProgress
from game.play.result import Result
from game.screens.contests import rows as contest_rows
from game.screens.contests.rows import JOINED, LEGEND, MISSED, OPEN
from tests.screens.friends import CONTEST, LEFT, RIGHT, TIMED, card, result

TODAY = date(2026, 11, 25)
UNSOLVED = Result((), 900, 0, called=False, solved=False)


def rows(entered: ContestProgress, *pars: int | None) -> list[str]:
    """The rows, blanks run together."""
    return [" ".join(row.plain.split()) for row in contest_rows.rows(entered, pars)]


def test_rows_of_what_is_played() -> None:
    """Turns, turns over par, calls and times; what was not solved says so."""
    called = result(RIGHT, called=True)
    over = ContestProgress(CONTEST, "", (called, UNSOLVED))
    assert rows(over, 2, 3) == ["1 3 +1 called 2.00 1.50 3.50", "2 not solved"]
    assert rows(over, 3, None)[0] == "1 3 par called 2.00 1.50 3.50"
    assert rows(over, None, None)[0] == "1 3 par ? called 2.00 1.50 3.50"


def test_rows_of_what_is_to_come() -> None:
    """The next one, begun or not; of the others nothing but the number."""
    assert rows(ContestProgress(CONTEST), None, None) == ["1 to play", "2"]
    begun = ContestProgress(CONTEST).beginning(1000)
    assert rows(begun, None, None) == ["1 begun; its clock runs on", "2"]


def test_headings_stand_over_their_columns() -> None:
    """The end of each time's heading is the end of its column."""
    head = contest_rows.head().plain
    (row, *_) = contest_rows.rows(ContestProgress(CONTEST, "", (result(RIGHT),)), (3, None))
    for name, time in (("seeing", "2.00"), ("doing", "1.50"), ("time", "3.50")):
        assert head.index(name) + len(name) == 2 + row.plain.index(time) + len(time)


def test_words_at_the_end() -> None:
    """What it comes to, and how many cards were pasted."""
    entered = ContestProgress(CONTEST, "", (result(RIGHT), result(LEFT)))
    words = contest_rows.words(entered, (3, 3), 2).plain
    assert words.startswith("2 of 2 solved, all at par, 7.00.")
    assert words.endswith("Two cards pasted.")


def test_rules_in_words() -> None:
    """How many, what ranks, and inspection."""
    assert contest_rows.rules_words(CONTEST) == "two positions, by turns, then time"
    assert contest_rows.rules_words(TIMED) == "two positions, by time, inspection"


def test_a_par_that_is_searched_is_told() -> None:
    """The sign in the table is explained while the search goes on."""
    entered = ContestProgress(CONTEST, "", (result(RIGHT),))
    assert contest_rows.words(entered, (None, None), 0, searches=True).plain.endswith(
        "par ?: it is being searched."
    )
    assert "searched" not in contest_rows.words(entered, (3, None), 0).plain


def test_rules_leave_room_for_the_name() -> None:
    """In a narrow window they are short, and where the name needs all there are none."""
    assert contest_rows.aside("Tea", TIMED, 60) == contest_rows.rules_words(TIMED)
    assert contest_rows.aside("Tea at four with everybody", TIMED, 50) == "by time"
    assert contest_rows.aside("x" * 55, TIMED, 60) == ""


@pytest.mark.parametrize(
    ("away", "told"),
    [
        (0, "Wednesday 25 November 2026, today"),
        (1, "Tuesday 24 November 2026, yesterday"),
        (2, "Monday 23 November 2026"),
    ],
)
def test_dates_in_words(away: int, told: str) -> None:
    """The days of the week are those of the calendar."""
    assert contest_rows.date_words(TODAY - timedelta(away), TODAY) == told


def test_the_row_of_days() -> None:
    """Days that count stand without a gap; today is open until it is played."""
    today = TODAY.toordinal()
    before = [Played(today - away, today - away) for away in (1, 2, 4)]
    told = contest_rows.joined_words(before, TODAY).plain
    assert f"{JOINED}{MISSED}{JOINED}{JOINED}{OPEN}  2 days joined\n" in told
    assert told.endswith(LEGEND)
    played = contest_rows.joined_words([*before, Played(today, today)], TODAY).plain
    assert f"{JOINED}{JOINED}{JOINED}  3 days joined\n" in played
    later = contest_rows.joined_words(before, TODAY + timedelta(9)).plain
    assert "0 days joined, once 2\n" in later
    assert "0 days joined\n" in contest_rows.joined_words([], TODAY).plain


def test_pages_of_lines() -> None:
    """A page a position, everybody's line on it."""
    pages = contest_rows.pages(ContestProgress(CONTEST), (card("Ada"), card("Bo")))
    assert [page.title for page in pages] == ["Position 1 of 2", "Position 2 of 2"]
    assert [[entry.name for entry in page.entries] for page in pages] == [["Ada", "Bo"]] * 2
    assert pages[1].entries[0].line == LEFT
