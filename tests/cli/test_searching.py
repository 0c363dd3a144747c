"""Searches that build the large tables when they need them, and do without where they must."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from game.cli.progress import ProgressLine
from game.cli.searching import Searcher
from game.cube.cube import SOLVED
from game.cube.geometry import FACES
from game.cube.moves import parse_line
from game.cube.pair import SLOTS
from game.errors import CacheBusy, CacheError, CacheFull
from game.folders import folders
from game.search import cache, shortest
from game.search.outcome import Outcome, Solved, Stopped
from game.search.tables import Tables

PAIRS = SOLVED.turn(parse_line("R U R' F' U2 F L' U L"))


@pytest.fixture
def watch() -> ProgressLine:
    return ProgressLine()


@pytest.fixture
def long(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every search that looks at any nodes is a long one."""
    monkeypatch.setattr(cache, "ENOUGH", 1)


Building = Callable[[Callable[[], bool]], None]


@pytest.fixture
def building(monkeypatch: pytest.MonkeyPatch) -> Building:
    """Has the large tables built by a function, which tells whether they are done."""

    def use(build: Callable[[], bool]) -> None:
        monkeypatch.setattr(cache, "build_near_sets", lambda *_: build())

    return use


def cache_of(data_dir: Path) -> Path:
    return folders(data_dir).cache


def search(searcher: Searcher, watch: ProgressLine) -> Outcome:
    return searcher.search(PAIRS, SLOTS, FACES, watch)


def test_a_short_search_builds_nothing(
    data_dir: Path, watch: ProgressLine, building: Building
) -> None:
    """What the small tables find quickly needs no others."""
    calls: list[int] = []
    building(lambda: bool(calls.append(1)))
    outcome = search(Searcher(cache_of(data_dir)), watch)
    assert isinstance(outcome, Solved)
    assert (outcome.complete, calls) == (True, [])


@pytest.mark.usefixtures("long")
def test_a_long_search_has_them_built_first(
    data_dir: Path,
    building: Building,
    tables: Tables,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """They are built once, with a word, read once, and the search ends as it would without."""
    done: list[str] = []

    def build() -> bool:
        done.append("built")
        return True

    def load(_: Path) -> Tables:
        done.append("read")
        return tables

    building(build)
    monkeypatch.setattr(cache, "load_all_tables", load)
    searcher, watch = Searcher(cache_of(data_dir)), ProgressLine()
    first, second = search(searcher, watch), search(searcher, watch)
    assert done == ["read", "built", "read"]
    assert first == second == shortest.search(PAIRS, SLOTS, tables=tables)
    assert capsys.readouterr().err == "This takes the large tables, 194 MB; they are built once.\n"


@pytest.mark.usefixtures("long")
@pytest.mark.parametrize("fault", [CacheFull("there", 194_000_000, 5_000_000), CacheError("no")])
def test_without_room_it_goes_on_without(
    data_dir: Path,
    watch: ProgressLine,
    building: Building,
    capsys: pytest.CaptureFixture[str],
    fault: CacheError,
) -> None:
    """A refusal is told in one line, once, and the search goes on to its end."""

    def refuse() -> bool:
        raise fault

    building(refuse)
    searcher = Searcher(cache_of(data_dir))
    for _ in range(2):
        outcome = search(searcher, watch)
        assert isinstance(outcome, Solved)
        assert outcome.complete
    assert capsys.readouterr().err.splitlines() == [
        "This takes the large tables, 194 MB; they are built once.",
        f"Going on without: {fault}",
    ]


@pytest.mark.usefixtures("long")
def test_it_waits_while_another_process_builds(
    data_dir: Path, watch: ProgressLine, building: Building, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Refused because another builds, it asks again until that one has ended."""
    monkeypatch.setattr("game.engine.searching.PAUSE", 0)
    left = [3]

    def build() -> bool:
        left[0] -= 1
        if left[0]:
            raise CacheBusy("there")
        return True

    building(build)
    assert isinstance(search(Searcher(cache_of(data_dir)), watch), Solved)
    assert left == [0]


@pytest.mark.usefixtures("long")
def test_ctrl_c_in_a_build_stops_the_search(
    data_dir: Path, watch: ProgressLine, building: Building
) -> None:
    """Stopped while tables are built, what was proven before is told."""

    def build() -> bool:
        watch.stopped = True
        return False

    building(build)
    outcome = search(Searcher(cache_of(data_dir)), watch)
    assert isinstance(outcome, Stopped)
    assert 1 <= outcome.at_least <= 9
