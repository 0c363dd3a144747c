"""What one game writes reaches the file, whatever happens to that in between."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from game.errors import RecordsError
from game.records import Journal, Record, database, open_records
from game.records.schema import MIGRATIONS
from tests.records.samples import SAMPLE

SECOND = replace(SAMPLE, began=SAMPLE.began + timedelta(minutes=1), turns=4)
EARLIER = replace(SAMPLE, began=SAMPLE.began - timedelta(days=1), turns=5)

LOOK_IN = """
import sqlite3, sys
file = sqlite3.connect(sys.argv[1])
print(file.execute("SELECT count(*) FROM attempt").fetchone()[0])
file.close()
"""
"""Opens the records given, counts the attempts, and closes them, in another process."""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A file with one attempt in it, of an earlier game."""
    path = tmp_path / "folder" / "records.db"
    with closing(open_records(path)) as records:
        records.add(EARLIER)
    return path


@pytest.fixture
def held(path: Path, monkeypatch: pytest.MonkeyPatch) -> sqlite3.Connection:
    """Another program that can hold the file, which is not waited for long."""
    monkeypatch.setattr(database, "WAIT_MS", 50)
    return sqlite3.connect(path, isolation_level=None)


def turns(path: Path) -> list[int]:
    """Those of the attempts in the file, the oldest first."""
    with closing(open_records(path)) as records:
        return [record.turns for record in reversed(records.attempts(SAMPLE.position))]


def seen(path: Path) -> int:
    """How many attempts another process finds in the file."""
    command = [sys.executable, "-c", LOOK_IN, str(path)]
    return int(subprocess.run(command, check=True, capture_output=True).stdout)


def test_what_has_to_wait_is_written_with_the_next(path: Path, held: sqlite3.Connection) -> None:
    """An attempt, and a call that is known only later, are in the file once it is free."""
    journal = Journal(path)
    held.execute("BEGIN IMMEDIATE")
    number = journal.add(SAMPLE)
    journal.amend(number, called="right")
    assert (journal.unsaved, turns(path)) == (1, [5])
    [told] = journal.news()
    assert "is locked" in told
    held.execute("ROLLBACK")
    journal.add(SECOND)
    assert (journal.unsaved, journal.trouble) == (0, "")
    assert journal.news() == ["What waited is saved."]
    journal.close()
    with closing(open_records(path)) as records:
        assert records.attempts(SAMPLE.position)[1] == replace(SAMPLE, called="right")
    assert turns(path) == [5, 3, 4]


def test_what_waits_at_the_end_is_tried_once_more(path: Path, held: sqlite3.Connection) -> None:
    """Closing writes it; where that is still not possible, it is known how much is lost and why."""
    for is_free in (True, False):
        journal = Journal(path)
        held.execute("BEGIN IMMEDIATE")
        journal.add(SAMPLE)
        if is_free:
            held.execute("ROLLBACK")
        journal.close()
        assert journal.unsaved == (0 if is_free else 1)
        assert ("is locked" in journal.trouble) != is_free
    held.execute("ROLLBACK")
    assert turns(path) == [5, 3]


def delete_file(path: Path) -> None:
    """Without what SQLite keeps beside it."""
    path.unlink()


def delete_folder(path: Path) -> None:
    """With all that is in it."""
    shutil.rmtree(path.parent)


def write_over(path: Path) -> None:
    """Something else under the same name, and in the same place on the disk."""
    path.write_text("a shopping list " * 1000)


def empty(path: Path) -> None:
    """Nothing is left in it."""
    path.write_bytes(b"")


@pytest.mark.parametrize("harm", [delete_file, delete_folder, write_over, empty])
@pytest.mark.parametrize("then", ["another attempt", "the end"])
def test_a_file_that_is_lost_is_made_again(
    path: Path, harm: Callable[[Path], None], then: str
) -> None:
    """What this game did before and after is in the new file, and that is told once."""
    journal = Journal(path)
    number = journal.add(SAMPLE)
    run = journal.begin_run("dash", "kind", "text")
    harm(path)
    if then == "another attempt":
        journal.amend(number, called="wrong")
        journal.add(SECOND)
    journal.close()
    assert sum("was deleted or replaced" in line for line in journal.news()) == 1
    assert turns(path) == ([3, 4] if then == "another attempt" else [3])
    with closing(open_records(path)) as records:
        assert [kept.number for kept in records.open_runs()] == [run]


