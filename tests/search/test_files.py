"""Files of tables: whole or not there, one writer at a time, a full disk said politely."""

from __future__ import annotations

import errno
import os
import shutil
import signal
import struct
import subprocess
import sys
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from game.errors import CacheBusy, CacheError, CacheFull
from game.search import files
from game.search.files import MAGIC, Octets, TableFile, make_room, only_writer

CONTENT = np.random.default_rng(1).integers(0, 256, 100_000, dtype=np.uint8)


@pytest.fixture
def file(tmp_path: Path) -> TableFile:
    """A table of 100,000 bytes, not written yet."""
    return TableFile(tmp_path / "some.bin", 7, len(CONTENT))


def test_what_is_written_is_read(file: TableFile) -> None:
    """A table comes back as it was, whatever the pieces it was written in."""
    file.write([CONTENT[:10], CONTENT[10:60_000].reshape(2, -1), CONTENT[60_000:]])
    assert np.array_equal(file.read(), CONTENT)
    assert [path.name for path in file.path.parent.iterdir()] == ["some.bin"]


def test_the_file_is_as_described(file: TableFile) -> None:
    """Magic, version, checksum, table; the checksum is zlib's own of the whole table."""
    file.write([CONTENT])
    content = file.path.read_bytes()
    assert len(content) == file.size == 24 + len(CONTENT)
    assert content[:16] == MAGIC
    assert struct.unpack_from("<II", content, 16) == (7, zlib.crc32(CONTENT.tobytes()))
    assert content[24:] == CONTENT.tobytes()


def test_a_table_larger_than_a_chunk(file: TableFile, monkeypatch: pytest.MonkeyPatch) -> None:
    """Checked and written in many chunks, the file is the same."""
    file.write([CONTENT])
    whole = file.path.read_bytes()
    monkeypatch.setattr(files, "_CHUNK", 999)
    file.write([CONTENT[:50_000], CONTENT[50_000:]])
    assert file.path.read_bytes() == whole
    assert np.array_equal(file.read(), CONTENT)


def test_a_table_cannot_be_changed(file: TableFile) -> None:
    """What processes share is read only."""
    file.write([CONTENT])
    with pytest.raises(ValueError, match="read-only"):
        file.read()[0] = 1


def flipped(whole: bytes, place: int) -> bytes:
    return whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :]


DAMAGE: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda _: b"",
    "a header only": lambda whole: whole[:24],
    "cut short by a byte": lambda whole: whole[:-1],
    "half": lambda whole: whole[: len(whole) // 2],
    "a byte too long": lambda whole: whole + b"\0",
    "its first bit flipped": lambda whole: flipped(whole, 24),
    "its last bit flipped": lambda whole: flipped(whole, len(whole) - 1),
    "a bit of the checksum flipped": lambda whole: flipped(whole, 20),
    "another program's, as long": lambda whole: b"\x89PNG" + whole[4:],
    "an older version": lambda whole: whole[:16] + struct.pack("<I", 6) + whole[20:],
    "a newer version": lambda whole: whole[:16] + struct.pack("<I", 8) + whole[20:],
    "halves exchanged": lambda whole: whole[:24] + whole[50_024:] + whole[24:50_024],
    "zeros": lambda whole: bytes(len(whole)),
}


@pytest.mark.parametrize("damage", DAMAGE)
def test_a_damaged_file_is_not_read(file: TableFile, damage: str) -> None:
    """Whatever is wrong with it, the file is refused in one line that names it."""
    file.write([CONTENT])
    file.path.write_bytes(DAMAGE[damage](file.path.read_bytes()))
    with pytest.raises(CacheError) as refused:
        file.read()
    assert str(file.path) in str(refused.value)
    assert "\n" not in str(refused.value)


def test_nothing_and_a_folder_are_not_read(file: TableFile) -> None:
    """A file that is not there, and a folder of its name, are refused."""
    with pytest.raises(CacheError):
        file.read()
    file.path.mkdir()
    with pytest.raises(CacheError):
        file.read()


# -- writing that fails --------------------------------------------------------------------------


