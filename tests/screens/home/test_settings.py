"""The screen of settings."""

from __future__ import annotations

from dataclasses import replace

from textual.widgets import Input

from game.folders import Folders
from game.packs import Puzzle
from game.screens.home.settings import SettingsScreen
from game.screens.play.casual import PlayScreen
from game.screens.shared.choices import SETTINGS
from game.screens.shared.picture_view import PictureView
from game.settings import Settings, load_settings, save_settings
from tests.screens.conftest import Game, Start

Shipped = dict[str, Puzzle]
ROW = {choice.key: number for number, choice in enumerate(SETTINGS)}


KEEP_OR_DROP = ["Enter", "keep", "the", "name", "Esc", "drop", "it"]


async def at_settings(game: Game, key: str) -> SettingsScreen:
    """The settings, this one marked."""
    screen = SettingsScreen()
    await game.app.push_screen(screen)
    await game.until(lambda: game.says("Cross colour"))
    await game.until(lambda: screen.query_one("#sample", PictureView).picture)
    await game.press("down " * ROW[key])
    help_text = SETTINGS[ROW[key]].help[:30]
    await game.until(lambda: help_text in game.text("#setting-help"))
    return screen


async def test_a_change_applies_and_is_kept(start: Start, folders: Folders) -> None:
    """A key changes a setting at once: on the sample, in the game and in the file."""
    async with start() as game:
        screen = await at_settings(game, "drawing")
        sample = screen.query_one("#sample", PictureView)
        before = sample.picture
        await game.press("right")
        assert game.app.settings.drawing == "flat"
        assert sample.picture != before
        assert load_settings(folders.settings) == (Settings(drawing="flat"), "")
        await game.press("left")
        assert load_settings(folders.settings) == (Settings(), "")
        assert sample.picture == before


async def test_enter_space_and_click_change_as_well(start: Start) -> None:
    """Enter, Space and a click take the next choice; u goes back to the usual one."""
    async with start() as game:
        await at_settings(game, "far_side")
        await game.press("enter")
        assert game.app.settings.far_side == "asked"
        await game.press("space")
        assert game.app.settings.far_side == "never"
        row = next(y for y, text in enumerate(game.rows()) if "Call it" in text)
        await game.click(offset=(5, row))
        await game.until(lambda: game.app.settings.call)
        await game.press("u")
        assert not game.app.settings.call
        assert game.app.settings.far_side == "never"


async def test_only_fronts_beside_the_cross_come_up(start: Start) -> None:
    """Going once through the front colours never shows the cross colour or its opposite."""
    async with start(settings=Settings(cross="blue", front="red")) as game:
        await at_settings(game, "front")
        seen = set()
        for _ in range(4):
            seen.add(game.app.settings.front)
            await game.press("right")
        assert seen == {"white", "yellow", "orange", "red"}
        assert game.app.settings.front == "red"


async def test_a_name_is_written(start: Start, folders: Folders) -> None:
    """Enter on the name opens a line; Enter keeps what was written, Escape leaves it."""
    async with start() as game:
        screen = await at_settings(game, "player")
        await game.press("enter Z o ë enter")
        await game.until(lambda: not screen.query_one(Input).display)
        assert load_settings(folders.settings)[0].player == "Zoë"
        await game.press("enter q escape")
        await game.until(lambda: not screen.query_one(Input).display)
        assert game.app.screen is screen
        assert game.app.settings.player == "Zoë"
        assert screen.focused is not None


async def test_the_keys_of_a_name_are_shown(start: Start) -> None:
    """While a name is written the bar says what keeps and what drops it, and nothing else."""
    async with start() as game:
        await at_settings(game, "player")
        await game.press("enter")
        await game.until(lambda: game.rows()[-1].split() == KEEP_OR_DROP)
        await game.press("escape")
        await game.until(lambda: game.says("q done"))


async def test_the_level_in_hand_is_drawn_anew(start: Start, shipped: Shipped) -> None:
    """Changed settings show on the cube that was left."""
    async with start() as game:
        play = await game.play(next(iter(shipped.values())))
        before = play.query_one("#cube", PictureView).picture
        await at_settings(game, "drawing")
        await game.press("right q")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        await game.until(lambda: play.query_one("#cube", PictureView).picture != before)


async def test_settings_that_cannot_be_kept(start: Start, folders: Folders) -> None:
    """Where the file cannot be written the change holds for now, and a line says so."""
    folders.config.parent.mkdir(parents=True, exist_ok=True)
    folders.config.write_text("a file where the folder should be", encoding="utf-8")
    async with start() as game:
        await at_settings(game, "letters")
        await game.press("right")
        assert game.app.settings.letters
        assert any("cannot be saved" in message for message in game.told)


async def test_a_file_that_was_changed_meanwhile_is_not_overwritten(
    start: Start, folders: Folders
) -> None:
    """What somebody else has changed is kept and used; what the player changes is added to it."""
    async with start(settings=Settings(player="Ada")) as game:
        save_settings(folders.settings, Settings(player="Ada", cross="yellow", front="blue"))
        game.app.change_settings(replace(game.app.settings, letters=True))
        both = Settings(player="Ada", cross="yellow", front="blue", letters=True)
        assert game.app.settings == both
        assert load_settings(folders.settings) == (both, "")
