"""The large tables in the background: built once, waited for, stopped, refused."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Event

import pytest

from game.engine import large_tables, searching
from game.engine.large_tables import BUSY, LargeTables
from game.errors import CacheBusy, CacheFull
from game.search import cache
from game.search.files import only_writer
from game.search.growth import Growing
from game.search.near import PARTS
from game.search.tables import Tables
from tests.engine.test_engine import until

Build = Callable[[Callable[[Growing], None], Callable[[], bool]], bool]


class Heard:
    """What the thread says."""

    def __init__(self) -> None:
        self.told: list[str] = []
        self.done: list[tuple[Tables, str]] = []

    def finish(self, tables: Tables, problem: str) -> None:
        self.done.append((tables, problem))


@pytest.fixture
def heard() -> Heard:
    return Heard()


@pytest.fixture
def large(table_folder: Path, heard: Heard) -> Iterator[LargeTables]:
    found = LargeTables(table_folder, heard.told.append, heard.finish)
    yield found
    found.stop()


@pytest.fixture
def building(monkeypatch: pytest.MonkeyPatch) -> Callable[[Build], None]:
    """Has the tables built by a function, given `progress` and `cancelled`."""

    def use(build: Build) -> None:
        monkeypatch.setattr(cache, "build_near_sets", lambda _, *rest: build(*rest))

    return use


def growing(done: float) -> Growing:
    return Growing(PARTS[0], 3, 7, 2138, done)


def test_tables_that_are_there_are_only_read(
    large: LargeTables, heard: Heard, monkeypatch: pytest.MonkeyPatch, tables: Tables
) -> None:
    """Where all files are whole nothing is built."""
    monkeypatch.setattr(cache, "load_all_tables", lambda _: tables)
    monkeypatch.setattr(cache, "has_near_sets", lambda _: True)
    monkeypatch.delattr(cache, "build_near_sets")
    assert not large.has_started
    large.start()
    until(lambda: heard.done)
    assert heard.done == [(tables, "")]
    assert heard.told == []


def test_a_build_tells_how_far_it_is(
    large: LargeTables,
    heard: Heard,
    building: Callable[[Build], None],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Work done is told as a part; time left once enough is done to tell."""
    monkeypatch.setattr(large_tables, "EVERY", 0)

    def build(progress: Callable[[Growing], None], _: object) -> bool:
        progress(growing(0.01))
        progress(growing(0.5))
        return True

    building(build)
    large.start()
    until(lambda: heard.done)
    first, second = heard.told
    assert first == "Large tables are built once, for three and four pairs: 1%"
    assert second.startswith("Large tables are built once, for three and four pairs: 50%, ")
    assert second.endswith(" s left")
    assert heard.done[0][1] == ""


def test_a_disk_without_room_is_told(
    large: LargeTables, heard: Heard, building: Callable[[Build], None]
) -> None:
    """Refused, there are the tables that are there, and why."""

    def build(*_: object) -> bool:
        raise CacheFull("there", 194_000_000, 5_000_000)

    building(build)
    large.start()
    until(lambda: heard.done)
    assert len(heard.done) == 1
    assert heard.done[0][1].startswith("Large tables cannot be built: ")
    assert "194 MB are needed, 5 MB are free" in heard.done[0][1]


def test_while_another_process_builds_it_waits(
    large: LargeTables,
    heard: Heard,
    building: Callable[[Build], None],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Another process's build is waited for, and told."""
    monkeypatch.setattr(searching, "PAUSE", 0.001)
    left = [3]

    def build(*_: object) -> bool:
        left[0] -= 1
        if left[0]:
            raise CacheBusy("there")
        return True

    building(build)
    large.start()
    until(lambda: heard.done)
    assert heard.told == [BUSY, BUSY]
    assert heard.done[0][1] == ""


def test_stopping_ends_a_build(heard: Heard, tmp_path: Path) -> None:
    """Stopped, a real build ends soon, frees the folder and says nothing more."""
    began = Event()
    large = LargeTables(tmp_path, lambda _: began.set(), heard.finish)
    large.start()
    until(began.is_set)
    large.stop()
    until(lambda: not large._thread.is_alive())
    assert heard.done == []
    with only_writer(tmp_path):
        assert not list(tmp_path.glob("*.new"))
