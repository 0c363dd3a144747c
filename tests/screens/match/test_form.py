"""The form of a new match."""

from __future__ import annotations

import pytest
from textual.widgets import Input

from game.friends.contest import Contest
from game.friends.match import begin_match
from game.keeping import matches
from game.packs import Puzzle
from game.screens.home.screen import HomeScreen
from game.screens.match.form import MatchFormScreen
from game.screens.match.screen import MatchScreen
from game.settings import Settings
from tests.screens.conftest import Game, Start

DOOR = "00-first-turns/open-door"


async def at_form(game: Game) -> MatchFormScreen:
    """The form, drawn."""
    screen = MatchFormScreen()
    await game.app.push_screen(screen)
    await game.until(lambda: screen.focused is not None and game.says("Begin the match"))
    return screen


async def begin(game: Game) -> None:
    """To the last of the terms, which begins."""
    await game.until(lambda: getattr(game.app.screen.focused, "id", "") == "terms")
    await game.press("home up enter")


async def at_table(game: Game) -> MatchScreen:
    await game.until(lambda: isinstance(game.app.screen, MatchScreen))
    assert isinstance(game.app.screen, MatchScreen)
    return game.app.screen


async def test_names_and_begin(start: Start) -> None:
    """Names are typed one after another; Enter leads on; the usual terms are dealt positions."""
    async with start() as game:
        await at_form(game)
        await game.press("A d a enter B o enter q enter enter")
        await begin(game)
        screen = await at_table(game)
        assert [player.name for player in screen.match.players] == ["Ada", "Bo", "q"]
        assert len(screen.match.contest.positions) == 5
        ((number, match),) = matches.open_matches(game.app.keeper)
        assert match == screen.match and number


async def test_terms_are_stepped(start: Start) -> None:
    """The arrows change what is played, how many, by what it is ranked, and inspection."""
    async with start() as game:
        await at_form(game)
        await game.press("A enter B enter enter right down left")
        await game.press("down right right down right down enter down")
        for words in (
            f"Pack ‹ {game.app.packs[-1].title} ›",
            "Positions ‹ 7 ›",
            "Ranked by ‹ time ›",
            "Inspection ‹ yes ›",
        ):
            await game.until(lambda words=words: game.says(words))  # type: ignore[misc]
        await game.press("enter")
        contest = (await at_table(game)).match.contest
        assert (contest.rules.by, contest.rules.inspection) == ("time", True)
        assert len(contest.positions) == 7


@pytest.mark.parametrize(
    ("typed", "problem"),
    [("A enter enter", "a match of one player"), ("A enter a enter enter", "cannot be told apart")],
)
async def test_what_cannot_be_is_said(start: Start, typed: str, problem: str) -> None:
    """Names that cannot be the players are told in a line, and nothing begins."""
    async with start() as game:
        screen = await at_form(game)
        await game.press(typed)
        await begin(game)
        await game.until(lambda: game.says(problem))
        assert game.app.screen is screen
        assert matches.open_matches(game.app.keeper) == ()


async def test_the_players_name_is_there(start: Start) -> None:
    """The first name is the player's own, and later those of the last match."""
    async with start(settings=Settings(player="Zoë")) as game:
        screen = await at_form(game)
        assert [field.value for field in screen.query(Input)][:2] == ["Zoë", ""]


async def test_a_match_that_waits(start: Start, shipped: dict[str, Puzzle]) -> None:
    """A match that is not over is offered; Enter goes on with it, x twice ends it for good."""
    contest = Contest("First turns", (shipped[DOOR].position,))
    async with start() as game:
        matches.begin(game.app.keeper, begin_match(contest, ("Ada", "Bo", "Cem")))
        matches.begin(game.app.keeper, begin_match(contest, ("Eve", "Fay")))
        await at_form(game)
        await game.until(lambda: game.says("Ada, Bo and Cem"))
        assert game.says("First turns, position 1 of 1")
        await game.until(lambda: getattr(game.app.screen.focused, "id", "") == "waiting")
        await game.press("down enter")
        assert (await at_table(game)).match.players[0].name == "Ada"
        await game.press("q")
        await game.until(lambda: isinstance(game.app.screen, MatchFormScreen))
        await game.press("x up x")
        assert len(matches.open_matches(game.app.keeper)) == 2
        await game.press("x")
        await game.until(lambda: not game.says("Eve and Fay"))
        assert [len(m.players) for _, m in matches.open_matches(game.app.keeper)] == [3]
        assert matches.last_names(game.app.keeper) == ("Eve", "Fay")


def pointers(game: Game) -> list[str]:
    """What stands behind each sign that marks a row."""
    return [row.split("▸")[1].strip() for row in game.rows() if "▸" in row]


async def test_the_sign_is_where_the_keys_go(start: Start, shipped: dict[str, Puzzle]) -> None:
    """One row at most is marked: none while a name is written; Down leads into the terms."""
    contest = Contest("First turns", (shipped[DOOR].position,))
    async with start() as game:
        matches.begin(game.app.keeper, begin_match(contest, ("Ada", "Bo")))
        screen = await at_form(game)
        await game.until(lambda: pointers(game) == ["Ada and Bo"])
        fields = [*screen.query(Input)]
        fields[0].focus()
        await game.press("E v e")
        assert pointers(game) == []
        await game.press("down")
        assert screen.focused is fields[1]
        await game.press("F a y down down")
        assert screen.focused is screen.query_one("#terms")
        (marked,) = pointers(game)
        assert marked.startswith("Play ")
        fields[7].focus()
        await game.press("Z down")
        assert screen.focused is screen.query_one("#terms")


async def test_a_long_name_shows_its_beginning(start: Start) -> None:
    """Once its line is left, of a name that is too long for it the beginning is seen."""
    name = "Maximilian Alexander van den Berghe"
    async with start() as game:
        screen = await at_form(game)
        await game.press(" ".join("space" if c == " " else c for c in name))
        assert not game.says("Maximilian")
        await game.press("down")
        await game.until(lambda: game.says("Maximilian Alexander"))
        assert next(iter(screen.query(Input))).value == name


async def test_home_tells_that_a_match_waits(start: Start, shipped: dict[str, Puzzle]) -> None:
    """While a match is open home says so."""
    contest = Contest("First turns", (shipped[DOOR].position,))
    async with start() as game:
        await game.app.go_home()
        number = matches.begin(game.app.keeper, begin_match(contest, ("Ada", "Bo")))
        await game.press("g escape")
        await game.until(lambda: game.says("a match is not over"))
        matches.end(game.app.keeper, number)
        await game.press("g escape")
        await game.until(lambda: game.says("Table match"))
        assert not game.says("a match is not over")


async def test_from_home_and_back(start: Start) -> None:
    """`g` at home leads to the form and Escape back, even while a name is written."""
    async with start() as game:
        await game.app.go_home()
        await game.until(lambda: game.says("Table match"))
        await game.press("g")
        await game.until(lambda: isinstance(game.app.screen, MatchFormScreen))
        await game.until(lambda: isinstance(game.app.screen.focused, Input))
        await game.press("escape")
        await game.until(lambda: isinstance(game.app.screen, HomeScreen))


async def test_at_60x20(start: Start) -> None:
    """In the smallest window all eight names and every term have their row."""
    async with start(size=(60, 20)) as game:
        screen = await at_form(game)
        for widget in (*screen.query(Input), screen.query_one("#terms")):
            assert screen.region.contains_region(widget.region) and widget.region.width > 15
