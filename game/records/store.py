"""The store of attempts: adding them, the bests they come to, the attempt in hand, and runs.

The file is opened at the first need: reading while there is no file answers empty and creates
nothing. Every method may raise a RecordsError of `game.errors`.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

from game.errors import RecordsError, RecordsUnwritable
from game.records import history
from game.records.database import transaction, translated
from game.records.history import FACTS, FAIR, OWN, WHOLE, record_of
from game.records.record import (
    CALLS,
    CLAIMED,
    MAX_EVENTS_TEXT,
    MAX_TEXT,
    Best,
    Events,
    InHand,
    Record,
    Sums,
    Tried,
    began_text,
    check_choice,
    events_text,
    now_text,
    parse_events,
)
from game.records.runs import RunRecords

MAX_READ = 10_000
"""Attempts at one position that are read at most, the newest."""

_BEST = f"""
    SELECT position,
        count(*) AS attempts,
        max(outcome = 'solved') AS solved,
        max({FAIR} AND (ifnull(at_hand, 0) OR ifnull(turns <= par, 0))) AS at_hand,
        max({FAIR} AND ifnull(turns <= par, 0)) AS at_par,
        max({FAIR} AND called = 'right') AS called,
        min(CASE WHEN {FAIR} THEN turns - par END) AS over,
        min(CASE WHEN {FAIR} THEN turns END) AS turns,
        min(CASE WHEN {FAIR} THEN seeing_ms END) AS seeing_ms,
        min(CASE WHEN {FAIR} THEN doing_ms END) AS doing_ms
    FROM attempt WHERE length(position) <= {MAX_TEXT["position"]} AND {OWN}
"""
_ATTEMPTS = f"{WHOLE} WHERE position = ? ORDER BY number DESC LIMIT {MAX_READ}"
_ATTEMPTS_OF = f"{WHOLE} WHERE run = ? AND run <> '' ORDER BY number LIMIT {MAX_READ}"
"""The second condition lets SQLite go through the index, which has such rows alone."""
_IN_HAND = f"""
    SELECT substr(puzzle, 1, {MAX_TEXT["puzzle"] + 1}) AS puzzle,
        substr(events, 1, {MAX_EVENTS_TEXT + 1}) AS events, elapsed_ms
    FROM in_hand WHERE position = ?
"""


AMEND = """
    UPDATE attempt SET called = ifnull(?, called), at_hand = ifnull(?, at_hand) WHERE number = ?
"""
"""With a call or NULL, 0, 1 or NULL, and the attempt's number."""


def insert(connection: sqlite3.Connection, record: Record) -> int:
    """Write an attempt; its number. It is no longer in hand, save within a run."""
    facts = _facts(record)
    columns = ", ".join(facts)
    values = ", ".join(f":{name}" for name in facts)
    added = connection.execute(f"INSERT INTO attempt ({columns}) VALUES ({values})", facts)
    number = int(added.lastrowid or 0)
    written = (number, events_text(record.events))
    connection.execute("INSERT INTO attempt_events VALUES (?, ?)", written)
    if not record.run:  # one in hand is not taken up in a run
        connection.execute("DELETE FROM in_hand WHERE position = ?", (record.position,))
    return number


def kept_already(connection: sqlite3.Connection, record: Record) -> int | None:
    """The number of an attempt at the position that began at the same moment, if there is one."""
    facts = _facts(record)
    query = "SELECT number FROM attempt WHERE position = :position AND began = :began"
    found = connection.execute(f"{query} AND turns = :turns AND outcome = :outcome", facts)
    return next((int(row["number"]) for row in found), None)


def _facts(record: Record) -> dict[str, Any]:
    began, offset = began_text(record.began)
    facts = {name: getattr(record, name) for name in FACTS}
    return facts | {"began": began, "offset_minutes": offset}