def test_a_failed_write_leaves_the_old_file(
    file: TableFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the disk fails midway, the old table stays and nothing else is left."""
    file.write([CONTENT])

    def fail(_: int) -> None:
        raise OSError(errno.EIO, "Input/output error")

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(CacheError, match="Input/output error"):
        file.write([CONTENT[::-1].copy()])
    assert np.array_equal(file.read(), CONTENT)
    assert len(list(file.path.parent.iterdir())) == 1


def test_pieces_that_fail_leave_nothing(file: TableFile) -> None:
    """What goes wrong while the table is made comes out, and no half file stays."""

    def pieces() -> Iterator[Octets]:
        yield CONTENT[:10]
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        file.write(pieces())
    assert list(file.path.parent.iterdir()) == []


class Usage(NamedTuple):
    total: int
    used: int
    free: int


def test_too_little_room_is_said_with_both_sizes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Before any work, a full disk is refused: so much is needed, so much is free."""
    monkeypatch.setattr(shutil, "disk_usage", lambda _: Usage(10**9, 10**9 - 5_000_000, 5_000_000))
    make_room(tmp_path, 5_000_000)
    with pytest.raises(CacheFull) as full:
        make_room(tmp_path, 194_000_000)
    assert (full.value.needed, full.value.free) == (194_000_000, 5_000_000)
    assert "194 MB are needed, 5 MB are free" in str(full.value)


def test_a_disk_that_fills_up_is_said(file: TableFile, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that is full while the table is written is the same refusal, and nothing is left."""

    def fill(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", fill)
    with pytest.raises(CacheFull) as full:
        file.write([CONTENT])
    assert full.value.needed == file.size
    assert list(file.path.parent.iterdir()) == []


def test_room_is_made_in_a_new_folder(tmp_path: Path) -> None:
    """The folder and those above it are made; where they cannot be, it is said in one line."""
    make_room(tmp_path / "a" / "b", 0)
    assert (tmp_path / "a" / "b").is_dir()
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(CacheError) as refused:
        make_room(tmp_path / "file" / "b", 0)
    assert "\n" not in str(refused.value)


def test_removing(file: TableFile) -> None:
    """Removing takes the file and what a killed writer left; it tells whether there was one."""
    assert file.remove() is False
    file.write([CONTENT])
    file.unfinished.write_bytes(b"half")
    assert file.remove() is True
    assert list(file.path.parent.iterdir()) == []
    file.path.mkdir()
    with pytest.raises(CacheError):
        file.remove()


# -- one writer ----------------------------------------------------------------------------------

WRITER = """
import sys
from pathlib import Path
import numpy as np
from game.search.files import TableFile, only_writer
def pieces():
    yield np.zeros(50_000, np.uint8)
    print("writing", flush=True)
    sys.stdin.read()
    yield np.zeros(50_000, np.uint8)
folder = Path(sys.argv[1])
with only_writer(folder):
    TableFile(folder / "some.bin", 7, 100_000).write(pieces())
"""


@pytest.fixture
def writing(tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    """Another process in the middle of writing a table; it goes on when its input is closed."""
    command = [sys.executable, "-c", WRITER, str(tmp_path)]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "writing\n"
        yield process
        process.kill()


def test_while_one_writes_another_may_not(writing: subprocess.Popen[str], file: TableFile) -> None:
    """A second writer is refused at once, and may when the first has ended."""
    with pytest.raises(CacheBusy) as busy, only_writer(file.path.parent):
        pass
    assert str(file.path.parent) in str(busy.value)
    assert not file.path.exists()
    writing.communicate()
    assert np.array_equal(file.read(), np.zeros(100_000))
    with only_writer(file.path.parent):
        file.write([CONTENT])
    assert np.array_equal(file.read(), CONTENT)


def test_a_killed_writer_keeps_nobody_out(writing: subprocess.Popen[str], file: TableFile) -> None:
    """After kill -9 the folder is free, no half table is read, and the next writer tidies up."""
    writing.send_signal(signal.SIGKILL)
    writing.wait()
    assert file.unfinished.exists()
    with pytest.raises(CacheError):
        file.read()
    with only_writer(file.path.parent):
        file.write([CONTENT])
    assert np.array_equal(file.read(), CONTENT)
    assert len(list(file.path.parent.iterdir())) == 1


def test_the_same_process_is_kept_out_as_well(tmp_path: Path) -> None:
    """Two threads of one program do not write at once either."""
    with only_writer(tmp_path), pytest.raises(CacheBusy), only_writer(tmp_path):
        pass
    with only_writer(tmp_path):
        pass
