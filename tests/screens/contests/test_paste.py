"""Pasting what friends sent."""

from __future__ import annotations

import pytest
from textual import events
from textual.widgets import TextArea

from game.friends.codes import Addressed, card_code, key
from game.friends.contest import Contest
from game.keeping import contests
from game.screens.contests.list import ContestsScreen
from game.screens.contests.paste import PasteScreen
from tests.screens.conftest import Game, Start
from tests.screens.friends import CONTEST, card, chat, code, paste

OTHER = Contest("Another", CONTEST.positions[:1])


class Opened:
    """Takes what is opened."""

    def __init__(self) -> None:
        self.kinds: list[str] = []

    def __call__(self, kind: str) -> None:
        self.kinds.append(kind)


async def open_paste(game: Game) -> Opened:
    opened = Opened()
    await game.app.push_screen(PasteScreen(opened))
    await game.until(lambda: game.says("Nothing found yet."))
    return opened


async def test_a_whole_chat(start: Start) -> None:
    """Every contest in it is listed with its invite and cards; Enter opens the marked one."""
    async with start() as game:
        opened = await open_paste(game)
        await paste(game, chat(card("Ada"), card("Bo")) + chat(card("Cem", OTHER), contest=OTHER))
        await game.until(lambda: game.says("Found: two contests."))
        await game.until(lambda: game.says("Two for Ada invite, two cards"))
        await game.until(lambda: game.says("Another invite, one card"))
        await game.press("escape down enter")
        assert opened.kinds == [key(OTHER)]


async def test_cards_of_a_day_need_no_invite(start: Start) -> None:
    """They are listed under the date."""
    async with start() as game:
        opened = await open_paste(game)
        await paste(game, card_code(Addressed("2026-11-25", card("Ada"))))
        await game.until(lambda: game.says("The day's five, 2026-11-25 one card"))
        await game.press("escape enter")
        assert opened.kinds == ["2026-11-25"]


async def test_a_card_whose_invite_is_not_here(start: Start) -> None:
    """It is told, and opens nothing; once the invite was entered, it is known from the records."""
    async with start() as game:
        await open_paste(game)
        await paste(game, code(card("Ada")))
        await game.until(lambda: game.says("for a contest whose invite is not here"))
        contests.keep(game.app.keeper, contests.entry_for(game.app.keeper, CONTEST))
        game.app.screen.query_one(TextArea).clear()
        await paste(game, code(card("Ada")))
        await game.until(lambda: game.says("Two for Ada one card"))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (code(card("Ada"))[:-4], "cut off or damaged"),
        (code(card("Ada"))[:40] + "0" + code(card("Ada"))[40:], "wrong, missing or too many"),
    ],
)
async def test_damaged_codes_are_told(text: str, told: str, start: Start) -> None:
    """In a line each, beside what can be read."""
    async with start() as game:
        await open_paste(game)
        game.app.screen.post_message(events.Paste(text))
        await game.until(lambda: game.says(told))


async def test_an_unmarked_paste_does_nothing_else(start: Start) -> None:
    """Keys that come one by one, line breaks and tabs among them, go into the field."""
    async with start() as game:
        await open_paste(game)
        for character in f"q\t{chat(card('Ada'))[:200]}":
            name = {"\n": "enter", "\t": "tab"}.get(character, character)
            game.app.post_message(events.Key(name, None if len(name) > 1 else character))
        await game.settle()
        assert isinstance(game.app.screen, PasteScreen)
        await game.until(lambda: game.says("Two for Ada invite"))


async def test_contests_that_were_pasted_are_kept(start: Start) -> None:
    """From the list of contests: paste, open, go back, and the contest is in the list."""
    async with start() as game:
        await game.app.push_screen(ContestsScreen())
        await game.settle()
        await game.until(lambda: game.says("Play the same positions as your friends"))
        await game.press("p")
        await paste(game, chat())
        await game.press("escape enter")
        await game.until(lambda: game.says("1 to play"))
        await game.press("q")
        await game.until(lambda: game.says("Two for Ada to play"))
    async with start() as game:
        await game.app.push_screen(ContestsScreen())
        await game.until(lambda: game.says("Two for Ada to play"))
        await game.press("enter")
        await game.until(lambda: game.says("1 to play"))


async def test_a_megabyte_of_chat(start: Start) -> None:
    """A long paste is looked through beside the game, and what is in it is found."""
    text = "so long a chat that nobody reads it all\n" * 25_000
    async with start() as game:
        await open_paste(game)
        await paste(game, text + chat(card("Ada")))
        await game.until(lambda: game.says("Two for Ada invite, one card"))


async def test_pasted_text_does_nothing_to_the_terminal(start: Start) -> None:
    """Controls and marks of direction in it are blanks; what is between them is found."""
    async with start() as game:
        await open_paste(game)
        await paste(game, f"\x1b[2J\x07\u202e {chat(card('Ada'))} \x9b1m")
        await game.until(lambda: game.says("Two for Ada invite, one card"))
        shown = "".join(game.rows())
        assert not {"\x1b", "\x07", "\u202e", "\x9b"} & set(shown)
        assert "[2J" in shown


async def test_three_faults_are_seen_whole(start: Start) -> None:
    """What is wrong with each, the last one too, and how many more there are."""
    damaged = [code(card(name))[:-4] for name in ("Ada", "Bo", "Cem", "Dora")]
    async with start() as game:
        await open_paste(game)
        game.app.screen.post_message(events.Paste("\n\n".join(damaged)))
        await game.until(lambda: game.says("And one code more that cannot be read."))
        said = " ".join(" ".join(game.rows()).split())
        assert said.count("no OVER at its end.") == 3
