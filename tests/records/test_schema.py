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

VERSION_1 = """
    CREATE TABLE attempt (
        number INTEGER PRIMARY KEY,
        position TEXT NOT NULL,          -- its canonical text
        puzzle TEXT NOT NULL,            -- pack/level, or empty
        outcome TEXT NOT NULL,           -- solved, gave up, abandoned
        turns INTEGER NOT NULL,          -- outer block turns
        executed INTEGER NOT NULL,       -- execution turns
        par INTEGER,
        at_hand INTEGER,                 -- 0, 1, or NULL when unknown
        shown INTEGER NOT NULL,
        hint INTEGER NOT NULL,
        called TEXT NOT NULL,            -- right, wrong, or empty
        far_side TEXT NOT NULL,          -- always, asked, never
        seeing_ms INTEGER,
        first_side_ms INTEGER,
        doing_ms INTEGER,
        mode TEXT NOT NULL,
        run TEXT NOT NULL,
        player TEXT NOT NULL,
        began TEXT NOT NULL,             -- ISO 8601 in UTC
        offset_minutes INTEGER NOT NULL, -- of the player's clock from UTC
        version TEXT NOT NULL            -- of the program
    );
    CREATE INDEX attempt_position ON attempt (position);
    CREATE TABLE attempt_events (
        number INTEGER PRIMARY KEY REFERENCES attempt (number),
        events TEXT NOT NULL             -- JSON: [[milliseconds, done], ...]
    );
    CREATE TABLE shown (
        position TEXT PRIMARY KEY,       -- its solutions have been seen
        at TEXT NOT NULL
    );
    CREATE TABLE in_hand (
        position TEXT PRIMARY KEY,
        puzzle TEXT NOT NULL,
        events TEXT NOT NULL,
        elapsed_ms INTEGER NOT NULL,
        at TEXT NOT NULL
    );
    INSERT INTO attempt VALUES (1, 'old', 'pack/level', 'solved', 3, 3, 3, 1, 0, 0, '', 'always',
        900, 900, 700, 'casual', '', '', '2026-11-20T10:15:00.000Z', 60, '0.1.0');
    INSERT INTO attempt_events VALUES (1, '[[900,"R"],[1200,"U"],[1600,"R''"]]');
    INSERT INTO shown VALUES ('old', '2026-11-20T10:15:00.000Z');
    INSERT INTO in_hand VALUES ('other', '', '[[100,"R"]]', 200, '2026-11-20T10:15:00.000Z');
"""
EARLIER: dict[int, str] = {0: "", 1: VERSION_1}
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


def test_a_row_of_version_1_stays_whole(tmp_path: Path) -> None:
    """An attempt of the first version is read as it was, and was not inspected."""
    path = tmp_path / "records.db"
    with closing(sqlite3.connect(path)) as file:
        file.executescript(VERSION_1)
        file.execute("PRAGMA user_version = 1")
        file.execute(f"PRAGMA application_id = {APPLICATION}")
    store = open_records(path)
    (old,) = store.attempts("old")
    assert old.events == ((900, "R"), (1200, "U"), (1600, "R'"))
    assert (old.turns, old.par, old.run, old.inspection) == (3, 3, "", None)
    assert store.was_shown("old")
    assert store.positions_in_hand() == ("other",)
    assert store.open_runs() == ()


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
