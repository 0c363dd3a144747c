"""The tables' files: written once, checked, rebuilt when anything is wrong with them."""

from __future__ import annotations

import os
import shutil
import signal
import struct
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from game.cube.geometry import FACES
from game.errors import CacheBusy, CacheError, CacheFull
from game.search import cache
from game.search.cache import (
    VERSION,
    build_near_sets,
    fault,
    load_all_tables,
    load_tables,
    missing,
    near_file,
    pair_file,
    table_files,
)
from game.search.files import MAGIC, only_writer
from game.search.growth import Growing
from game.search.near import CROSS_PAIR, PARTS, Bits, NearTables, Part
from game.search.tables import KINDS, Distances, PairTables, Tables, distances
from tests.search.conftest import SMALL_PARTS

Check = Callable[[Tables], None]


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A whole file of the small tables."""
    folder = tmp_path_factory.mktemp("written")
    load_tables(folder)
    return pair_file(folder).path.read_bytes()


@pytest.fixture(scope="module")
def built() -> dict[str, Distances]:
    """The small tables, as a search from home builds them."""
    return {kind: distances(kind) for kind in KINDS}


@pytest.fixture
def check(built: dict[str, Distances]) -> Check:
    """Asserts that tables are those."""

    def compare(tables: Tables) -> None:
        assert isinstance(tables, PairTables)
        for kind in KINDS:
            assert np.array_equal(tables.table(kind, "FR", FACES), built[kind])

    return compare


@pytest.fixture
def no_building(monkeypatch: pytest.MonkeyPatch) -> None:
    """Building anything is an error."""

    def refuse(*_: object) -> PairTables:
        raise AssertionError("built again")

    monkeypatch.setattr(cache, "build_tables", refuse)
    monkeypatch.setattr(cache, "near_sets", refuse)


# -- the small tables ----------------------------------------------------------------------------


def test_the_file_is_as_described(written: bytes) -> None:
    """Magic, version, checksum and two tables of a byte a state."""
    assert written[:16] == MAGIC
    assert struct.unpack_from("<I", written, 16) == (VERSION,)
    assert len(written) == 24 + 2 * 190080 * 24


@pytest.mark.usefixtures("no_building")
def test_a_whole_file_is_read_and_not_built(check: Check, tmp_path: Path, written: bytes) -> None:
    """The second start reads what the first has written."""
    pair_file(tmp_path).path.write_bytes(written)
    check(load_tables(tmp_path))


def test_nothing_but_the_file_is_left(check: Check, tmp_path: Path) -> None:
    """A folder that did not exist is made, and holds one file."""
    folder = tmp_path / "new" / "cache"
    check(load_tables(folder))
    assert list(folder.iterdir()) == [pair_file(folder).path]


def test_no_folder_is_memory_only(check: Check) -> None:
    """Without a folder the tables are built."""
    check(load_tables(None))


DAMAGE: dict[str, Callable[[bytes], bytes]] = {
    "half": lambda whole: whole[: len(whole) // 2],
    "a bit of the first table flipped": lambda whole: flipped(whole, 1000),
    "another version": lambda whole: whole[:16] + struct.pack("<I", VERSION + 1) + whole[20:],
    "the tables exchanged": lambda whole: whole[:24] + exchanged(whole[24:]),
}


def flipped(whole: bytes, place: int) -> bytes:
    return whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :]


def exchanged(tables: bytes) -> bytes:
    middle = len(tables) // 2
    return tables[middle:] + tables[:middle]


@pytest.mark.parametrize("damage", DAMAGE)
def test_a_damaged_file_is_rebuilt(
    check: Check, tmp_path: Path, written: bytes, damage: str
) -> None:
    """Whatever is wrong with the file, right tables come back and the file is whole again."""
    path = pair_file(tmp_path).path
    path.write_bytes(DAMAGE[damage](written))
    check(load_tables(tmp_path))
    assert path.read_bytes() == written
    assert len(list(tmp_path.iterdir())) == 1


def test_a_folder_in_its_place_costs_the_cache_only(check: Check, tmp_path: Path) -> None:
    """Where a folder has the file's name, the tables are built in memory and it is left alone."""
    path = pair_file(tmp_path).path
    (path / "inside").mkdir(parents=True)
    check(load_tables(tmp_path))
    assert list(tmp_path.iterdir()) == [path]
    assert (path / "inside").is_dir()


