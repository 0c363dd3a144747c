"""Opening a file that is held, foreign, damaged, later, or not to be written."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from game.errors import RecordsDamaged, RecordsLocked, RecordsNewer, RecordsUnwritable
from game.records import database, open_records, records_to_play
from game.records.schema import APPLICATION, MIGRATIONS
from tests.records.samples import SAMPLE

ADDING = """
import sys
from dataclasses import replace
from pathlib import Path
from game.records import Records
from tests.records.samples import SAMPLE
store = Records(Path(sys.argv[1]))
print("ready", flush=True)
sys.stdin.readline()
for turns in range(int(sys.argv[2])):
    print(store.add(replace(SAMPLE, turns=turns, player=sys.argv[3])), flush=True)
"""
"""A program that opens the store at a sign and adds attempts, printing each number once kept."""


def adding(path: Path, count: int, player: str) -> subprocess.Popen[str]:
    """The program above, started and ready for the sign."""
    command = [sys.executable, "-c", ADDING, str(path), str(count), player]
    program = subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=Path.cwd()
    )
    assert program.stdout is not None
    assert program.stdout.readline() == "ready\n"
    return program


def sign(program: subprocess.Popen[str]) -> None:
    """Let it begin."""
    assert program.stdin is not None
    program.stdin.write("\n")
    program.stdin.flush()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A database with two hundred attempts: some forty pages."""
    path = tmp_path / "records.db"
    store = open_records(path)
    for turns in range(200):
        store.add(replace(SAMPLE, turns=turns))
    store.close()
    return path


def test_two_copies_at_once(tmp_path: Path) -> None:
    """Two processes that make the file together and write to it lose nothing."""
    path = tmp_path / "home" / "records.db"
    programs = [adding(path, 40, player) for player in ("one", "two")]
    for program in programs:
        sign(program)
    for program in programs:
        program.communicate()
        assert program.returncode == 0
    store = open_records(path)
    found = store.attempts(SAMPLE.position)
    assert sorted((r.player, r.turns) for r in found) == [
        (player, turns) for player in ("one", "two") for turns in range(40)
    ]
    assert store.skipped == 0


def test_killed_while_writing(tmp_path: Path) -> None:
    """Every attempt that was reported as kept is there after the process was killed (SIGKILL)."""
    path = tmp_path / "records.db"
    program = adding(path, 100_000, "one")
    sign(program)
    assert program.stdout is not None
    for _ in range(25):
        kept = int(program.stdout.readline())
    program.kill()
    program.communicate()
    store = open_records(path)
    found = store.attempts(SAMPLE.position)
    assert len(found) >= kept
    assert [r.turns for r in found] == list(range(len(found) - 1, -1, -1))
    assert store.skipped == 0


