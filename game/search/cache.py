"""The small tables in a file, so that they are built once.

    16 bytes   MAGIC
     4 bytes   version of the numbering and layout, little-endian
     4 bytes   CRC-32 of what follows, little-endian
     9 MB      the distances of the cross with the corner of FR, then with its edge, one byte each

A file that is not exactly this is built again and replaced. It is written under another name in
the same folder and renamed, so another process sees the old file or the new one and nothing else.
"""

from __future__ import annotations

import contextlib
import os
import struct
import tempfile
import zlib
from pathlib import Path

import numpy as np

from game.errors import CacheError
from game.search.coordinates import CROSSES, PLACES
from game.search.tables import PairTables, Tables, build_tables

FILE_NAME = "pair-tables.bin"
VERSION = 1
"""To be raised whenever places, crosses or the layout are numbered in another way."""
MAGIC = b"pairwright table"
_HEADER = struct.Struct("<16sII")
_SHAPE = (2, CROSSES, PLACES)
_FILE_SIZE = _HEADER.size + 2 * CROSSES * PLACES


def load_tables(folder: Path | None) -> Tables:
    """The small tables, from their file in the folder, or built and written there.

    The folder is created when needed. When it cannot be written, and when it is None, the tables
    are built and kept in memory only. Raises nothing.
    """
    if folder is None:
        return build_tables()
    path = folder / FILE_NAME
    try:
        return _read(path)
    except CacheError:
        tables = build_tables()
    with contextlib.suppress(OSError):
        _write(path, tables)
    return tables


def _read(path: Path) -> PairTables:
    """Raises CacheError unless the file holds tables of this version, whole."""
    try:
        if not path.is_file() or path.stat().st_size != _FILE_SIZE:
            raise CacheError(f"{path}: not a file of {_FILE_SIZE} bytes")
        content = path.read_bytes()
    except OSError as error:
        raise CacheError(f"{path}: {error.strerror}") from error
    if len(content) != _FILE_SIZE:
        raise CacheError(f"{path}: changed while it was read")
    payload = memoryview(content)[_HEADER.size :]
    if _HEADER.unpack_from(content) != (MAGIC, VERSION, zlib.crc32(payload)):
        raise CacheError(f"{path}: damaged, or of another version")
    corner, edge = np.frombuffer(payload, dtype=np.uint8).reshape(_SHAPE)
    return PairTables(corner, edge)


def _write(path: Path, tables: PairTables) -> None:
    """Replaces the file in one step. Raises OSError, leaving nothing behind."""
    payload = tables.corner.tobytes() + tables.edge.tobytes()
    path.parent.mkdir(parents=True, exist_ok=True)
    descriptor, name = tempfile.mkstemp(prefix=FILE_NAME, suffix=".new", dir=path.parent)
    try:
        with os.fdopen(descriptor, "wb") as file:
            file.write(_HEADER.pack(MAGIC, VERSION, zlib.crc32(payload)))
            file.write(payload)
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(path)
    finally:
        Path(name).unlink(missing_ok=True)
