"""The table file: written once, checked, rebuilt when anything is wrong with it."""

from __future__ import annotations

import os
import struct
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from game.cube.geometry import FACES
from game.search import cache
from game.search.cache import FILE_NAME, MAGIC, VERSION, load_tables
from game.search.tables import KINDS, Distances, PairTables, Tables, distances

Check = Callable[[Tables], None]


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A whole table file."""
    folder = tmp_path_factory.mktemp("written")
    load_tables(folder)
    return (folder / FILE_NAME).read_bytes()


@pytest.fixture(scope="module")
def built() -> dict[str, Distances]:
    """The tables, as a search from home builds them."""
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
    """Building tables is an error."""

    def refuse() -> PairTables:
        raise AssertionError("built again")

    monkeypatch.setattr(cache, "build_tables", refuse)


def test_the_file_is_as_described(written: bytes) -> None:
    """Magic, version, checksum and two tables of a byte a state."""
    assert written[:16] == MAGIC
    assert struct.unpack_from("<I", written, 16) == (VERSION,)
    assert len(written) == 24 + 2 * 190080 * 24


@pytest.mark.usefixtures("no_building")
def test_a_whole_file_is_read_and_not_built(check: Check, tmp_path: Path, written: bytes) -> None:
    """The second start reads what the first has written."""
    (tmp_path / FILE_NAME).write_bytes(written)
    check(load_tables(tmp_path))


def test_nothing_but_the_file_is_left(check: Check, tmp_path: Path) -> None:
    """A folder that did not exist is made, and holds one file."""
    folder = tmp_path / "new" / "cache"
    check(load_tables(folder))
    assert [path.name for path in folder.iterdir()] == [FILE_NAME]


def test_no_folder_is_memory_only(check: Check) -> None:
    """Without a folder the tables are built."""
    check(load_tables(None))


DAMAGE: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda _: b"",
    "a header only": lambda whole: whole[:24],
    "cut short by a byte": lambda whole: whole[:-1],
    "half": lambda whole: whole[: len(whole) // 2],
    "a byte too long": lambda whole: whole + b"\0",
    "a bit of the first table flipped": lambda whole: flipped(whole, 1000),
    "the last bit flipped": lambda whole: flipped(whole, len(whole) - 1),
    "a bit of the checksum flipped": lambda whole: flipped(whole, 20),
    "another program's, as long": lambda whole: b"\x89PNG" + whole[4:],
    "an older version": lambda whole: whole[:16] + struct.pack("<I", VERSION - 1) + whole[20:],
    "a newer version": lambda whole: whole[:16] + struct.pack("<I", VERSION + 1) + whole[20:],
    "the tables exchanged": lambda whole: whole[:24] + exchanged(whole[24:]),
    "zeros": lambda whole: bytes(len(whole)),
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
    path = tmp_path / FILE_NAME
    path.write_bytes(DAMAGE[damage](written))
    check(load_tables(tmp_path))
    assert path.read_bytes() == written
    assert len(list(tmp_path.iterdir())) == 1


def test_a_folder_in_its_place_costs_the_cache_only(check: Check, tmp_path: Path) -> None:
    """Where a folder has the file's name, the tables are built in memory and it is left alone."""
    (tmp_path / FILE_NAME / "inside").mkdir(parents=True)
    check(load_tables(tmp_path))
    assert [path.name for path in tmp_path.iterdir()] == [FILE_NAME]
    assert (tmp_path / FILE_NAME / "inside").is_dir()


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


def test_two_processes_at_once(tmp_path: Path, written: bytes) -> None:
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
    assert [path.name for path in tmp_path.iterdir()] == [FILE_NAME]
    assert (tmp_path / FILE_NAME).read_bytes() == written