def test_a_file_that_is_replaced_by_its_copy_gets_nothing_twice(path: Path) -> None:
    """Where a backup was put back in place, only what it lacks is written to it."""
    journal = Journal(path)
    journal.add(SAMPLE)
    journal.close()
    copy = path.with_name("copy")
    journal = Journal(path)
    number = journal.add(SECOND)
    with closing(sqlite3.connect(copy)) as target, closing(sqlite3.connect(path)) as source:
        source.backup(target)
    journal.add(replace(SECOND, began=SECOND.began + timedelta(minutes=1), turns=6))
    copy.replace(path)
    journal.amend(number, called="right")
    journal.close()
    assert turns(path) == [5, 3, 4, 6]
    with closing(open_records(path)) as records:
        assert [r.called for r in records.attempts(SAMPLE.position)] == ["", "right", "", ""]


def test_a_run_cannot_begin_while_its_number_is_not_known(
    path: Path, held: sqlite3.Connection
) -> None:
    """Attempts name their run by the file's number, so that a file held by another is a fault."""
    journal = Journal(path)
    held.execute("BEGIN IMMEDIATE")
    with pytest.raises(RecordsError):
        journal.begin_run("dash", "kind", "text")
    held.execute("ROLLBACK")
    assert journal.begin_run("dash", "kind", "text") == 1


def test_a_run_that_is_entered_is_found_or_begun(path: Path) -> None:
    """The same run for every copy of the game; it is made again where the file is lost."""
    with closing(open_records(path)) as other:
        first = other.begin_run("contest", "kind", "text")
    journal = Journal(path)
    assert journal.enter_run("contest", "kind", "text", "text".__eq__) == first
    second = journal.enter_run("contest", "other", "text", "text".__eq__)
    assert second != first
    path.unlink()
    journal.amend_run(second, "more")
    with closing(open_records(path)) as records:
        assert [(run.number, run.text) for run in records.open_runs()] == [
            (second, "more"),
            (first, "text"),
        ]


def test_what_can_never_be_written_holds_up_nothing(path: Path) -> None:
    """A text that no database takes is refused, and the next attempt is kept."""
    journal = Journal(path)
    with pytest.raises(UnicodeEncodeError):
        journal.mark_shown("\ud800")
    journal.add(SAMPLE)
    assert turns(path) == [5, 3]


def test_memory_is_saved_at_the_end_if_that_is_possible_by_then(path: Path) -> None:
    """A file of a later version is left alone; once it is one of ours, all is in it."""
    for version, expected in ((len(MIGRATIONS) + 1, 2), (len(MIGRATIONS), 0)):
        with closing(sqlite3.connect(path)) as file:
            file.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
        journal = Journal(None, where=path, why="a later version")
        journal.add(SAMPLE)
        journal.add(SECOND)
        assert [r.turns for r in journal.attempts(SAMPLE.position)] == [4, 3]
        assert (journal.unsaved, journal.trouble) == (2, "a later version")
        with closing(sqlite3.connect(path)) as file:
            file.execute(f"PRAGMA user_version = {version}")
        journal.close()
        assert journal.unsaved == expected
    assert turns(path) == [5, 3, 4]


def test_the_records_of_a_game_without_a_file_keep_all(tmp_path: Path) -> None:
    """Memory alone answers as a file does, and says that nothing of it is saved."""
    journal = Journal(None, why="no room")
    number = journal.add(SAMPLE)
    journal.amend(number, at_hand=False)
    kept: tuple[Record, ...] = journal.attempts(SAMPLE.position)
    assert kept == (replace(SAMPLE, at_hand=False),)
    journal.close()
    assert (journal.unsaved, journal.trouble) == (1, "no room")


def test_another_program_that_looks_in_takes_nothing_away(path: Path) -> None:
    """What is written after another process has opened and closed the file is in it at once."""
    journal = Journal(path)
    for number, attempt in enumerate((SAMPLE, SECOND, SAMPLE, SECOND), 2):
        journal.add(attempt)
        assert seen(path) == number
    journal.close()
