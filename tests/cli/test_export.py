"""Writing every attempt: what is written, where to, and what is refused."""

from __future__ import annotations

import csv
import io
import json
import os
import sqlite3
import tracemalloc
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from itertools import repeat
from pathlib import Path

import pexpect  # type: ignore[import-untyped]
import pytest

from game.cli.export import COLUMNS, write_csv, write_json
from game.records import Record, open_records
from tests.cli.running import COMMAND, ROOT, environment, one_line, run, run_apart
from tests.records.samples import SAMPLE

RECORDS = (
    replace(SAMPLE, player="=HYPERLINK(1)"),
    replace(SAMPLE, player='\'tis, "quoted"', outcome="gave up", par=None, at_hand=None),
    replace(SAMPLE, player="Zoë", mode="drill", doing_ms=None),
)

LITTLE = 1_000_000
"""Bytes: less than half of what 8000 attempts take when they are held, their texts aside."""


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A data folder with three attempts."""
    records = open_records(tmp_path / "records.db")
    for record in RECORDS:
        records.add(record)
    records.close()
    return tmp_path


def test_csv_has_every_attempt_and_column(home: Path) -> None:
    """A header, then a row an attempt, the oldest first; what is not known is empty."""
    code, out, err = run("export", "--csv", "--data-dir", home)
    assert (code, err) == (0, "")
    rows = list(csv.DictReader(io.StringIO(out)))
    assert tuple(rows[0]) == COLUMNS
    assert [row["mode"] for row in rows] == ["casual", "casual", "drill"]
    assert [row["over"] for row in rows] == ["0", "", "0"]
    assert [row["at_hand"] for row in rows] == ["1", "", "1"]
    assert rows[0]["began"] == "2026-11-25T10:15:00.000+01:00"
    assert json.loads(rows[0]["events"]) == [list(event) for event in SAMPLE.events]


@pytest.mark.parametrize("first", "=+-@'")
def test_no_text_is_a_formula(first: str) -> None:
    """A text that a spreadsheet would calculate gets a ' in front, and without it is as it was."""
    stream = io.StringIO()
    write_csv([replace(SAMPLE, player=f"{first}SUM(A1)")], stream)
    player = next(csv.DictReader(io.StringIO(stream.getvalue())))["player"]
    assert player[0] == "'"
    assert player[1:] == f"{first}SUM(A1)"


def test_json_has_every_attempt_and_field(home: Path) -> None:
    """One list of objects whose texts are as they are."""
    code, out, err = run("export", "--json", "--data-dir", home)
    assert (code, err) == (0, "")
    found = json.loads(out)
    assert [attempt["player"] for attempt in found] == [record.player for record in RECORDS]
    assert found[1]["par"] is None
    assert found[0]["shown"] is False
    assert len(out.splitlines()) == len(RECORDS) + 2


def test_nothing_recorded_yet(tmp_path: Path) -> None:
    """Without records there is a header alone or an empty list, and no file is made."""
    assert run("export", "--csv", "--data-dir", tmp_path).out == ",".join(COLUMNS) + "\n"
    assert json.loads(run("export", "--json", "--data-dir", tmp_path).out) == []
    assert list(tmp_path.iterdir()) == []


def test_a_file_is_not_overwritten_unless_told(home: Path) -> None:
    """A file that is there is refused and left alone; --overwrite replaces it whole."""
    target = home / "out.csv"
    target.write_text("mine")
    code, out, err = run("export", "--csv", "--data-dir", home, target)
    assert (code, out) == (1, "")
    assert one_line(err)
    assert "--overwrite" in err
    assert target.read_text() == "mine"
    assert run("export", "--csv", "--overwrite", "--data-dir", home, target).code == 0
    assert target.read_text(encoding="utf-8").count("\n") == 1 + len(RECORDS)
    assert not target.with_name("out.csv.part").exists()


def test_what_is_no_file_is_never_replaced(home: Path) -> None:
    """A folder or a device in the place of FILE is refused, even with --overwrite."""
    for target in (home, home / "pipe"):
        if not target.exists():
            os.mkfifo(target)
        code, _, err = run("export", "--json", "--overwrite", "--data-dir", home, target)
        assert code == 1
        assert one_line(err)
    assert (home / "pipe").is_fifo()


def test_a_folder_that_is_not_there(home: Path) -> None:
    """A FILE that cannot be made is told in one line."""
    code, _, err = run_apart("export", "--csv", "--data-dir", home, home / "none" / "x.csv")
    assert code == 2
    assert one_line(err)


def test_the_form_must_be_named(home: Path) -> None:
    """Without --csv or --json nothing is written."""
    code, out, err = run("export", "--data-dir", home)
    assert (code, out) == (1, "")
    assert one_line(err)


def test_a_damaged_attempt_is_left_out_and_told(home: Path) -> None:
    """The others are written, and how many are missing is said."""
    with closing(sqlite3.connect(home / "records.db")) as connection, connection:
        connection.execute("UPDATE attempt SET turns = 'many' WHERE number = 2")
    code, out, err = run("export", "--json", "--data-dir", home)
    assert code == 0
    assert len(json.loads(out)) == len(RECORDS) - 1
    assert "1 damaged attempt" in err


def test_a_reader_that_goes_away(home: Path) -> None:
    """When whoever reads stops reading, the command ends quietly."""
    records = open_records(home / "records.db")
    many = replace(SAMPLE, events=SAMPLE.events * 200)
    for _ in range(40):
        records.add(many)
    records.close()
    line = f"{COMMAND[0]} -m game export --json --data-dir '{home}' | head -c 100"
    out, code = pexpect.run(
        f'sh -c "{line}"', cwd=str(ROOT), env=environment(), withexitstatus=True, timeout=60
    )
    assert code == 0
    assert out.decode().startswith("[")
    assert "Traceback" not in out.decode()
    assert "pairwright" not in out.decode()


@pytest.mark.parametrize("write", [write_csv, write_json])
def test_attempts_are_not_held(write: object) -> None:
    """However many attempts there are, writing them takes no more memory."""

    class Nowhere(io.StringIO):
        def write(self, text: str) -> int:
            return len(text)

    def peak(count: int) -> int:
        attempts: Iterator[Record] = (replace(r) for r in repeat(SAMPLE, count))
        tracemalloc.start()
        write(attempts, Nowhere())  # type: ignore[operator]
        _, most = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        return most

    assert peak(8000) < LITTLE