def test_locked_is_not_damaged(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that another program holds gives RecordsLocked, is left there and opens afterwards."""
    monkeypatch.setattr(database, "WAIT_MS", 50)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("PRAGMA journal_mode = DELETE")
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(RecordsLocked, match=r"records\.db is locked"):
            open_records(path)
    assert len(open_records(path).attempts(SAMPLE.position)) == 200


def test_locked_while_playing(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A write that has to wait too long is told as locked; it succeeds once the other is done."""
    monkeypatch.setattr(database, "WAIT_MS", 50)
    store = open_records(path)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(RecordsLocked):
            store.add(SAMPLE)
        assert len(store.attempts(SAMPLE.position)) == 200
    store.add(SAMPLE)
    assert len(store.attempts(SAMPLE.position)) == 201


def cut(content: bytes) -> bytes:
    """The first half of it."""
    return content[: len(content) // 2 // 4096 * 4096]


def scribbled(content: bytes) -> bytes:
    """A page in the middle overwritten."""
    middle = len(content) // 2 // 4096 * 4096
    return content[:middle] + b"\xa5" * 4096 + content[middle + 4096 :]


def no_header(content: bytes) -> bytes:
    """Its first page overwritten with zeros."""
    return bytes(4096) + content[4096:]


def prose(content: bytes) -> bytes:
    """Something else altogether."""
    return b"Dear diary, " * (len(content) // 12)


def tiny(content: bytes) -> bytes:
    """Less than a header."""
    return content[:20]


@pytest.mark.parametrize("damage", [cut, scribbled, no_header, prose, tiny])
def test_damaged_is_moved_aside(path: Path, damage: Callable[[bytes], bytes]) -> None:
    """A damaged file is moved aside byte for byte and said so; opening again begins a new one."""
    content = damage(path.read_bytes())
    path.write_bytes(content)
    with pytest.raises(RecordsDamaged) as caught:
        open_records(path)
    (aside,) = path.parent.glob("records.db.damaged-*")
    assert aside.name in str(caught.value)
    assert aside.read_bytes() == content
    assert not path.exists()
    store = open_records(path)
    store.add(SAMPLE)
    assert store.attempts(SAMPLE.position) == (SAMPLE,)


def test_damage_within_one_row(path: Path) -> None:
    """A file that lost its last hundred bytes, all of one row, gives every other attempt."""
    path.write_bytes(path.read_bytes()[:-100])
    store = open_records(path)
    assert len(store.attempts(SAMPLE.position)) == 199
    assert store.skipped == 1


def test_a_foreign_database_is_moved_aside(tmp_path: Path) -> None:
    """A database of something else is neither written to nor lost."""
    path = tmp_path / "records.db"
    with closing(sqlite3.connect(path)) as other:
        other.executescript("CREATE TABLE recipe (name); INSERT INTO recipe VALUES ('soup')")
        other.execute("PRAGMA user_version = 7")
    content = path.read_bytes()
    with pytest.raises(RecordsDamaged, match="not a database of attempts; moved aside"):
        open_records(path)
    (aside,) = tmp_path.iterdir()
    assert aside.read_bytes() == content


def test_later_is_left_untouched(path: Path) -> None:
    """A file of a later version is refused, and not a byte of it or beside it changes."""
    with closing(sqlite3.connect(path)) as later:
        later.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
    content = path.read_bytes()
    with pytest.raises(RecordsNewer, match=r"by a later Pairwright .* left as it is"):
        open_records(path)
    assert path.read_bytes() == content
    assert list(path.parent.iterdir()) == [path]


def test_later_by_a_write_not_yet_in_the_file(tmp_path: Path) -> None:
    """A later version that so far stands in the write-ahead log alone is refused as well."""
    path = tmp_path / "records.db"
    with closing(sqlite3.connect(path)) as later:
        later.execute("PRAGMA journal_mode = WAL")
        later.execute(f"PRAGMA application_id = {APPLICATION}")
        later.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
        with pytest.raises(RecordsNewer):
            open_records(path)
    assert not list(tmp_path.glob("*damaged*"))


def test_another_copy_replaced_the_damaged_file(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A whole file that another copy put in a damaged one's place meanwhile is not moved aside."""
    whole = path.read_bytes()
    path.write_bytes(prose(whole))
    look = database._check_ours

    def slow(*arguments: object) -> None:
        try:
            look(*arguments)  # type: ignore[arg-type]
        finally:
            path.with_name("new").write_bytes(whole)
            path.with_name("new").replace(path)

    monkeypatch.setattr(database, "_check_ours", slow)
    with pytest.raises(RecordsDamaged):
        open_records(path)
    monkeypatch.setattr(database, "_check_ours", look)
    assert len(open_records(path).attempts(SAMPLE.position)) == 200


def in_place_of_the_folder(tmp_path: Path) -> Path:
    """A file where the folder should be."""
    (tmp_path / "home").write_text("")
    return tmp_path / "home" / "records.db"


def in_place_of_the_file(tmp_path: Path) -> Path:
    """A folder where the file should be."""
    (tmp_path / "records.db").mkdir()
    return tmp_path / "records.db"


def below_a_device(_: Path) -> Path:
    """A path that cannot be."""
    return Path("/dev/null/home/records.db")


def too_long(tmp_path: Path) -> Path:
    """A name that no file system takes."""
    return tmp_path / ("x" * 5000) / "records.db"


@pytest.mark.parametrize(
    "place", [in_place_of_the_folder, in_place_of_the_file, below_a_device, too_long]
)
def test_unwritable(tmp_path: Path, place: Callable[[Path], Path]) -> None:
    """Where no file can be made, opening says so, and the game gets a store that does not save."""
    path = place(tmp_path)
    with pytest.raises(RecordsUnwritable):
        open_records(path)
    store, told = records_to_play(path)
    assert told.endswith("The game goes on; attempts are not saved.")
    assert "\n" not in told
    store.add(SAMPLE)
    assert store.attempts(SAMPLE.position) == (SAMPLE,)


def test_unwritable_at_the_first_write(tmp_path: Path) -> None:
    """A folder that turns out to be unwritable is told at the first write."""
    store = open_records(tmp_path / "home" / "records.db")
    (tmp_path / "home").write_text("")
    with pytest.raises(RecordsUnwritable):
        store.add(SAMPLE)


def test_a_full_disk(path: Path) -> None:
    """A write that finds no room is told; what was there stays."""
    store = open_records(path)
    pages = store._for_writing().execute("PRAGMA page_count").fetchone()[0]
    store._for_writing().execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(RecordsUnwritable, match="cannot be written: database or disk is full"):
        for _ in range(100):
            store.add(replace(SAMPLE, events=((1, "U"),) * 2000))
    store.close()
    assert len(open_records(path).attempts(SAMPLE.position)) >= 200


def test_to_play_with_a_damaged_file(path: Path) -> None:
    """The game begins a new file after damage and tells where the old one is, in one line."""
    path.write_bytes(prose(path.read_bytes()))
    store, told = records_to_play(path)
    assert store.path == path
    assert "moved aside to records.db.damaged-" in told
    assert "\n" not in told
    assert store.is_empty


def test_to_play_with_a_later_file(path: Path) -> None:
    """With a later file the game goes on without saving and leaves that as it is."""
    with closing(sqlite3.connect(path)) as later:
        later.execute(f"PRAGMA user_version = {len(MIGRATIONS) + 1}")
    content = path.read_bytes()
    store, told = records_to_play(path)
    store.add(SAMPLE)
    assert "attempts are not saved" in told
    assert path.read_bytes() == content


def test_to_play_when_all_is_well(path: Path) -> None:
    """Nothing is told when there is nothing to tell."""
    store, told = records_to_play(path)
    assert told == ""
    assert store.path == path
