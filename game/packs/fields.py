"""The fields of one TOML table, each taken out with a check.

What is wrong becomes a fault, and something harmless stands in its place, so that reading goes on
and the next fault is found as well.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from game.errors import Fault, NotationError, did_you_mean, printable

MAX_UNKNOWN = 20
"""Unknown keys of one table that are named; the rest is counted."""
_BREAK = re.compile(r"[ \t\r\n]{2,}|[\t\r\n]")
"""Blanks that are not one space."""


class Faults:
    """The faults of a file found so far, and the level that is being read ("" for none)."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.level = ""
        self.found: list[Fault] = []

    def add(self, key: str, problem: str, caret: str = "") -> None:
        """One more fault of the level that is being read."""
        self.found.append(Fault(self.file, self.level, key, problem, caret))

    def add_notation(self, key: str, error: NotationError) -> None:
        """One more fault, which the error points at."""
        self.add(key, error.problem, error.caret())


class Fields(NamedTuple):
    """A table of a file whose faults are being gathered."""

    table: dict[str, Any]
    faults: Faults

    def check_keys(self, known: tuple[str, ...], optional: tuple[str, ...] = ()) -> None:
        """A fault for each key that is not known, and for each that is missing."""
        unknown = [key for key in self.table if key not in known]
        for key in unknown[:MAX_UNKNOWN]:
            hint = did_you_mean(key, known) or f"; expected {' '.join(known)}"
            self.faults.add("", f'unknown key "{printable(key, 40)}"{hint}')
        if len(unknown) > MAX_UNKNOWN:
            self.faults.add("", f"{len(unknown) - MAX_UNKNOWN} more unknown keys")
        for key in known:
            if key not in self.table and key not in optional:
                self.faults.add(key, "missing")

    def integer(self, key: str) -> int | None:
        """A whole number, or None."""
        value = self.table.get(key)
        if isinstance(value, int) and not isinstance(value, bool):
            return value
        if value is not None:
            self.faults.add(key, f"expected a whole number, found {type_words(value)}")
        return None

    def string(self, key: str, default: str = "") -> str:
        """A text as it is written, or the default."""
        value = self.table.get(key, default)
        if isinstance(value, str):
            return value
        self.faults.add(key, f"expected text, found {type_words(value)}")
        return default

    def text(self, key: str, most: int, *, prose: bool = False) -> str:
        """A text of at most so many characters, fit to be shown on one line, or "".

        In prose a line break, with the blanks around it, is a space.
        """
        value = self.table.get(key)
        if not isinstance(value, str):
            return self.string(key)
        if prose:
            value = _BREAK.sub(" ", value)
        value = value.strip(" ")
        if not value:
            self.faults.add(key, "is empty")
        elif len(value) > most:
            self.faults.add(key, f"{len(value)} characters; expected at most {most}")
        elif not value.isprintable():  # controls, line breaks, overrides of the direction
            place = next(i for i, c in enumerate(value) if not c.isprintable())
            caret = NotationError(value, place, 1, "").caret()
            self.faults.add(key, f"character U+{ord(value[place]):04X} cannot be shown", caret)
        else:
            return value
        return ""

    def words(self, key: str, one: str, known: tuple[str, ...]) -> tuple[str, ...]:
        """A list of known words, each once, in the order in which they are known.

        one: what such a word is called.
        """
        value = self.table.get(key, [])
        if not isinstance(value, list):
            self.faults.add(key, f"expected a list of texts, found {type_words(value)}")
            return ()
        for place, word in enumerate(value[: len(known) + 1]):
            if not isinstance(word, str):
                self.faults.add(key, f"expected a list of texts, found {type_words(word)} in it")
            elif word not in known:
                hint = did_you_mean(word, known) or f"; expected {', '.join(known)}"
                self.faults.add(key, f'unknown {one} "{printable(word)}"{hint}')
            elif word in value[:place]:
                self.faults.add(key, f'"{word}" is named more than once')
        return tuple(word for word in known if word in value)


def type_words(value: object) -> str:
    """What a TOML value is, in words."""
    kinds: tuple[tuple[type, str], ...] = (
        (str, "text"),
        (bool, "true or false"),
        (int, "a whole number"),
        (float, "a number with a point"),
        (list, "a list"),
        (dict, "a table"),
    )
    return next((words for kind, words in kinds if isinstance(value, kind)), "a date or time")


def number_words(number: int) -> str:
    """A number in a message; one of thousands of digits is not written out."""
    return str(number) if abs(number) < 10**9 else "a number of many digits"
