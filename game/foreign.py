"""Text that somebody else wrote, made fit to be shown: one line, of bounded width, nothing hidden.

What could move the cursor, turn the direction of writing round, or cannot be seen is left out:
controls, format characters, private and unassigned ones (what Python calls not printable). Line
breaks and other blanks become spaces. Of accents that stand on one letter a few are kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from unicodedata import category, east_asian_width

MAX_ACCENTS = 2
"""Accents that one letter keeps."""
NAMELESS = "?"
"""What stands for a text of which nothing can be shown."""
_READ = 8
"""Characters that are read at most for a column: what is longer is cut in any case."""


def shown(text: str, columns: int = 40) -> str:
    """The text in at most so many columns of a terminal, "…" at its end where it was cut.

    However long the text, no more of it is read than could be shown.
    """
    kept = list(_visible(text[: _READ * columns]))
    is_cut = len(text) > _READ * columns or width("".join(kept)) > columns
    while is_cut and kept and width("".join(kept)) > columns - 1:
        kept.pop()
    return "".join(kept).rstrip() + "…" * is_cut or NAMELESS


def width(text: str) -> int:
    """Columns of a terminal that a text takes: East Asian wide letters two, accents none."""
    return sum(map(_width, text))


def _width(character: str) -> int:
    if category(character) in ("Mn", "Me"):
        return 0
    return 2 if east_asian_width(character) in "WF" else 1


def _visible(text: str) -> Iterator[str]:
    """The characters that may be shown, blanks as single spaces and none at the start."""
    last, accents = " ", MAX_ACCENTS
    for character in text:
        if character.isspace():
            if last != " ":
                yield " "
            last, accents = " ", MAX_ACCENTS
        elif character.isprintable():
            accents = accents + 1 if _width(character) == 0 else 0
            if accents <= MAX_ACCENTS:
                yield character
                last = character
