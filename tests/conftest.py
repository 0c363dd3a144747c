"""Settings of the whole test run."""

from __future__ import annotations

import os
from functools import lru_cache
from pathlib import Path

import pytest
from hypothesis import settings

from game.cube.cube import Cube
from game.packs import Puzzle, load_packs, pack_folder, puzzles
from game.packs.difficulty import Find
from game.search.cache import load_all_tables, load_tables, missing
from game.search.outcome import Outcome
from game.search.shortest import search
from game.search.tables import Tables
from tests.large import peak

HERE = Path(__file__).parent

# How long an example takes depends on the machine: no claim is made about it here.
settings.register_profile("pairwright", deadline=None)
settings.load_profile("pairwright")


def pytest_addoption(parser: pytest.Parser) -> None:
    """What takes minutes, or only repeats what was computed once, is tested when asked for."""
    parser.addoption("--run-slow", action="store_true", help="run the slow tests, too")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leaves out the slow tests unless they are wanted, and puts those first that wait.

    Those are the tests of the whole, in terminals and processes of their own. At the end a core
    would wait with them.
    """
    if not config.getoption("--run-slow"):
        slow = [item for item in items if item.get_closest_marker("slow")]
        config.hook.pytest_deselected(items=slow)
        items[:] = [item for item in items if item not in slow]
    items.sort(key=lambda item: item.path.parent != HERE)


@pytest.fixture(scope="session")
def tables(table_folder: Path) -> Tables:
    """The small tables, built once for the whole run."""
    return load_tables(table_folder)


@pytest.fixture(scope="session")
def large_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the large tables are, built once for the slow tests, in less than a gigabyte of memory.

    Workers that share the tests share the folder: whoever is second waits.
    """
    own = tmp_path_factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "large"
    folder.mkdir(exist_ok=True)
    assert peak(folder, "") < 10**9
    assert missing(folder) == ()
    return folder


@pytest.fixture(scope="session")
def large(large_folder: Path) -> Tables:
    """The large tables."""
    return load_all_tables(large_folder)


def finder(tables: Tables) -> Find:
    """The whole search, as difficulty and the check of packs ask for it."""

    @lru_cache(maxsize=4096)
    def found(cube: Cube, slots: tuple[str, ...], faces: str) -> Outcome:
        return search(cube, slots, faces, tables=tables)

    return found


@pytest.fixture(scope="session")
def find(tables: Tables) -> Find:
    """The search with the small tables."""
    return finder(tables)


@pytest.fixture(scope="session")
def find_large(large: Tables) -> Find:
    """The search with the large tables."""
    return finder(large)


@pytest.fixture(scope="session")
def table_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the search keeps its tables for the whole run."""
    return tmp_path_factory.mktemp("search-tables")


@pytest.fixture(scope="session")
def shipped() -> dict[str, Puzzle]:
    """Every puzzle that comes with the program, by key."""
    packs, faults = load_packs(pack_folder())
    assert not faults
    return {puzzle.key: puzzle for pack in packs for puzzle in puzzles(pack)}
