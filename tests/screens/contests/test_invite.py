"""Making an invite."""

from __future__ import annotations

from textual.widgets import Input

from game.friends.codes import read_invite
from game.friends.contest import TIME, Contest
from game.keeping import contests
from game.packs import Puzzle
from game.screens.contests.code import CodeScreen
from game.screens.contests.invite import InviteScreen
from game.screens.contests.list import ContestsScreen
from game.screens.contests.screen import ContestScreen
from tests.screens.conftest import Game, Start
from tests.screens.friends import CONTEST


async def open_form(game: Game) -> None:
    await game.app.push_screen(ContestsScreen())
    await game.settle()
    await game.press("i")
    await game.until(lambda: isinstance(game.app.screen, InviteScreen))
    await game.settle()


async def made(game: Game) -> Contest:
    """The contest that was made: its invite is in front, and behind it the contest."""
    await game.until(lambda: isinstance(game.app.screen, CodeScreen))
    (entry,) = contests.entries(game.app.keeper)
    assert isinstance(game.app.screen, CodeScreen)
    assert read_invite(game.app.screen.text) == entry.entered.contest
    await game.press("q")
    assert isinstance(game.app.screen, ContestScreen)
    return entry.entered.contest


async def test_an_invite_of_a_deal(start: Start) -> None:
    """Title, positions and rules are those chosen; the contest is open and in the list."""
    async with start() as game:
        await open_form(game)
        await game.press("F i v e enter down down down right down down left down right")
        await game.press("down down enter")
        contest = await made(game)
        assert contest.title == "Five"
        assert len(contest.positions) == 4
        assert all((len(p.pairs), len(p.open)) == (1, 1) for p in contest.positions)
        assert contest.rules.by == TIME
        await game.press("q")
        await game.until(lambda: game.says("Five to play"))


async def test_setups_that_are_typed(start: Start) -> None:
    """They take the place of what is chosen; a mistake is told and nothing is made."""
    async with start() as game:
        await open_form(game)
        await game.press("tab tab R space Q enter")
        await game.until(lambda: game.says("unknown turn"))
        assert isinstance(game.app.screen, InviteScreen)
        await game.press("backspace U space R apostrophe comma")
        field = game.app.screen.query_one("#invite-setups", Input)
        field.value = "R U' R', L' U L"
        await game.press("enter")
        contest = await made(game)
        assert contest.positions == CONTEST.positions


async def test_levels_that_are_named(start: Start, shipped: dict[str, Puzzle]) -> None:
    """A level by its key, a twin too, beside setups; one that is not there is told."""
    first = "00-first-turns/open-door"
    async with start() as game:
        await open_form(game)
        field = game.app.screen.query_one("#invite-setups", Input)
        field.focus()
        field.value = "00-first-turns/open-dor"
        await game.press("enter")
        await game.until(lambda: game.says(f'did you mean "{first}"?'))
        field.value = f"{first}, {first}~left-right, L' U L"
        await game.press("enter")
        contest = await made(game)
        named = (shipped[first].position, shipped[f"{first}~left-right"].position)
        assert contest.positions == (*named, CONTEST.positions[1])


async def test_two_invites_deal_anew(start: Start) -> None:
    """The same choices give other positions the next time."""
    async with start() as game:
        await game.app.push_screen(ContestsScreen())
        await game.settle()
        for count in (1, 2):
            await game.press("i")
            await game.until(lambda: isinstance(game.app.screen, InviteScreen))
            await game.settle()
            await game.press("enter end enter")
            await game.until(lambda: isinstance(game.app.screen, CodeScreen))
            await game.press("q q")
            await game.until(lambda c=count: len(contests.entries(game.app.keeper)) == c)
        one, two = (entry.entered.contest.positions for entry in contests.entries(game.app.keeper))
        assert one != two


async def test_the_arrows_lead_through_the_form(start: Start) -> None:
    """Down from the title, through the rows, to the setups, and up again; one place is marked."""
    async with start() as game:
        await open_form(game)
        title, terms, setups = (
            game.app.screen.query_one(f"#invite-{name}") for name in ("title", "terms", "setups")
        )
        assert title.has_focus and not game.says("▸")
        await game.press("down")
        assert terms.has_focus and game.says("▸ Play")
        await game.press("up")
        assert title.has_focus and not game.says("▸")
        await game.press("down end")
        assert game.says("▸ Make the invite")
        await game.press("down")
        assert setups.has_focus and not game.says("▸")
        await game.press("up")
        assert terms.has_focus and game.says("▸ Make the invite")
