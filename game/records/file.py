"""The file of the records while the game runs: opened at the first need, read and written."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from game.records.database import connect, translated


class RecordsFile:
    """One file, or memory when path is None; reading while there is no file creates nothing.

    skipped: rows that could not be read so far and were left out. Every method may raise a
    RecordsError of `game.errors`.
    """

    def __init__(self, path: Path | None) -> None:
        self.path = path
        self.skipped = 0
        self._connection: sqlite3.Connection | None = None

    def close(self) -> None:
        """Let go of the file."""
        if self._connection is not None:
            self._connection.close()
            self._connection = None

    def _for_writing(self) -> sqlite3.Connection:
        if self._connection is None:
            self._connection = connect(self.path)
        return self._connection

    def _for_reading(self) -> sqlite3.Connection | None:
        """The connection, or None while there is no file."""
        with translated(self.path):
            if self._connection is None and self.path is not None and not self.path.exists():
                return None
            return self._for_writing()

    def _write(self, statement: str, values: Iterable[Any]) -> None:
        with translated(self.path):
            self._for_writing().execute(statement, tuple(values))

    def _read(self, query: str, *values: Any) -> list[sqlite3.Row]:
        connection = self._for_reading()
        if connection is None:
            return []
        with translated(self.path):
            return connection.execute(query, values).fetchall()

    def _skip(self) -> None:
        self.skipped += 1