class Records(RunRecords):
    """The attempts in one file, or in memory only when path is None. Make with `open_records`."""

    # -- writing ---------------------------------------------------------------------------------

    def add(self, record: Record) -> int:
        """Keep an attempt that is over; its number. It is no longer in hand, save within a run."""
        with translated(self.path):
            connection = self._for_writing()
            with transaction(connection):
                return insert(connection, record)

    def amend(self, number: int, *, called: str | None = None, at_hand: bool | None = None) -> None:
        """Add to an attempt what is known only after its end: the player's call, the hand's par."""
        if called is not None:
            check_choice("called", called, CALLS)
        self._write(AMEND, (called, at_hand, number))

    def learn_par(self, position: str, par: int) -> None:
        """Add the par of a position to attempts that ended before it was known."""
        self._write(
            f"""
            UPDATE attempt SET par = ?1, called = CASE
                WHEN called <> '{CLAIMED}' THEN called WHEN turns <= ?1 THEN 'right' ELSE 'wrong'
            END
            WHERE position = ?2 AND par IS NULL
            """,
            (par, position),
        )

    def mark_shown(self, position: str) -> None:
        """The solutions of this position have been seen."""
        self._write("INSERT OR IGNORE INTO shown VALUES (?, ?)", (position, now_text()))

    def keep_in_hand(self, position: str, puzzle: str, events: Events, elapsed_ms: int) -> None:
        """Keep an attempt that is left before its end, in place of an earlier one."""
        kept = InHand(puzzle, events, elapsed_ms)
        self._write(
            "INSERT OR REPLACE INTO in_hand VALUES (?, ?, ?, ?, ?)",
            (position, kept.puzzle, events_text(kept.events), kept.elapsed_ms, now_text()),
        )

    def drop_in_hand(self, position: str) -> None:
        """Forget the attempt in hand."""
        if self._for_reading() is not None:
            self._write("DELETE FROM in_hand WHERE position = ?", (position,))

    # -- reading ---------------------------------------------------------------------------------

    @property
    def is_empty(self) -> bool:
        """Whether no attempt was ever recorded."""
        return not self._read("SELECT 1 FROM attempt LIMIT 1")

    def best(self, position: str) -> Best | None:
        """What the attempts at a position come to; None if it was never tried."""
        return self._bests(f"{_BEST} AND position = ? GROUP BY position", position).get(position)

    def bests(self) -> dict[str, Best]:
        """What the attempts at each position ever tried come to."""
        return self._bests(f"{_BEST} GROUP BY position")

    def solved_since(self, moment: datetime) -> tuple[int, int]:
        """How many positions were solved by attempts begun since then, and how many at par.

        At par counts only without help. moment: with its offset from UTC.
        """
        query = f"""
            SELECT count(DISTINCT CASE WHEN outcome = 'solved' THEN position END) AS solved,
                count(DISTINCT CASE WHEN {FAIR} AND turns <= par THEN position END) AS at_par
            FROM attempt WHERE began >= ? AND {OWN}
        """
        row = next(iter(self._read(query, began_text(moment)[0])), None)
        return (row["solved"], row["at_par"]) if row is not None else (0, 0)

    def attempts(self, position: str) -> tuple[Record, ...]:
        """The attempts at a position, the newest first."""
        return self._whole(_ATTEMPTS, position)

    def attempts_of(self, run: int) -> tuple[Record, ...]:
        """The attempts of a run, the oldest first."""
        return self._whole(_ATTEMPTS_OF, str(run))

    def all_attempts(self, *, newest_first: bool = False) -> Iterator[Record]:
        """Every attempt, the oldest first unless told, each read when it is asked for."""
        connection = self._for_reading()
        if connection is None:
            return
        with translated(self.path):
            yield from history.whole(connection, self._skip, newest_first=newest_first)

    def tries(self, mode: str, after: int = 0) -> tuple[Tried, ...]:
        """What rating needs of a mode's attempts with greater numbers, the oldest first."""
        connection = self._for_reading()
        with translated(self.path):
            return history.tries(connection, mode, after) if connection is not None else ()

    def sums_by_position(self) -> dict[str, Sums]:
        """The attempts at each position, added up."""
        connection = self._for_reading()
        with translated(self.path):
            return history.sums_by_position(connection) if connection is not None else {}

    def sums_by_day(self) -> dict[tuple[int, int | None], Sums]:
        """The attempts of each day (from 1 January 1970) and par (None: unknown), added up."""
        connection = self._for_reading()
        with translated(self.path):
            return history.sums_by_day(connection) if connection is not None else {}

    def was_shown(self, position: str) -> bool:
        """Whether the solutions of this position have been seen."""
        return bool(self._read("SELECT 1 FROM shown WHERE position = ?", position))

    def all_shown(self) -> frozenset[str]:
        """The positions whose solutions have been seen."""
        return frozenset(row["position"] for row in self._read("SELECT position FROM shown"))

    def in_hand(self, position: str) -> InHand | None:
        """The attempt that was left and can be taken up again."""
        for row in self._read(_IN_HAND, position):
            try:
                return InHand(row["puzzle"], parse_events(row["events"]), row["elapsed_ms"])
            except RecordsError:
                self.skipped += 1
        return None

    def positions_in_hand(self) -> tuple[str, ...]:
        """The positions with an attempt in hand, the one left last leading."""
        query = """
            SELECT position FROM in_hand WHERE typeof(position) = 'text' AND length(position) <= ?
            ORDER BY at DESC, rowid DESC LIMIT ?
        """
        rows = self._read(query, MAX_TEXT["position"], MAX_READ)
        return tuple(row["position"] for row in rows)

    def _whole(self, query: str, *values: Any) -> tuple[Record, ...]:
        found = []
        for row in self._read(query, *values):
            try:
                found.append(record_of(row))
            except RecordsError:
                self.skipped += 1
        return tuple(found)

    def _bests(self, query: str, *values: Any) -> dict[str, Best]:
        found = {}
        for row in self._read(query, *values):
            numbers = [row[name] for name in ("over", "turns", "seeing_ms", "doing_ms")]
            if not all(number is None or isinstance(number, int) for number in numbers):
                self.skipped += 1
                continue
            marks = (bool(row[name]) for name in ("solved", "at_hand", "at_par", "called"))
            found[row["position"]] = Best(row["attempts"], *marks, *numbers)
        return found


AnyRecords = TypeVar("AnyRecords", bound=Records)


def open_records(path: Path) -> Records:
    """The attempts in a file. A file that does not exist is made at the first write.

    Raises RecordsLocked, RecordsNewer, RecordsUnwritable, and RecordsDamaged when the file had to
    be moved aside: opening again then begins a new one.
    """
    return opened(Records(path), path)


def opened(records: AnyRecords, path: Path) -> AnyRecords:
    """Records whose file has been looked at. Raises as `open_records` does."""
    if records._for_reading() is None:
        _check_can_be_made(path)
    return records


def _check_can_be_made(path: Path) -> None:
    """Raise RecordsUnwritable when it is plain that the file cannot be made."""
    with translated(path):
        folder = next(parent for parent in path.parents if parent.exists())
        if not folder.is_dir():
            raise RecordsUnwritable(f"{path} cannot be written: {folder} is no folder")
        if not os.access(folder, os.W_OK | os.X_OK):
            raise RecordsUnwritable(f"{path} cannot be written: {folder} is write-protected")
