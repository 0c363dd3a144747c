"""The records of one game: everything that it writes is held until the game ends.

What cannot be written now, since another program holds the file or the disk is full, is written
before whatever comes next, at the latest when the game ends. And where the file has been deleted,
replaced or damaged meanwhile, it is made again, and what this game did is written anew.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, BinaryIO, NamedTuple

from game.errors import RecordsDamaged, RecordsError
from game.records.database import identity, is_database, transaction, translated
from game.records.record import CALLS, Record, check_choice
from game.records.store import AMEND, Records, insert, kept_already, opened

TRIES = 3
"""A damaged file is moved aside and another begun; more than once only where something is odd."""


class _Write(NamedTuple):
    make: Callable[[sqlite3.Connection], object]
    attempts: int = 0


class Journal(Records):
    """Records that forget nothing of this game. Attempts are numbered by this game, from 1.

    Writing raises no RecordsError for what may pass: `news` tells it. Reading does as ever.

    path: None for memory only; why: then the reason; and where: the file to be tried once more at
    the end.
    """

    def __init__(self, path: Path | None, *, where: Path | None = None, why: str = "") -> None:
        super().__init__(path)
        self._where = where
        self._identity: tuple[int, int] | None = None
        self._file: BinaryIO | None = None  # the same file, to look at
        self._writes: list[_Write] = []
        self._made = 0  # so many of them are in the file
        self._numbers: dict[int, int] = {}  # ours -> the file's
        self._is_anew = False  # the file may hold what is written to it
        self._trouble = why
        self._news: list[str] = []

    def news(self) -> list[str]:
        """What went wrong or right since this was asked last, a line each."""
        told, self._news = self._news, []
        return told

    @property
    def unsaved(self) -> int:
        """Attempts that are in memory only."""
        made = self._made if self.path is not None else 0
        return sum(write.attempts for write in self._writes[made:])

    @property
    def trouble(self) -> str:
        """Why not everything is saved; nothing where it is."""
        return self._trouble

    # -- writing ---------------------------------------------------------------------------------

    def add(self, record: Record) -> int:
        """Keep an attempt that is over; its number in this game."""
        number = 1 + sum(write.attempts for write in self._writes)

        def make(connection: sqlite3.Connection) -> None:
            found = kept_already(connection, record) if self._is_anew else None
            self._numbers[number] = found or insert(connection, record)

        self._hold(_Write(make, attempts=1))
        return number

    def amend(self, number: int, *, called: str | None = None, at_hand: bool | None = None) -> None:
        """Add to an attempt of this game what is known only after its end."""
        if called is not None:
            check_choice("called", called, CALLS)

        def make(connection: sqlite3.Connection) -> None:
            connection.execute(AMEND, (called, at_hand, self._numbers[number]))

        self._hold(_Write(make))

    def begin_run(self, mode: str, kind: str, text: str) -> int:
        """Keep a run from its beginning. Its number is the file's; so here a fault is raised."""
        self._catch_up()
        return self._made_again(super().begin_run(mode, kind, text))

    def enter_run(self, mode: str, kind: str, text: str, fits: Callable[[str], bool]) -> int:
        """The first run of a kind that fits, or a new one; a fault is raised, as above."""
        self._catch_up()
        return self._made_again(super().enter_run(mode, kind, text, fits))

    def _made_again(self, number: int) -> int:
        """Have a run that is in the file made again where the file is lost; its number."""
        run = tuple(self._read("SELECT * FROM run WHERE number = ?", number)[0])
        again = f"INSERT OR IGNORE INTO run VALUES ({', '.join('?' * len(run))})"
        self._writes.append(_Write(lambda connection: connection.execute(again, run)))
        self._made = len(self._writes)
        return number

    def _write(self, statement: str, values: Iterable[Any]) -> None:
        given = tuple(values)
        self._hold(_Write(lambda connection: connection.execute(statement, given)))

    def _hold(self, write: _Write) -> None:
        """Make a write, now or later."""
        self._writes.append(write)
        try:
            self._catch_up()
        except RecordsError as fault:
            self._tell_trouble(fault)
        except BaseException:  # nothing will ever make it
            self._writes.remove(write)
            raise

    def _tell_trouble(self, fault: RecordsError) -> None:
        if str(fault) != self._trouble:
            self._trouble = str(fault)
            self._news.append(f"{fault}. What you do is kept in memory until it can be saved.")

    def _catch_up(self) -> None:
        """Make all that is still to be made. Raises RecordsError where that is not possible now."""
        for tries_left in reversed(range(TRIES)):
            try:
                with translated(self.path):
                    self._look_for_file()
                    connection = self._for_writing()
                    with transaction(connection):
                        for write in self._writes[self._made :]:
                            write.make(connection)
                break
            except RecordsDamaged as fault:
                self._news.append(f"{fault}. What this game did is written anew.")
                self._begin_anew()
                if not tries_left:
                    raise
        self._made = len(self._writes)
        self._is_anew = False
        if self._trouble and self.path is not None:
            self._trouble = ""
            self._news.append("What waited is saved.")

    # -- the file --------------------------------------------------------------------------------

    def _look_for_file(self) -> None:
        """Notice that the file is no longer the one that was opened."""
        if self.path is None or self._connection is None or self._file is None:
            return
        if identity(self.path) != self._identity or not is_database(self._file):
            self._begin_anew()
            lost = f"{self.path} was deleted or replaced while you played"
            self._news.append(f"{lost}; what this game did is written anew.")

    def _begin_anew(self) -> None:
        """Let go of a file that is lost; everything of this game is to be written to the next."""
        self._let_go()
        self._made = 0
        self._is_anew = True

    def _for_writing(self) -> sqlite3.Connection:
        if self._connection is None:
            super()._for_writing()
            if self.path is not None:
                self._identity = identity(self.path)
                self._file = self.path.open("rb", buffering=0)
        return super()._for_writing()

    def close(self) -> None:
        """Save what waits, if that is possible at last, and let go of the file."""
        if self.path is None and self._where is not None and self._writes:
            self._begin_anew()
            self.path = self._where
        if self.path is not None and self._writes:
            try:
                self._catch_up()
            except RecordsError as fault:
                self._tell_trouble(fault)
        self._let_go()

    def _let_go(self) -> None:
        super().close()
        if self._file is not None:  # not before the connection: see `is_database`
            self._file.close()
            self._file = None


def records_to_play(path: Path) -> tuple[Journal, str]:
    """The attempts in a file, whatever its state, and a line for the player if all is not well.

    After damage a new file is begun; when nothing can be saved, attempts are kept in memory until
    the game ends.
    """
    told = ""
    try:
        try:
            return opened(Journal(path), path), told
        except RecordsDamaged as error:
            told = f"{error}. "
            return opened(Journal(path), path), told.strip()
    except RecordsError as error:
        told += f"{error}. The game goes on; attempts are not saved."
        return Journal(None, where=path, why=str(error)), told
