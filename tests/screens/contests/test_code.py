"""Text for a chat: copied, written to a file, there to be marked."""

from __future__ import annotations

from pathlib import Path

import pytest

from game.folders import Folders
from game.screens.contests.code import CodeScreen, file_name
from tests.screens.conftest import Game, Start

TEXT = "Two for Ada\nEPAIRV10DQ OVER"


async def open_code(game: Game) -> None:
    await game.app.push_screen(CodeScreen("Invite", "Send this.", TEXT, "Two for Ada"))
    await game.settle()


async def test_the_text_stands_there_as_it_is(start: Start) -> None:
    """Line by line from the left edge, so that marking it with the mouse gives just the text."""
    async with start() as game:
        await open_code(game)
        rows = [row.strip() for row in game.rows()]
        at = rows.index("Two for Ada")
        assert rows[at + 1] == "EPAIRV10DQ OVER"


@pytest.mark.parametrize("key", ["y", "c", "enter"])
async def test_copying(key: str, start: Start) -> None:
    """It is handed to the terminal, and the screen does not claim that it arrived."""
    async with start() as game:
        await open_code(game)
        await game.press(key)
        assert game.app.clipboard == TEXT
        assert game.says("never says whether it took it")


async def test_a_file(start: Start, folders: Folders) -> None:
    """The text is written among the player's files, and the name of the file is told."""
    async with start(size=(120, 30)) as game:
        await open_code(game)
        await game.press("w")
        path = folders.data / "chat" / "two-for-ada.txt"
        assert path.read_text("utf-8") == f"{TEXT}\n"
        assert game.says("Written to")


async def test_a_file_that_cannot_be_written(start: Start, folders: Folders) -> None:
    """Told in a line; nothing else happens."""
    folders.data.mkdir(parents=True)
    Path(folders.data / "chat").write_text("in the way", encoding="utf-8")
    async with start(size=(120, 30)) as game:
        await open_code(game)
        await game.press("w")
        assert game.says("cannot be written")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("The day's five, 2026-11-25 Ada", "the-day-s-five-2026-11-25-ada"),
        ("../../etc/passwd\0", "etc-passwd"),
        ("李雷", "contest"),
        ("", "contest"),
        ("CON" * 100, ("con" * 100)[:60]),
    ],
)
def test_names_of_files(text: str, name: str) -> None:
    """Whatever a title holds, the file lies in its folder under a plain name."""
    assert file_name(text) == name
