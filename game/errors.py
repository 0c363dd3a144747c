"""Every error Pairwright raises on purpose, as one tree.

    PairwrightError
    +-- NotationError      a line of turns that cannot be read
    +-- PositionError      a cube, slot or set of faces that cannot be
    +-- SelectionError     what is to be played cannot be had
    +-- ForbiddenTurn      a turn of a face that the position does not allow
    +-- DayError           a date that has no positions
    +-- PackError          a pack with faults, all of them at once
    +-- ContestError       a contest, a card or a result that cannot be
    +-- CodeError          text that should be an invite or a card and cannot be read
    |   +-- CodeNewer          written by a later version
    +-- MatchError         players, or a text of a match, that cannot be
    +-- ManualError        a subject that the manual has no page for
    +-- SettingsError      a setting with a value that it cannot have
    +-- CacheError         a table file that cannot be used or written
    |   +-- CacheBusy          another process is writing tables
    |   +-- CacheFull          the disk has no room for them
    +-- RecordsError       the database of attempts
        +-- RecordsLocked      another program holds it
        +-- RecordsDamaged     not a database, or cut short
        +-- RecordsNewer       written by a later version
        +-- RecordsUnwritable  the folder or file refuses to be written

Their text is one clear line for the player; a `NotationError` adds the offending line with a caret.
"""

from __future__ import annotations

from difflib import get_close_matches
from typing import NamedTuple
from unicodedata import combining, east_asian_width

SHOWN = 60
"""Characters of an offending text that are shown around the caret."""
SHOWN_FAULTS = 50
"""Faults of a pack that its error writes out; the rest is counted."""


class PairwrightError(ValueError):
    """Something that Pairwright was given, or stands on, is not as it must be."""


class NotationError(PairwrightError):
    """A line of turns, or a placeholder of a note, that cannot be read.

    text: the whole line; place: index of the first offending character; length: how many offend;
    problem: one line that says what was found and what was expected.
    """

    def __init__(self, text: str, place: int, length: int, problem: str) -> None:
        super().__init__(text, place, length, problem)
        self.text = text
        self.place = place
        self.length = max(1, length)
        self.problem = problem

    def __str__(self) -> str:
        return f"{self.problem}\n{self.caret()}"

    def caret(self, indent: str = "    ") -> str:
        """The offending text with carets under the fault: two lines, cut to `SHOWN` characters."""
        start = max(0, min(self.place - SHOWN // 2, len(self.text) - SHOWN))
        shown = "".join(c if c.isprintable() else " " for c in self.text[start : start + SHOWN])
        before = self.place - start
        blanks = " " * _columns(shown[:before])
        carets = "^" * max(1, _columns(shown[before : before + self.length]))
        return f"{indent}{shown.rstrip()}\n{indent}{blanks}{carets}"


class PositionError(PairwrightError):
    """A cube that cannot exist, or a slot, face or text of a position that is not one."""


class SelectionError(PairwrightError):
    """What is to be played cannot be had: a pack that is not there, terms that nothing fits."""


class ForbiddenTurn(PairwrightError):
    """A turn of a face that the position does not allow."""

    def __init__(self, move: str, face: str, allowed: str) -> None:
        super().__init__(move, face, allowed)
        self.move = move
        self.face = face
        self.allowed = allowed

    def __str__(self) -> str:
        allowed = " and ".join(", ".join(self.allowed).rsplit(", ", 1))
        return f"{self.move} turns face {self.face}; here only {allowed} may turn"


class DayError(PairwrightError):
    """A date for which there are no five positions, or a text that is no date."""


class Fault(NamedTuple):
    """One thing wrong in a pack: file, level id and key (empty when none), problem, caret lines."""

    file: str
    level: str
    key: str
    problem: str
    caret: str = ""

    def __str__(self) -> str:
        where = f'{self.file}: level "{self.level}"' if self.level else self.file
        key = f": {self.key}" if self.key else ""
        caret = f"\n{self.caret}" if self.caret else ""
        return f"{where}{key}: {self.problem}{caret}"


class PackError(PairwrightError):
    """A pack that cannot be used, with every fault that was found in it."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__(faults)
        self.faults = faults

    def __str__(self) -> str:
        lines = [str(fault) for fault in self.faults[:SHOWN_FAULTS]]
        more = len(self.faults) - SHOWN_FAULTS
        return "\n".join([*lines, f"and {more} more"] if more > 0 else lines)


class ContestError(PairwrightError):
    """A contest, a card or a result that breaks a bound or contradicts itself."""


class CodeError(PairwrightError):
    """Text that should be an invite or a card and is damaged, cut off, or none at all.

    line: in which line of a longer text it begins; 0 where that is not known.
    """

    line = 0

    @property
    def placed(self) -> str:
        """The text of the error, with the line where that is known."""
        return f"line {self.line}: {self}" if self.line else str(self)


class CodeNewer(CodeError):
    """An invite or a card that a later version of the program wrote."""


class MatchError(PairwrightError):
    """Players who cannot play a match together, or a stored match that cannot be read."""


class ManualError(PairwrightError):
    """A subject that the manual has no page for."""


class SettingsError(PairwrightError):
    """A setting with a value that it cannot have."""


class CacheError(PairwrightError):
    """A table file that is damaged, of another version, or cannot be read or written."""


class CacheBusy(CacheError):
    """Another process is writing tables in the folder."""

    def __init__(self, folder: str) -> None:
        super().__init__(folder)
        self.folder = folder

    def __str__(self) -> str:
        return f"another process is building tables in {self.folder}"


class CacheFull(CacheError):
    """The disk has too little room for tables. needed, free: bytes."""

    def __init__(self, folder: str, needed: int, free: int) -> None:
        super().__init__(folder, needed, free)
        self.folder = folder
        self.needed = needed
        self.free = free

    def __str__(self) -> str:
        needed, free = (f"{size / 1e6:,.0f} MB" for size in (self.needed, self.free))
        return f"no room for tables in {self.folder}: {needed} are needed, {free} are free"


class RecordsError(PairwrightError):
    """The database of attempts cannot be used."""


class RecordsLocked(RecordsError):
    """Another program holds the database; waiting did not help."""


class RecordsDamaged(RecordsError):
    """The file is not a database of attempts, or it is damaged."""


class RecordsNewer(RecordsError):
    """The database was written by a later version of the program; it is left untouched."""


class RecordsUnwritable(RecordsError):
    """The folder or file cannot be written."""


def printable(text: str, most: int = 12) -> str:
    """The start of an offending text, fit to stand in a one-line message."""
    return "".join(c if c.isprintable() else "?" for c in text[:most])


def _columns(text: str) -> int:
    """Columns of a terminal that the text takes: East Asian wide letters two, accents none."""
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)


def did_you_mean(word: str, known: tuple[str, ...] | list[str]) -> str:
    """`; did you mean "x"?` when one of the known words is close, otherwise nothing."""
    close = get_close_matches(word, known, n=1, cutoff=0.6)
    return f'; did you mean "{close[0]}"?' if close else ""
