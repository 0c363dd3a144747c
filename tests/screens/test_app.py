"""What all screens share: records that fail, packs with faults, colours, the moment of an input."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from textual import events

from game.errors import RecordsLocked
from game.folders import Folders
from game.packs import Puzzle, pack_folder
from game.records import Record, Records
from game.screens.app import PairwrightApp
from game.screens.play import PlayScreen
from game.screens.sitting import SOLVED
from game.settings import Settings
from tests.screens.conftest import QuietApp, Start

FIRST = "00-first-turns/open-door"


@pytest.fixture
def some_packs(tmp_path: Path) -> Path:
    """A folder with the first two packs that come with the program."""
    folder = tmp_path / "packs"
    folder.mkdir()
    for path in sorted(pack_folder().glob("*.toml"))[:2]:
        shutil.copy(path, folder)
    return folder


async def test_a_fault_of_the_records_is_told_once(
    start: Start, shipped: dict[str, Puzzle], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two solved attempts that cannot be kept: one notice, and play goes on."""

    def locked(records: Records, record: Record) -> int:
        raise RecordsLocked("the records are in use elsewhere")

    monkeypatch.setattr(Records, "add", locked)
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("r U R")
        assert game.sitting.outcome == SOLVED
        await game.press("a r U R")
        assert game.sitting.outcome == SOLVED
        told = [notice.message for notice in game.app._notifications]
        assert len(told) == 1
        assert told[0].startswith("the records are in use elsewhere.")


async def test_a_pack_with_faults_is_left_out(start: Start, some_packs: Path) -> None:
    """The others are there, its fault can be read, and a notice says so."""
    broken = some_packs / "50-broken.toml"
    broken.write_text('format = 1\ntitle = "Broken"\n')
    async with start(packs=some_packs) as game:
        assert len(game.app.packs) == 2
        assert ["50-broken" in str(fault) for fault in game.app.pack_faults] == [True]
        assert any("left out" in notice for notice in game.app.notices)


async def test_a_first_pack_with_faults_does_not_keep_the_game_from_opening(
    start: Start, some_packs: Path
) -> None:
    """The first start opens in the first level that can be used."""
    first, second = sorted(some_packs.iterdir())
    first.write_text("nonsense")
    async with start(packs=some_packs, app_type=PairwrightApp) as game:
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        assert game.sitting.puzzle.pack.id == second.stem


async def test_faulty_settings_are_told(start: Start, folders: Folders) -> None:
    """The file's fault stands among the notices, and the game starts with what is right."""
    folders.settings.parent.mkdir(parents=True)
    folders.settings.write_text('letters = true\ndrawing = "wire"\n')
    async with start() as game:
        assert game.app.settings.letters
        assert any("wire" in notice for notice in game.app.notices)


@pytest.mark.parametrize(("value", "depth"), [("1", "none"), ("0", "none"), ("", "16")])
async def test_no_color_counts_when_it_is_not_empty(
    start: Start, value: str, depth: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """NO_COLOR means no colour whatever its value, and nothing when it is empty (no-color.org)."""
    monkeypatch.setenv("NO_COLOR", value)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("COLORTERM", raising=False)
    async with start() as game:
        assert game.app.depth == depth


async def test_an_input_happens_when_its_thread_says(folders: Folders) -> None:
    """Time goes by the stamp of the input thread, not by when the key is handled."""
    app = QuietApp(folders)
    async with app.run_test() as pilot:
        key = events.Key("f5", None)
        key.time -= 3.0
        app.post_message(key)
        await pilot.pause()
        assert app.moment == key.time


async def test_the_palette_offers_the_commands_of_the_screen(
    start: Start, shipped: dict[str, Puzzle]
) -> None:
    """Every command of the table but the turns, each doing what its key does."""
    async with start() as game:
        screen = await game.play(shipped[FIRST])
        await game.press("r")
        offered = {c.title: c.callback for c in game.app.get_system_commands(screen)}
        assert {"Undo", "Restart", "Type", "Help", "Far side"} <= set(offered)
        await offered["Undo"]()
        assert game.sitting.attempt.line == ()


async def test_letters_are_kept_as_a_setting(start: Start, shipped: dict[str, Puzzle]) -> None:
    """Letters turned on while playing are on at the next start."""
    async with start(settings=Settings(colours="true")) as game:
        await game.play(shipped[FIRST])
        await game.press("i")
    async with start() as game:
        assert game.app.settings.letters
