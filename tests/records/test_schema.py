"""The tables, from every earlier version."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from game.errors import RecordsError
from game.records import open_records
from game.records.database import connect
from game.records.schema import APPLICATION, MIGRATIONS
from tests.records.samples import SAMPLE

EARLIER: dict[int, str] = {0: ""}
"""Version -> the statements that make a database as that version left it, with a row or more.

A new migration adds the version before it here, copied out of the schema as it was released.
"""
LATER = (*MIGRATIONS, ("ALTER TABLE attempt ADD COLUMN mood TEXT",))


def facts(path: Path) -> tuple[int, int]:
    """Version and application id of a file."""
    with closing(sqlite3.connect(path)) as file:
        version = file.execute("PRAGMA user_version").fetchone()[0]
        return version, file.execute("PRAGMA application_id").fetchone()[0]


def tables(path: Path) -> list[tuple[str, str]]:
    """Names and statements of what a database holds."""
    with closing(sqlite3.connect(path)) as file:
        return file.execute("SELECT name, sql FROM sqlite_master ORDER BY name").fetchall()


def test_every_earlier_version_has_a_fixture() -> None:
    """No version before the current one is left without a migration test."""
    assert EARLIER
    assert set(EARLIER) == set(range(len(MIGRATIONS)))


@pytest.mark.parametrize("version", EARLIER)
def test_migration_from_every_earlier_version(tmp_path: Path, version: int) -> None:
    """An earlier database becomes what a new one is, keeps its rows and takes new ones."""
    path = tmp_path / "records.db"
    with closing(sqlite3.connect(path)) as file:
        file.executescript(EARLIER[version])
        if version:
            file.execute(f"PRAGMA user_version = {version}")
            file.execute(f"PRAGMA application_id = {APPLICATION}")
    path.touch()
    store = open_records(path)
    before = sum(best.attempts for best in store.bests().values())
    assert (before > 0) == (version > 0)
    store.add(SAMPLE)
    assert SAMPLE in store.attempts(SAMPLE.position)
    store.close()
    assert facts(path) == (len(MIGRATIONS), APPLICATION)
    open_records(tmp_path / "new.db").add(SAMPLE)
    assert tables(path) == tables(tmp_path / "new.db")


def made(path: Path) -> None:
    """A database of the current version with one attempt."""
    store = open_records(path)
    store.add(SAMPLE)
    store.close()


def test_a_migration_keeps_a_copy(tmp_path: Path) -> None:
    """Before a database is migrated a whole copy of it is kept under its version and the date."""
    path = tmp_path / "records.db"
    made(path)
    connect(path, LATER).close()
    assert facts(path) == (len(LATER), APPLICATION)
    (copy,) = tmp_path.glob(f"records.db.version-{len(MIGRATIONS)}-*")
    assert facts(copy) == (len(MIGRATIONS), APPLICATION)
    assert open_records(copy).attempts(SAMPLE.position) == (SAMPLE,)


def test_a_failed_migration_changes_nothing(tmp_path: Path) -> None:
    """A step that fails takes the steps before it back, and the database stays usable."""
    path = tmp_path / "records.db"
    made(path)
    before = tables(path)
    with pytest.raises(RecordsError, match="cannot be used"):
        connect(path, (*LATER, ("CREATE TABLE other (x)", "ALTER TABLE nowhere ADD COLUMN y")))
    assert tables(path) == before
    assert open_records(path).attempts(SAMPLE.position) == (SAMPLE,)


def test_no_copy_without_a_migration(tmp_path: Path) -> None:
    """Opening a current database again leaves one file."""
    path = tmp_path / "records.db"
    made(path)
    made(path)
    assert list(tmp_path.iterdir()) == [path]
