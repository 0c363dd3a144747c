"""What is kept of a match, and found again."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from game.cube.moves import parse_line
from game.friends.contest import Contest
from game.friends.match import Match, begin_match, match_text
from game.play.position import position_after
from game.records import MATCH, Record
from game.screens.match import keeping as match_keeping
from tests.screens.conftest import Game, Start

DOOR = position_after(parse_line("R U R'"))
SOLVES = ((900, "R"), (1000, "U'"), (1239, "R'"))


def begun(*names: str) -> Match:
    return begin_match(Contest("The door", (DOOR,)), names)


def keep(game: Game, run: int, player: str, events: tuple[tuple[int, str], ...] = SOLVES) -> None:
    """An attempt at the door that is over."""
    solved = events == SOLVES
    game.app.records.add(
        Record(
            position=DOOR.text, puzzle="", events=events, outcome="solved" if solved else "gave up",
            turns=3, executed=3, par=3, at_hand=None, began=datetime.now(UTC), version="1",
            seeing_ms=900, doing_ms=339 if solved else None, mode=MATCH, run=str(run),
            player=player,
        )
    )  # fmt: skip


async def test_results_are_those_of_the_attempts(start: Start) -> None:
    """The line and the times of a result follow from the attempt, cut to hundredths."""
    async with start() as game:
        number = match_keeping.begin(game.app, begun("Ada", "Bo"))
        assert number is not None
        keep(game, number, "Ada")
        ((_, match),) = match_keeping.open_matches(game.app)
        (result,) = match.players[0].results
        assert result.line == parse_line("R U' R'")
        assert (result.seeing, result.doing, result.solved) == (90, 33, True)
        assert match.next == 1


async def test_over_but_not_ended(start: Start) -> None:
    """A match whose last attempt was kept before a kill is ended when it is looked for."""
    async with start() as game:
        number = match_keeping.begin(game.app, begun("Ada", "Bo"))
        assert number is not None
        keep(game, number, "Ada", ((5, "U"),))
        keep(game, number, "Bo")
        assert match_keeping.open_matches(game.app) == ()
        assert game.app.records.open_runs() == ()
        assert match_keeping.last_names(game.app) == ("Ada", "Bo")


@pytest.mark.parametrize("text", ["", "{}", "[" * 9000, match_text(begun("Ada", "Bo"))[:-9]])
async def test_a_match_that_cannot_be_read_is_left_out(start: Start, text: str) -> None:
    """Beside one whose text is damaged, the others are found."""
    async with start() as game:
        match_keeping.begin(game.app, begun("Ada", "Bo"))
        game.app.records.begin_run(MATCH, "", text)
        game.app.records.begin_run("dash", "", text)
        assert [len(match.players) for _, match in match_keeping.open_matches(game.app)] == [2]


async def test_whoever_left_is_kept(start: Start) -> None:
    """A player who leaves has left for good; when the last does, the match is ended."""
    async with start() as game:
        match = begun("Ada", "Bo")
        number = match_keeping.begin(game.app, match)
        match_keeping.amend(game.app, number, match.without(1))
        ((_, found),) = match_keeping.open_matches(game.app)
        assert found == match.without(1)
        match_keeping.amend(game.app, number, match.without(1).without(0))
        assert match_keeping.open_matches(game.app) == ()


async def test_without_a_number_nothing_is_kept(start: Start) -> None:
    """A match that could not be kept is not amended, and nothing is written."""
    async with start() as game:
        match_keeping.amend(game.app, None, begun("Ada", "Bo").without(0))
        match_keeping.end(game.app, None)
        assert not game.app.has_records
        assert match_keeping.open_matches(game.app) == ()
        assert match_keeping.last_names(game.app) == ()
