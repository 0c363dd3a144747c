"""Runs and matches: what several attempts together are part of.

A run is kept from its beginning, so that one which a killed program leaves is found open at the
next start, with every attempt that was finished in it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple

from game.errors import RecordsError
from game.records.database import transaction, translated
from game.records.file import RecordsFile
from game.records.record import MAX_NUMBER, MAX_TEXT, began_text, check_text, now_text, parse_began

MAX_KIND = 200
MAX_RUN_TEXT = 200_000
"""Characters at most."""
MAX_RUNS = 1000
"""Runs that are read at once at most, the newest."""

_COLUMNS = f"""
    number, mode, substr(kind, 1, {MAX_KIND + 1}) AS kind,
    substr(text, 1, {MAX_RUN_TEXT + 1}) AS text, began, offset_minutes, ended
"""
RUN = f"SELECT {_COLUMNS} FROM run WHERE number = ?"
FIRST = f"SELECT {_COLUMNS} FROM run WHERE mode = ? AND kind = ? ORDER BY number LIMIT {MAX_RUNS}"
OPEN = f"SELECT {_COLUMNS} FROM run WHERE ended IS NULL ORDER BY number DESC LIMIT {MAX_RUNS}"
ENDED = f"""
    SELECT {_COLUMNS} FROM run WHERE ended IS NOT NULL AND mode = ? AND kind = ifnull(?, kind)
    ORDER BY number DESC LIMIT {MAX_RUNS}
"""
BRIEFS = f"""
    SELECT run, position, turns, par, seeing_ms, doing_ms, inspection, outcome = 'solved'
    FROM attempt WHERE run <> '' AND length(position) <= {MAX_TEXT["position"]} AND run IN (
        SELECT CAST(number AS TEXT) FROM run
        WHERE ended IS NOT NULL AND mode = ? AND kind = ? ORDER BY number DESC LIMIT {MAX_RUNS}
    )
    ORDER BY number
"""


class Brief(NamedTuple):
    """An attempt of a run without what was done in it. run: the number of the run."""

    run: int
    position: str
    turns: int
    par: int | None
    seeing_ms: int | None
    doing_ms: int | None
    inspection: int | None
    is_solved: bool


@dataclass(frozen=True)
class KeptRun:
    """A run as it is kept. number: its name in its attempts, as text; ended: None while open.

    mode: as in its attempts; kind: runs of one mode and kind can be compared; text: what else the
    module of its mode knows of it, and writes and checks itself.
    Raises RecordsError for a value that cannot be.
    """

    number: int
    mode: str
    kind: str
    text: str
    began: datetime
    ended: datetime | None = None

    def __post_init__(self) -> None:
        check_run(self.mode, self.kind, self.text)


def check_run(mode: Any, kind: Any, text: Any) -> None:
    """Raises RecordsError unless a run can be kept with these texts."""
    check_text("mode", mode, MAX_TEXT["mode"])
    check_text("kind", kind, MAX_KIND)
    check_text("run", text, MAX_RUN_TEXT)


def _read_runs(rows: Iterable[sqlite3.Row], skip: Callable[[], None]) -> Iterator[KeptRun]:
    """The runs of these rows; what cannot be read is left out."""
    for row in rows:
        try:
            yield _run(row)
        except RecordsError:
            skip()


def _run(row: sqlite3.Row) -> KeptRun:
    offset = row["offset_minutes"]
    ended = None if row["ended"] is None else parse_began(row["ended"], offset)
    began = parse_began(row["began"], offset)
    return KeptRun(row["number"], row["mode"], row["kind"], row["text"], began, ended)


def _is_number(value: Any) -> bool:
    return isinstance(value, int) and 0 <= value <= MAX_NUMBER


class RunRecords(RecordsFile):
    """The part of the records that knows runs."""

    def begin_run(self, mode: str, kind: str, text: str) -> int:
        """Keep a run from its beginning; its number, which its attempts name as text."""
        check_run(mode, kind, text)
        return self._new_run(mode, kind, text)

    def _new_run(self, mode: str, kind: str, text: str) -> int:
        began, offset = began_text(datetime.now().astimezone())
        statement = """
            INSERT INTO run (mode, kind, text, began, offset_minutes) VALUES (?, ?, ?, ?, ?)
        """
        with translated(self.path):
            made = self._for_writing().execute(statement, (mode, kind, text, began, offset))
        return int(made.lastrowid or 0)

    def enter_run(self, mode: str, kind: str, text: str, fits: Callable[[str], bool]) -> int:
        """The number of the first run of a kind whose text fits, or of a new run if no text fits.

        No other program can begin one in between.
        """
        check_run(mode, kind, text)
        with translated(self.path), transaction(self._for_writing()):
            kept = _read_runs(self._read(FIRST, mode, kind), self._skip)
            found = next((run.number for run in kept if fits(run.text)), None)
            return self._new_run(mode, kind, text) if found is None else found

    def amend_run(self, number: int, text: str) -> None:
        """Keep what is now known of a run."""
        check_text("run", text, MAX_RUN_TEXT)
        self._write("UPDATE run SET text = ? WHERE number = ?", (text, number))

    def end_run(self, number: int) -> None:
        """The run is over."""
        self._write(
            "UPDATE run SET ended = ? WHERE number = ? AND ended IS NULL", (now_text(), number)
        )

    def drop_run(self, number: int) -> None:
        """Forget a run, unless an attempt was made in it."""
        self._write(
            """
            DELETE FROM run
            WHERE number = ?1 AND NOT EXISTS (SELECT 1 FROM attempt WHERE run = CAST(?1 AS TEXT))
            """,
            (number,),
        )

    @property
    def has_runs(self) -> bool:
        """Whether a run, a match or a contest was ever begun."""
        return bool(self._read("SELECT 1 FROM run LIMIT 1"))

    def run(self, number: int) -> KeptRun | None:
        """A run by its number."""
        return next(_read_runs(self._read(RUN, number), self._skip), None)

    def open_runs(self) -> tuple[KeptRun, ...]:
        """The runs that are not over, the newest first."""
        return tuple(_read_runs(self._read(OPEN), self._skip))

    def ended_runs(self, mode: str, kind: str | None = None) -> tuple[KeptRun, ...]:
        """The runs of a mode, and of a kind if one is given, that are over; the newest first."""
        return tuple(_read_runs(self._read(ENDED, mode, kind), self._skip))

    def briefs(self, mode: str, kind: str) -> tuple[Brief, ...]:
        """The attempts of all runs of a kind that are over, the oldest first.

        Rows that cannot be read are left out.
        """
        found = []
        for row in self._read(BRIEFS, mode, kind):
            run, position, *numbers, solved = row
            if all(_is_number(n) for n in numbers if n is not None):
                found.append(Brief._make((int(run), position, *numbers, bool(solved))))
            else:
                self._skip()
        return tuple(found)
