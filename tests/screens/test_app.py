"""What all screens share: records that fail, packs with faults, colours, the moment of an input."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from textual import events

from game.errors import RecordsError
from game.folders import Folders
from game.packs import Puzzle, pack_folder
from game.play.sitting import SOLVED
from game.records import Journal, Record, Records, database, open_records
from game.screens.app import PairwrightApp
from game.screens.atlas.screen import AtlasScreen
from game.screens.contests.list import ContestsScreen
from game.screens.home.map import MapScreen
from game.screens.home.settings import SettingsScreen
from game.screens.play.casual import PlayScreen
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


async def test_each_fault_of_the_records_is_told_once(
    start: Start, shipped: dict[str, Puzzle], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two solved attempts that cannot be kept for one reason, a third for another: two notices."""
    reasons = ["in use elsewhere", "in use elsewhere", "the disk is full"]

    def refused(records: Records, record: Record) -> int:
        raise RecordsError(reasons.pop(0))

    monkeypatch.setattr(Journal, "add", refused)
    async with start() as game:
        await game.play(shipped[FIRST])
        for keys in ("r U R", "a r U R", "a r U R"):
            await game.press(keys)
            assert game.sitting.outcome == SOLVED
        assert game.told == [
            "in use elsewhere. You can play on.",
            "the disk is full. You can play on.",
        ]


async def test_what_waited_for_the_records_is_saved_in_the_end(
    start: Start, shipped: dict[str, Puzzle], folders: Folders, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An attempt that ends while another program holds the file is saved when the game ends."""
    monkeypatch.setattr(database, "WAIT_MS", 50)
    puzzle = shipped[FIRST]
    with closing(open_records(folders.records)) as records:
        records.mark_shown("another")
    async with start() as game:
        await game.play(puzzle)
        with closing(sqlite3.connect(folders.records, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            await game.press("r U R")
            (told,) = game.told
            assert "is locked" in told
    with closing(open_records(folders.records)) as records:
        assert [r.turns for r in records.attempts(puzzle.position.text)] == [3]
    assert game.app.last_words == ["What waited is saved."]


async def test_what_cannot_be_saved_is_told_in_the_end(
    start: Start, shipped: dict[str, Puzzle], folders: Folders, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While another program still holds the file at the end, the last words count what is lost."""
    monkeypatch.setattr(database, "WAIT_MS", 50)
    with closing(open_records(folders.records)) as records:
        records.mark_shown("another")
    with closing(sqlite3.connect(folders.records, isolation_level=None)) as other:
        async with start() as game:
            await game.play(shipped[FIRST])
            other.execute("BEGIN IMMEDIATE")
            await game.press("r U R a r U R")
    [told] = game.app.last_words
    assert told.startswith("Two attempts are not saved: ")
    assert "is locked" in told


async def test_records_that_are_deleted_while_playing_are_made_again(
    start: Start, shipped: dict[str, Puzzle], folders: Folders
) -> None:
    """Attempts from before and after are in the new file, and one notice says what happened."""
    puzzle = shipped[FIRST]
    async with start() as game:
        await game.play(puzzle)
        await game.press("r U R")
        shutil.rmtree(folders.data)
        await game.press("a r U R")
        await game.press("a u r u r")
        assert ["was deleted or replaced" in line for line in game.told] == [True]
    with closing(open_records(folders.records)) as records:
        assert [r.turns for r in records.attempts(puzzle.position.text)] == [3, 3]


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


async def test_a_screen_brings_its_styles_and_nothing_is_parsed_again(
    start: Start, shipped: dict[str, Puzzle], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only what a screen adds to the styles is parsed when it is opened for the first time.

    Textual keeps the parsed rules of 64 sources; with more, each new one would cost all of them.
    """
    async with start() as game:
        styles = game.app.stylesheet
        before = len(styles.source)
        monkeypatch.setattr(styles, "reparse", None)
        await game.play(shipped[FIRST])
        for screen in (MapScreen(None), SettingsScreen(), AtlasScreen(), ContestsScreen()):
            await game.app.push_screen(screen)
            await game.settle()
            (path,) = screen.css_path
            assert styles.has_source(str(path))
        assert before < len(styles.source) < 64
