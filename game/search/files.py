"""A file of a table: whole, or not there.

    16 bytes   MAGIC
     4 bytes   version of the numbering and layout, little-endian
     4 bytes   CRC-32 of what follows, little-endian
               the table

It is written under another name beside its place and then renamed, so another process sees the
old file or the new one and nothing else. Who writes holds a lock on the folder: the system lets go
of it when the process ends, however that happens. What a killed process leaves is written over by
the next one. A file that is read is mapped into memory, which all processes share.
"""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import struct
import sys
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from game.errors import CacheBusy, CacheError, CacheFull

if sys.platform != "win32":
    import fcntl

MAGIC = b"pairwright table"
_HEADER = struct.Struct("<16sII")
_CHUNK = 1 << 22
"""Bytes that are checked or written at a time."""

Octets = NDArray[np.uint8]


@dataclass(frozen=True)
class TableFile:
    """Where a table is kept. payload: bytes of the table itself."""

    path: Path
    version: int
    payload: int

    @property
    def size(self) -> int:
        """Bytes of the whole file."""
        return _HEADER.size + self.payload

    @property
    def unfinished(self) -> Path:
        """The name under which it is written."""
        return self.path.with_name(f"{self.path.name}.new")

    def read(self) -> Octets:
        """The table, mapped into memory. Raises CacheError unless the file is whole."""
        try:
            if not self.path.is_file() or self.path.stat().st_size != self.size:
                raise CacheError(f"{self.path}: not a file of {self.size} bytes")
            content = np.memmap(self.path, dtype=np.uint8, mode="r").view(np.ndarray)
        except OSError as error:
            raise CacheError(f"{self.path}: {error.strerror}") from error
        if len(content) != self.size:
            raise CacheError(f"{self.path}: changed while it was read")
        payload = content[_HEADER.size :]
        if content[: _HEADER.size].tobytes() != self._header(_checksum(0, payload)):
            raise CacheError(f"{self.path}: damaged, or of another version")
        return payload

    def write(self, pieces: Iterable[Octets]) -> None:
        """Replaces the file by these pieces in one step.

        Raises CacheFull when the disk is, CacheError for any other refusal, and whatever the
        pieces raise, leaving nothing behind.
        """
        try:
            with self.unfinished.open("wb") as file:
                file.write(bytes(_HEADER.size))
                checksum = 0
                for piece in pieces:
                    checksum = _checksum(checksum, piece)
                    for chunk in _chunks(piece):
                        file.write(chunk)
                file.seek(0)
                file.write(self._header(checksum))
                file.flush()
                os.fsync(file.fileno())
            self.unfinished.replace(self.path)
        except OSError as error:
            if error.errno == errno.ENOSPC:
                raise _full(self.path.parent, self.size) from error
            raise CacheError(f"{self.path}: {error.strerror}") from error
        finally:
            with contextlib.suppress(OSError):
                self.unfinished.unlink(missing_ok=True)

    def remove(self) -> bool:
        """Takes the file away; whether there was one. Raises CacheError."""
        try:
            self.unfinished.unlink(missing_ok=True)
            self.path.unlink()
        except FileNotFoundError:
            return False
        except OSError as error:
            raise CacheError(f"{self.path}: {error.strerror}") from error
        return True

    def _header(self, checksum: int) -> bytes:
        return _HEADER.pack(MAGIC, self.version, checksum)


def _chunks(piece: Octets) -> Iterator[memoryview]:
    flat = piece.reshape(-1).data
    return (flat[first : first + _CHUNK] for first in range(0, len(flat), _CHUNK))


def _checksum(so_far: int, piece: Octets) -> int:
    for chunk in _chunks(piece):
        so_far = zlib.crc32(chunk, so_far)
    return so_far


def _full(folder: Path, needed: int) -> CacheFull:
    return CacheFull(str(folder), needed, shutil.disk_usage(folder).free)


def make_room(folder: Path, needed: int) -> None:
    """Makes the folder if need be. Raises CacheFull if it has not so many bytes, CacheError."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        free = shutil.disk_usage(folder).free
    except OSError as error:
        raise CacheError(f"{folder}: {error.strerror}") from error
    if free < needed:
        raise CacheFull(str(folder), needed, free)


@contextlib.contextmanager
def only_writer(folder: Path) -> Iterator[None]:
    """Within, no other process writes tables in the folder. Raises CacheBusy while one does.

    Where a folder cannot be locked nobody is kept out: two that write at once may then leave a
    damaged file, which is not read but built again.
    """
    if sys.platform == "win32":
        yield
        return
    try:
        lock = os.open(folder, os.O_RDONLY)
    except OSError as error:
        raise CacheError(f"{folder}: {error.strerror}") from error
    try:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            raise CacheBusy(str(folder)) from error
        except OSError:  # a file system without locks
            pass
        yield
    finally:
        os.close(lock)
