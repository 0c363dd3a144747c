"""The help."""

from __future__ import annotations

import pytest

from game.manual import INDEX, page, subjects
from game.screens.app import PairwrightApp
from game.screens.play.casual import PlayScreen
from game.screens.shared.help import (
    LEAST_COLUMNS,
    PAGES,
    SCREENS,
    HelpScreen,
    own_text,
    rest_text,
)
from game.screens.shared.keys import COMMANDS
from tests.screens.conftest import Start


@pytest.mark.parametrize("columns", [58, 76])
def test_every_command_is_told(columns: int) -> None:
    """The help holds the keys and the sentence of every command of every screen it tells."""
    whole = own_text("play", columns).plain + "\n" + rest_text("play", columns).plain
    text = " ".join(whole.split())
    told = [command for command in COMMANDS if command.screen in SCREENS]
    assert len(told) > 30
    for command in told:
        assert command.shown in text
        assert command.help in text


def test_no_screen_is_forgotten() -> None:
    """Every screen with commands is told, save the help itself and the application."""
    assert {command.screen for command in COMMANDS} - set(SCREENS) <= {"help", "app"}


@pytest.mark.parametrize("columns", [40, 58, 76])
def test_lines_fit(columns: int) -> None:
    """No line of the help is wider than its room."""
    lines = (own_text("map", columns).plain + "\n" + rest_text("map", columns).plain).splitlines()
    assert max(map(len, lines)) <= columns


def test_the_screen_in_front_comes_first() -> None:
    """The words and keys of the screen that asked lead, and stand once."""
    own, rest = own_text("map", 76).plain, rest_text("map", 76).plain
    assert own.startswith("What it is about\n")
    assert "Go to the list of packs." in own and "Go to the list of packs." not in rest
    assert "Par is the length" in own and "Par is the length" not in rest


def test_every_screen_has_a_page_and_every_page_a_way_to_it() -> None:
    """Each screen's page is there; each page is in the index, and the index is home's."""
    assert set(PAGES) == set(SCREENS)
    assert set(PAGES.values()) <= {INDEX, *subjects()}
    assert PAGES["home"] == INDEX
    for subject in (INDEX, *subjects()):
        assert page(subject).startswith("# ")


async def test_help_opens_and_closes(start: Start) -> None:
    """`?` opens the help over the game, the same key closes it, and it scrolls to its end."""
    async with start(app_type=PairwrightApp) as game:
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        await game.press("question_mark")
        await game.until(lambda: game.says("Par is the length of a shortest way"))
        assert not game.says("Take the choice before.")
        reader = game.app.screen.query_one("#reader")
        await game.until(lambda: reader.has_focus and reader.max_scroll_y > 0)
        await game.press("end")
        await game.until(lambda: game.says("Put this setting back"))
        await game.press("question_mark")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))


def test_a_window_shrinks_over_the_help() -> None:
    """Even for a window of three columns the text can be made."""
    assert HelpScreen("play").text(3).plain == own_text("play", LEAST_COLUMNS).plain
