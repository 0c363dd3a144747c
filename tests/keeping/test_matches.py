"""What is kept of a match, and found again."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from game.cube.moves import parse_line
from game.friends.contest import Contest
from game.friends.match import Match, begin_match, match_text
from game.keeping import matches
from game.keeping.keeper import Keeper
from game.modes import MATCH
from game.play.position import position_after
from game.records import Record

DOOR = position_after(parse_line("R U R'"))
SOLVES = ((900, "R"), (1000, "U'"), (1239, "R'"))


def begun(*names: str) -> Match:
    return begin_match(Contest("The door", (DOOR,)), names)


def keep(
    keeper: Keeper, run: int, player: str, events: tuple[tuple[int, str], ...] = SOLVES
) -> None:
    """An attempt at the door that is over."""
    solved = events == SOLVES
    keeper.records.add(
        Record(
            position=DOOR.text, puzzle="", events=events, outcome="solved" if solved else "gave up",
            turns=3, executed=3, par=3, at_hand=None, began=datetime.now(UTC), version="1",
            seeing_ms=900, doing_ms=339 if solved else None, mode=MATCH, run=str(run),
            player=player,
        )
    )  # fmt: skip


def test_results_are_those_of_the_attempts(keeper: Keeper) -> None:
    """The line and the times of a result follow from the attempt, cut to hundredths."""
    number = matches.begin(keeper, begun("Ada", "Bo"))
    assert number is not None
    keep(keeper, number, "Ada")
    ((_, match),) = matches.open_matches(keeper)
    (result,) = match.players[0].results
    assert result.line == parse_line("R U' R'")
    assert (result.seeing, result.doing, result.solved) == (90, 33, True)
    assert match.next == 1


def test_over_but_not_ended(keeper: Keeper) -> None:
    """A match whose last attempt was kept before a kill is ended when it is looked for."""
    number = matches.begin(keeper, begun("Ada", "Bo"))
    assert number is not None
    keep(keeper, number, "Ada", ((5, "U"),))
    keep(keeper, number, "Bo")
    assert matches.open_matches(keeper) == ()
    assert keeper.records.open_runs() == ()
    assert matches.last_names(keeper) == ("Ada", "Bo")


@pytest.mark.parametrize("text", ["", "{}", "[" * 9000, match_text(begun("Ada", "Bo"))[:-9]])
def test_a_match_that_cannot_be_read_is_left_out(keeper: Keeper, text: str) -> None:
    """Beside one whose text is damaged, the others are found."""
    matches.begin(keeper, begun("Ada", "Bo"))
    keeper.records.begin_run(MATCH, "", text)
    keeper.records.begin_run("dash", "", text)
    assert [len(match.players) for _, match in matches.open_matches(keeper)] == [2]


def test_whoever_left_is_kept(keeper: Keeper) -> None:
    """A player who leaves has left for good; when the last does, the match is ended."""
    match = begun("Ada", "Bo")
    number = matches.begin(keeper, match)
    matches.amend(keeper, number, match.without(1))
    ((_, found),) = matches.open_matches(keeper)
    assert found == match.without(1)
    matches.amend(keeper, number, match.without(1).without(0))
    assert matches.open_matches(keeper) == ()


def test_without_a_number_nothing_is_kept(keeper: Keeper) -> None:
    """A match that could not be kept is not amended, and nothing is written."""
    matches.amend(keeper, None, begun("Ada", "Bo").without(0))
    matches.end(keeper, None)
    assert not keeper.has_records
    assert matches.open_matches(keeper) == ()
    assert matches.last_names(keeper) == ()
