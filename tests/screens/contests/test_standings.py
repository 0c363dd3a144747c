"""The standings on the screen."""

from __future__ import annotations

from dataclasses import replace

import pytest

from game.cube.moves import parse_line
from game.friends.contest import Card, Contest, Rules
from game.friends.entry import ContestProgress
from game.friends.standings import standings
from game.play.result import Result
from game.screens.contests.standings import StandingsScreen, head, table
from tests.screens.conftest import Start
from tests.screens.friends import CONTEST, LEFT, RIGHT, TIMED, card, result

SLOW = card("Slow", seeing=5000)
LONG = Card("Long", (result(parse_line("U U R U R'")), result(LEFT)))
HALF = Card("Half", (result(RIGHT), Result((), 100, 0, called=False, solved=False)))
WRONG = Card("Wrong", (result(parse_line("U R")), result(LEFT)))
PARS = (3, 3)


def rows(contest: Contest, *cards: Card, pars: tuple[int | None, ...] = PARS) -> list[str]:
    made = standings(contest, cards)
    return [" ".join(row.split()) for row in table(made, pars, 80).plain.split("\n")]


def test_the_ranking_by_turns() -> None:
    """Positions solved first, then turns over par, then time."""
    longer = Card("Long", (result(parse_line("U U' R U R'")), result(parse_line("L' U' L"))))
    told = rows(CONTEST, HALF, SLOW, card("Fast"), longer)
    assert told[0].startswith("1 Fast 2 of 2 6 par 7.00")
    assert told[1].startswith("1 Long 2 of 2 6 par 7.00")
    assert told[2].startswith("3 Slow 2 of 2 6 par 55.00")
    assert told[3].startswith("4 Half 1 of 2 3 par 3.50")


def test_who_solved_nothing_has_no_turns_and_no_time() -> None:
    """Neither is nought, which would be the best there is."""
    gave_up = Result((), 100, 0, called=False, solved=False)
    assert rows(CONTEST, Card("None", (gave_up, gave_up))) == ["1 None 0 of 2 - -"]


def test_the_ranking_by_time_tells_time_first() -> None:
    """The heading and the rows have the columns in that order."""
    made = standings(replace(TIMED, rules=Rules("time")), [card("Ada")])
    assert head(made, 80).plain.split() == ["player", "solved", "time", "turns", "called"]
    assert table(made, PARS, 80).plain.split() == ["1", "Ada", "2", "of", "2", "7.00", "6", "par"]


@pytest.mark.parametrize(
    ("pars", "told"), [((3, 3), "1 right"), ((2, 3), "0 of 1"), ((None, 3), "1")]
)
def test_calls(pars: tuple[int | None, ...], told: str) -> None:
    """How many were right; how many there were, while a par is not known."""
    assert rows(CONTEST, card("Ada", called=True), pars=pars)[0].endswith(told)


def test_what_is_not_ranked_has_its_reason() -> None:
    """A card that does not solve stands below, in words."""
    told = rows(CONTEST, card("Ada"), WRONG)
    assert told[-2:] == ["Not ranked", "Wrong does not solve position 1 by the two moves it claims"]


def test_two_of_one_name_are_told_apart() -> None:
    """That another card has the same name is said under both."""
    assert (
        rows(CONTEST, card("Ada"), SLOW, card("ada", seeing=300)).count(
            "another card has this name"
        )
        == 2
    )


def test_no_row_is_wider_than_the_window() -> None:
    """A long name is cut, in letters of any width."""
    made = standings(CONTEST, [card("李" * 40), card("x" * 120)])
    assert all(row.cell_length <= 58 for row in table(made, PARS, 58).split("\n"))


async def test_the_screen_replays_and_ranks(start: Start) -> None:
    """Turns against par come as soon as the search has them; what is proven is said."""
    async with start() as game:
        await game.app.push_screen(StandingsScreen(ContestProgress(CONTEST), (card("Ada"), SLOW)))
        await game.until(lambda: game.says("1 Ada 2 of 2 6 par 7.00"))
        assert game.says("Turns are proven by replay; times are the players' word.")


async def test_without_cards(start: Start) -> None:
    """What to do is said."""
    async with start() as game:
        await game.app.push_screen(StandingsScreen(ContestProgress(CONTEST), ()))
        await game.until(lambda: game.says("No card yet: paste the chat"))