def test_a_file_in_place_of_the_folder_costs_the_cache_only(check: Check, tmp_path: Path) -> None:
    """Where the cache folder cannot be made, the tables are built in memory."""
    in_the_way = tmp_path / "cache"
    in_the_way.write_text("not a folder")
    check(load_tables(in_the_way))
    assert in_the_way.read_text() == "not a folder"


def test_a_folder_that_refuses_costs_the_cache_only(
    check: Check, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When writing fails midway, the tables are right and no half file is left."""

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    check(load_tables(tmp_path))
    assert list(tmp_path.iterdir()) == []


def test_while_another_writes_the_tables_are_built_in_memory(check: Check, tmp_path: Path) -> None:
    """A folder in which another process writes is left to it."""
    with only_writer(tmp_path):
        check(load_tables(tmp_path))
    assert list(tmp_path.iterdir()) == []


def test_processes_at_once(tmp_path: Path, written: bytes) -> None:
    """Processes that start together on no file all end well and leave one whole file."""
    program = (
        "import sys, zlib; from pathlib import Path; from game.search.cache import load_tables\n"
        "tables = load_tables(Path(sys.argv[1]))\n"
        "print(zlib.crc32(tables.corner.tobytes() + tables.edge.tobytes()))"
    )
    command = [sys.executable, "-c", program, str(tmp_path)]
    running = [subprocess.Popen(command, stdout=subprocess.PIPE, text=True) for _ in range(3)]
    answers = {process.communicate()[0].strip() for process in running}
    assert [process.returncode for process in running] == [0, 0, 0]
    assert answers == {str(struct.unpack_from("<I", written, 20)[0])}
    assert list(tmp_path.iterdir()) == [pair_file(tmp_path).path]
    assert pair_file(tmp_path).path.read_bytes() == written


# -- the near sets -------------------------------------------------------------------------------

QUICK = (replace(CROSS_PAIR, turns=(1, 2)), replace(CROSS_PAIR, name="again", turns=(2, 3)))
"""Parts whose sets are made at once."""


@pytest.fixture(scope="module")
def quick(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the files of the quick parts."""
    folder = tmp_path_factory.mktemp("quick")
    assert build_near_sets(folder, parts=QUICK)
    return folder


@pytest.fixture
def folder(quick: Path, tmp_path: Path) -> Path:
    """A copy of it."""
    return Path(shutil.copytree(quick, tmp_path / "tables"))


def test_built_sets_are_read(
    tmp_path: Path, sets: dict[Part, dict[int, Bits]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was built for both parts comes back, beside the small tables."""
    monkeypatch.setattr(cache, "near_sets", lambda part, *_: iter(sets[part].items()))
    assert build_near_sets(tmp_path, parts=SMALL_PARTS)
    tables = load_all_tables(tmp_path, SMALL_PARTS)
    assert isinstance(tables, NearTables)
    assert isinstance(tables.small, PairTables)
    assert tables.sets.keys() == sets.keys()
    for part, some in sets.items():
        assert tables.sets[part].keys() == some.keys()
        assert all(np.array_equal(tables.sets[part][turns], some[turns]) for turns in some)


@pytest.mark.usefixtures("no_building")
def test_what_is_whole_is_not_built_again(folder: Path) -> None:
    """A second build finds everything there."""
    assert missing(folder, QUICK) == ()
    assert build_near_sets(folder, parts=QUICK)


@pytest.mark.parametrize("damage", ["half", "a bit of the first table flipped", "another version"])
def test_only_what_is_damaged_is_built_again(folder: Path, damage: str) -> None:
    """A damaged file is not used, is missing, and is built again; the other stays as it is."""
    first, second = (near_file(folder, part).path for part in QUICK)
    whole = first.read_bytes()
    kept = second.stat().st_ino
    first.write_bytes(DAMAGE[damage](whole))
    assert missing(folder, QUICK) == QUICK[:1]
    tables = load_all_tables(folder, QUICK)
    assert isinstance(tables, NearTables)
    assert list(tables.sets) == [QUICK[1]]
    assert build_near_sets(folder, parts=QUICK)
    assert first.read_bytes() == whole
    assert second.stat().st_ino == kept


def test_without_files_there_are_the_small_tables(check: Check, tmp_path: Path) -> None:
    """Nothing large is built unless it is asked for."""
    check(load_all_tables(tmp_path))
    assert missing(tmp_path) == PARTS
    assert list(tmp_path.iterdir()) == [pair_file(tmp_path).path]


def test_progress_is_told_of_the_whole_work(tmp_path: Path) -> None:
    """What is done of all parts together grows from near nothing to near everything."""
    told: list[Growing] = []
    assert build_near_sets(tmp_path, told.append, parts=QUICK)
    done = [growing.done for growing in told]
    assert done == sorted(done)
    assert done[0] < 0.1
    assert 0.9 < done[-1] <= 1
    assert [part for part in QUICK if any(growing.part == part for growing in told)] == [*QUICK]


def test_a_cancelled_build_keeps_what_is_finished(tmp_path: Path) -> None:
    """Cancelled in the second part, the first is there and whole, and nothing half made is."""
    now: list[Part] = []
    finished = build_near_sets(
        tmp_path,
        lambda growing: now.append(growing.part),
        lambda: bool(now) and now[-1] == QUICK[1],
        QUICK,
    )
    assert finished is False
    assert missing(tmp_path, QUICK) == QUICK[1:]
    assert list(tmp_path.iterdir()) == [near_file(tmp_path, QUICK[0]).path]


class Usage(NamedTuple):
    total: int
    used: int
    free: int


@pytest.mark.usefixtures("no_building")
def test_a_full_disk_is_refused_before_the_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With less room than all the files need, nothing is built; both sizes are told."""
    monkeypatch.setattr(shutil, "disk_usage", lambda _: Usage(10**9, 0, 100_000_000))
    with pytest.raises(CacheFull) as full:
        build_near_sets(tmp_path)
    assert full.value.needed == sum(near_file(tmp_path, part).size for part in PARTS)
    assert full.value.free == 100_000_000
    assert list(tmp_path.iterdir()) == []


def test_only_one_process_builds(folder: Path) -> None:
    """While another writes there, a build is refused at once; what is there can be read."""
    with only_writer(folder):
        with pytest.raises(CacheBusy):
            build_near_sets(folder, parts=QUICK)
        assert isinstance(load_all_tables(folder, QUICK), NearTables)


def test_a_folder_that_cannot_be_is_refused(tmp_path: Path) -> None:
    """Where the folder cannot be made, it is said in one line."""
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(CacheError) as refused:
        build_near_sets(tmp_path / "file", parts=QUICK)
    assert "\n" not in str(refused.value)


BUILDER = """
import sys
from pathlib import Path
from game.search.cache import build_near_sets
from game.search.near import PARTS
def tell(growing):
    print(growing.turns, flush=True)
build_near_sets(Path(sys.argv[1]), tell, parts=PARTS[1:])
"""


@pytest.fixture
def building(tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    """Another process, some turns into building the larger sets."""
    command = [sys.executable, "-c", BUILDER, str(tmp_path)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert any(line.strip() == "2" for line in process.stdout)
        yield process
        process.kill()


def test_a_killed_build_is_begun_again(building: subprocess.Popen[str], tmp_path: Path) -> None:
    """After kill -9 nothing is taken for a table, nobody is kept out, and nothing half stays."""
    with pytest.raises(CacheBusy):
        build_near_sets(tmp_path, parts=QUICK)
    building.send_signal(signal.SIGKILL)
    building.wait()
    assert missing(tmp_path) == PARTS
    assert build_near_sets(tmp_path, parts=QUICK)
    assert missing(tmp_path, QUICK) == ()
    assert build_near_sets(tmp_path, cancelled=lambda: True, parts=PARTS[1:]) is False
    assert {path.name for path in tmp_path.iterdir()} == {"cross-pair.bin", "again.bin"}


# -- all files -----------------------------------------------------------------------------------


def test_faults_of_files(folder: Path) -> None:
    """A file is whole, not there, or damaged."""
    file = near_file(folder, QUICK[0])
    assert fault(file) == ""
    file.path.write_bytes(file.path.read_bytes()[:-1])
    assert fault(file) == "damaged, or of another version"
    file.remove()
    assert fault(file) == "not there"


def test_every_file_has_its_own_name(tmp_path: Path) -> None:
    """The small tables and each part have a file of their own."""
    paths = [file.path for file in table_files(tmp_path)]
    assert len(set(paths)) == 1 + len(PARTS)
    assert {path.parent for path in paths} == {tmp_path}
