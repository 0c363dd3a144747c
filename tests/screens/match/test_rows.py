"""The table of a match."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from game.cube.moves import parse_line
from game.friends.contest import Contest, Rules
from game.friends.match import MAX_NAME, Match, begin_match
from game.play.position import position_after
from game.play.result import Result
from game.screens.match.rows import head_row, player_rows, seats, state_words, winner_words

DOOR, MIRRORED = (position_after(parse_line(setup)) for setup in ("R U R'", "L' U' L"))
PARS = {DOOR.text: 3, MIRRORED.text: 3}
SHORT, LONG = parse_line("R U' R'"), parse_line("U R U2 R'")


def begun(*names: str, by: str = "turns") -> Match:
    return begin_match(Contest("", (DOOR, MIRRORED), Rules(by)), names)


def result(line: str = "R U' R'", *, called: bool = False, solved: bool = True) -> Result:
    return Result(parse_line(line), 100, 200, called, solved)


def words(match: Match, width: int = 78) -> list[list[str]]:
    return [row.plain.split() for row in player_rows(match, PARS, width)]


def test_states() -> None:
    """One plays, who has played has, the others wait; who has left is at the end."""
    match = begun("Ada", "Bo", "Cem").after(result()).without(0)
    assert [state_words(match, seat) for seat in range(3)] == ["left", "plays now", "waits"]
    assert words(begun("Ada", "Bo").after(result())) == [["Ada", "played"], ["Bo", "plays", "now"]]


def test_figures_are_of_what_all_have_played() -> None:
    """The result of a position counts once everybody has one; par makes it over."""
    match = begun("Ada", "Bo").after(result(called=True))
    assert words(match)[0] == ["Ada", "played"]
    match = match.after(result("U R U2 R'", called=True))
    assert words(match) == [
        ["1", "Ada", "3", "par", "3.00", "1/1", "1/1", "waits"],
        ["2", "Bo", "4", "+1", "3.00", "1/1", "0/1", "plays", "now"],
    ]
    assert player_rows(match, {}, 78)[0].plain.split()[:4] == ["1", "Ada", "3", "3.00"]


def test_who_solved_nothing_has_no_figures() -> None:
    """Neither turns nor a time, and no par, of what was not solved."""
    match = begun("Ada", "Bo").after(result()).after(result("", solved=False))
    assert words(match)[1] == ["2", "Bo", "-", "-", "0/1", "plays", "now"]


def test_by_rank() -> None:
    """As soon as a position is played by all the best stands first, to the end."""
    match = begun("Ada", "Bo")
    for line in ("U R U2 R'", "R U' R'"):
        assert seats(match) == (0, 1)
        match = match.after(result(line))
    assert seats(match) == (1, 0)
    for _ in range(2):
        match = match.after(result("L' U L"))
    assert seats(match) == (1, 0)
    assert winner_words(match) == "Bo wins"


@pytest.mark.parametrize(
    ("results", "said"),
    [
        (("R U' R'", "R U' R'", "R U' R'"), "Ada, Bo and Cem share the first place"),
        (("", "R U' R'", ""), "Bo wins"),
        (("", "", ""), "Nobody has won"),
    ],
)
def test_who_has_won(results: tuple[str, ...], said: str) -> None:
    """Ties share the place; where nothing is solved nobody has won."""
    match = begin_match(Contest("", (DOOR,)), ("Ada", "Bo", "Cem"))
    for line in results:
        match = match.after(result(line, solved=bool(line)))
    assert winner_words(match) == said


def test_nobody_has_won_what_nobody_played() -> None:
    """A match that all have left at once has no winner."""
    assert winner_words(begun("Ada", "Bo").without(0).without(1)) == "Nobody has won"


@given(
    st.lists(st.text(min_size=1, max_size=MAX_NAME), min_size=2, max_size=8, unique=True),
    st.integers(55, 160),
)
def test_rows_fit(names: list[str], width: int) -> None:
    """From 55 columns on a row is never wider than its room, whatever the names."""
    players = [f"{chr(ord('A') + at)}{name}"[:MAX_NAME] for at, name in enumerate(names)]
    match = begun(*players)
    for _ in players:
        match = match.after(result(called=True))
    rows = [head_row(width), *player_rows(match, PARS, width)]
    assert all(cell_len(row.plain) <= width for row in rows)
