"""Opening the database file: whose it is, whether it is whole, its version.

    nothing there            made, with its folder
    held by another          waited for, then RecordsLocked
    of a later version       RecordsNewer; not a byte of it is changed
    foreign, damaged, cut    moved aside under a dated name, then RecordsDamaged
    not to be written        RecordsUnwritable

Write-ahead logging and full synchronising: what has been committed survives the end of the
process and of the machine, and a second copy of the game can read and write as well.
"""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import BinaryIO

from game.errors import (
    RecordsDamaged,
    RecordsError,
    RecordsLocked,
    RecordsNewer,
    RecordsUnwritable,
)
from game.folders import dated, move_aside
from game.records.schema import APPLICATION, MIGRATIONS

WAIT_MS = 3000
"""How long a database that another program holds is waited for."""

_LOCKED = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
_DAMAGED = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
_UNWRITABLE = (
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_PERM,
)

Migrations = tuple[tuple[str, ...], ...]


def connect(path: Path | None, migrations: Migrations = MIGRATIONS) -> sqlite3.Connection:
    """An open database of the current version, made or migrated; in memory when path is None.

    Raises RecordsLocked, RecordsNewer, RecordsDamaged (the file has then been moved aside) and
    RecordsUnwritable.
    """
    if path is None:
        return _prepared(sqlite3.connect(":memory:", isolation_level=None), None, migrations)
    with translated(path):
        if path.exists() and not path.is_file():
            raise RecordsUnwritable(f"{path} is no file; attempts cannot be kept there")
        _refuse_newer(path, len(migrations))
        path.parent.mkdir(parents=True, exist_ok=True)
        before = identity(path)
        connection = sqlite3.connect(path, timeout=WAIT_MS / 1000, isolation_level=None)
        try:
            return _prepared(connection, path, migrations)
        except BaseException as error:
            connection.close()
            # Another copy of the game may have put a whole file in its place meanwhile.
            if _is_damage(error) and before is not None and identity(path) == before:
                raise _moved_aside(path) from None
            raise


@contextmanager
def translated(path: Path | None) -> Iterator[None]:
    """SQLite's and the system's errors become ours, by cause, naming the file."""
    try:
        yield
    except sqlite3.Error as error:
        code = _code(error)
        if code in _LOCKED:
            waited = f"waited {WAIT_MS // 1000} seconds for another program"
            raise RecordsLocked(f"{path} is locked; {waited}") from None
        if code in _DAMAGED:
            raise RecordsDamaged(f"{path} is damaged: {error}") from None
        if code in _UNWRITABLE:
            raise RecordsUnwritable(f"{path} cannot be written: {error}") from None
        raise RecordsError(f"{path} cannot be used: {error}") from None
    except OSError as error:
        why = error.strerror or str(error)
        raise RecordsUnwritable(f"{path} cannot be written: {why}") from None


def _code(error: sqlite3.Error) -> int:
    """SQLite's primary result code; 0 for an error without a code."""
    return getattr(error, "sqlite_errorcode", 0) & 0xFF


def _is_damage(error: BaseException) -> bool:
    if isinstance(error, sqlite3.Error):
        return _code(error) in _DAMAGED
    return isinstance(error, RecordsDamaged)


def identity(path: Path) -> tuple[int, int] | None:
    """The identity of the file, whatever its name is; None if it does not exist."""
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    return found.st_dev, found.st_ino


def is_database(file: BinaryIO) -> bool:
    """Whether a file begins as a database does (SQLite's file format, section 1.3).

    The file must be kept open as long as a connection is: closing it lets go of all locks that
    this process has on it, SQLite's too (POSIX, fcntl), and another process would then take away
    the log that the connection writes to.
    """
    file.seek(0)
    return file.read(16) == b"SQLite format 3\0"


def _refuse_newer(path: Path, current: int) -> None:
    """Raise RecordsNewer for a later version, reading in a way that cannot change anything.

    Whether the file is whole is not judged here: another copy may be writing to it.
    """
    if not path.exists():
        return
    uri = f"{path.absolute().as_uri()}?mode=ro&immutable=1"
    try:
        with closing(sqlite3.connect(uri, uri=True)) as peek:
            version, application = _whose(peek)
    except sqlite3.DatabaseError:
        return
    _check_version(path, version, application, current)


def _check_version(path: Path | None, version: int, application: int, current: int) -> None:
    if application == APPLICATION and version > current:
        told = f"version {version}; this program knows up to {current}"
        raise RecordsNewer(f"{path} was written by a later Pairwright ({told}); left as it is")


def _whose(connection: sqlite3.Connection) -> tuple[int, int]:
    """Version and application id in the file's header."""
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    application: int = connection.execute("PRAGMA application_id").fetchone()[0]
    return version, application


def _prepared(
    connection: sqlite3.Connection, path: Path | None, migrations: Migrations
) -> sqlite3.Connection:
    connection.text_factory = lambda raw: raw.decode("utf-8", "replace")
    connection.row_factory = sqlite3.Row
    _check_ours(connection, path, len(migrations))
    if path is not None:
        _write_ahead(connection)
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    if _whose(connection)[0] < len(migrations):
        _migrate(connection, path, migrations)
    return connection


def _write_ahead(connection: sqlite3.Connection) -> None:
    """Switch to write-ahead logging; SQLite does not itself wait for another that does the same."""
    deadline = time.monotonic() + WAIT_MS / 1000
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as error:
            if _code(error) not in _LOCKED or time.monotonic() > deadline:
                raise
            time.sleep(0.01)


def _check_ours(connection: sqlite3.Connection, path: Path | None, current: int) -> None:
    """Raise RecordsDamaged for a foreign or damaged database, RecordsNewer for a later one."""
    with transaction(connection, "DEFERRED"):
        version, application = _whose(connection)
        tables = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    _check_version(path, version, application, current)
    if tables and application != APPLICATION:
        raise RecordsDamaged(f"{path} is not a database of attempts")
    verdict = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if verdict != "ok":
        raise RecordsDamaged(f"{path} is damaged: {verdict}")


def _migrate(connection: sqlite3.Connection, path: Path | None, migrations: Migrations) -> None:
    """All steps to the current version in one transaction, a copy of an earlier one kept first."""
    version = _whose(connection)[0]
    if path is not None and version > 0:
        with closing(sqlite3.connect(dated(path, f"version-{version}"))) as copy:
            connection.backup(copy)
    with transaction(connection):
        # Another copy of the game may have been faster.
        for statements in migrations[_whose(connection)[0] :]:
            for statement in statements:
                connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        connection.execute(f"PRAGMA user_version = {len(migrations)}")


@contextmanager
def transaction(connection: sqlite3.Connection, kind: str = "IMMEDIATE") -> Iterator[None]:
    """All of the statements within or none of them."""
    connection.execute(f"BEGIN {kind}")
    try:
        yield
    except BaseException:
        if connection.in_transaction:  # SQLite itself has rolled back after some errors
            connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def _moved_aside(path: Path) -> RecordsDamaged | RecordsUnwritable:
    """Move the file and SQLite's two companions aside; the error that says so."""
    try:
        target = move_aside(path, "damaged")
        for companion in ("-wal", "-shm"):
            beside = path.with_name(path.name + companion)
            if beside.exists():
                beside.rename(target.with_name(target.name + companion))
    except OSError as error:
        why = error.strerror or str(error)
        return RecordsUnwritable(f"{path} is damaged and cannot be moved aside: {why}")
    return RecordsDamaged(
        f"The records are damaged or not a database of attempts; moved aside to {target.name} in"
        f" {path.parent}"
    )
