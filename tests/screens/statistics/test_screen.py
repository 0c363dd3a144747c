"""The statistics, through the screen."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from game.cube.moves import parse_line
from game.folders import Folders
from game.play.position import position_after
from game.records import open_records
from game.screens.app import PairwrightApp
from game.screens.statistics.screen import StatisticsScreen
from game.settings import Settings
from tests.many_attempts import write
from tests.records.samples import SAMPLE
from tests.screens.conftest import Game, Start


async def opened(game: Game) -> StatisticsScreen:
    """The statistics, counted."""
    screen = StatisticsScreen()
    await game.app.push_screen(screen)
    await game.until(lambda: screen._found is not None and game.says("both above"))
    await game.until(lambda: not any(worker.is_running for worker in game.app.workers))
    await game.settle()
    return screen


async def test_from_home_and_back(start: Start, folders: Folders) -> None:
    """At home t opens the statistics of what was played, and q leads back."""
    records = open_records(folders.records)
    text = position_after(parse_line("R U R'")).text
    records.add(replace(SAMPLE, position=text, began=datetime.now().astimezone()))
    records.close()
    async with start(app_type=PairwrightApp) as game:
        await game.until(lambda: game.says("Go on"))
        await game.press("t")
        await game.until(lambda: game.says("1 attempt, 1 solved without help, 1 at par"))
        await game.until(lambda: game.says("Played 1 day"))
        await game.press("q")
        await game.until(lambda: game.says("Go on"))


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
async def test_with_nothing_played(start: Start, size: tuple[int, int]) -> None:
    """Without any attempt every figure stands empty, and the first says why."""
    async with start(size=size) as game:
        await opened(game)
        assert game.says("Nothing tried yet")
        assert game.says("0 attempts")


async def test_with_one_attempt(start: Start, folders: Folders) -> None:
    """One attempt shows in its cell, its sides, its times and its day."""
    records = open_records(folders.records)
    text = position_after(parse_line("R U R'")).text
    now = datetime.now().astimezone()
    records.add(replace(SAMPLE, position=text, turns=5, executed=5, began=now))
    records.close()
    async with start() as game:
        await opened(game)
        row = next(row for row in game.rows() if row.lstrip().startswith("both above"))
        assert row.split()[:5] == ["both", "above", "2.0", "·", "·"]
        assert game.says("5.0 /s")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_measures_change_with_a_key(
    start: Start, folders: Folders, size: tuple[int, int]
) -> None:
    """The arrows go round the measures, for the heat map and the sides alike."""
    write(folders.records, 300, different=120)
    async with start(size=size) as game:
        await opened(game)
        for key, words in (
            ("right", "Seeing time by side"),
            ("right", "Doing time by side"),
            ("right", "Turns over par by side"),
            ("left", "Doing time by side"),
        ):
            await game.press(key)
            assert game.says(words)
        assert game.says("Doing time, in s")
        assert game.says("pause")


@pytest.mark.parametrize("colours", ["none", "16", "256"])
async def test_without_many_colours(start: Start, folders: Folders, colours: str) -> None:
    """With 16 colours or none, shades stand in the cells; with 256 the grounds do."""
    write(folders.records, 900, different=600)
    async with start(settings=Settings(colours=colours)) as game:
        await opened(game)
        row = next(row for row in game.rows() if row.lstrip().startswith("both above"))
        assert any(shade in row[15:45] for shade in "░▒▓█") == (colours != "256")


async def test_records_that_cannot_be_read(start: Start, folders: Folders) -> None:
    """A fault of the records is told, and the screen can be left."""
    records = open_records(folders.records)
    records.add(SAMPLE)
    records.close()
    async with start() as game:
        assert game.app.keeper.records.path is not None
        folders.records.write_bytes(b"no database at all" * 1000)
        await game.app.push_screen(StatisticsScreen())
        await game.until(lambda: game.says("the records cannot be read"))
        (told,) = game.told
        assert "moved aside" in told
        await game.press("q")
        await game.until(lambda: not isinstance(game.app.screen, StatisticsScreen))
