"""A monkey at the keys: whatever comes in whatever order, nothing is raised and nothing is lost."""

from __future__ import annotations

import asyncio
import os
import time
from pathlib import Path

import pytest

from game.errors import CacheError
from game.search.cache import load_tables
from tests.monkey.events import events
from tests.monkey.playing import Played, play, shortest

WINDOWS = ((60, 20), (120, 40), (80, 24))
SEEDS, EVENTS = 6, 250
"""What is played each time."""
MANY_SEEDS, MANY_EVENTS = 100, 500
PARTS = 10
"""What is played when the slow tests are: 50,000 events, in parts that share the cores."""


@pytest.fixture(autouse=True)
def no_building(monkeypatch: pytest.MonkeyPatch) -> None:
    """The large tables are not built: there is no room."""

    def refused(*_: object) -> bool:
        raise CacheError("no room for tables")

    monkeypatch.setattr("game.search.cache.build_near_sets", refused)


@pytest.fixture(scope="session")
def tables_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("tables")
    load_tables(folder)
    return folder


def run(seed: int, count: int, tables: Path, folder: Path) -> Played:
    """Play a seed; where something is raised, fail with the seed and the shortest events."""
    window = WINDOWS[seed % len(WINDOWS)]
    what = list(events(seed, count, window))
    played = asyncio.run(play(what, window, tables, folder))
    if played.fault is not None:
        fewer = shortest(what[: played.done + 1], window, tables, played.kind)
        raise AssertionError(f"seed {seed}, window {window}: {fewer}") from played.fault
    return played


@pytest.mark.parametrize("seed", range(SEEDS))
def test_nothing_is_raised(seed: int, tables_folder: Path, tmp_path: Path) -> None:
    """Bursts of keys, clicks, pastes and window sizes: it stands, and the records are whole."""
    played = run(seed, EVENTS, tables_folder, tmp_path)
    assert played.done == EVENTS
    assert len(played.screens) > 3


@pytest.mark.slow
@pytest.mark.parametrize("part", range(PARTS))
def test_nothing_is_raised_by_many(part: int, tables_folder: Path, tmp_path: Path) -> None:
    """Fresh seeds each time; they are told, so that a fault can be had again."""
    first = int(os.environ.get("MONKEY_SEED", time.time_ns() // 1000 % 10**9)) + 10**9 * part
    whole = Played()
    for seed in range(first, first + MANY_SEEDS // PARTS):
        played = run(seed, MANY_EVENTS, tables_folder, tmp_path / str(seed))
        whole.screens |= played.screens
        whole.slowest = max(whole.slowest, played.slowest)
        whole.done += played.done
    print(
        f"seeds {first} to {seed}: {whole.done} events, slowest {whole.slowest:.2f} s,"
        f" {len(whole.screens)} screens: {', '.join(sorted(whole.screens))}"
    )
    assert whole.done == MANY_EVENTS * MANY_SEEDS // PARTS
