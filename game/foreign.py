"""Text that somebody else wrote, made fit to be shown: one line, of bounded width, nothing hidden.

What could move the cursor, turn the direction of the text round, or cannot be seen is left out:
controls, line breaks, format characters, private and unassigned ones (what Python calls not
printable). Of accents that stand on one letter, `MAX_ACCENTS` are kept.
"""

from __future__ import annotations

from unicodedata import category, east_asian_width

MAX_ACCENTS = 2
NAMELESS = "?"
"""What stands where nothing of a text can be shown."""


def shown(text: str, columns: int = 40) -> str:
    """The text in at most so many columns of a terminal, "…" at the end where it was cut.

    No more of it is read than can count: the time does not depend on the length of the text.
    """
    kept: list[str] = []
    wide = accents = 0
    for character in text[: 8 * columns]:
        if character.isspace():
            character = " "  # noqa: PLW2901 - a tab, say, or a line break
            if not kept or kept[-1] == " ":
                continue
        if not character.isprintable():
            continue
        size = width(character)
        accents = accents + 1 if size == 0 else 0
        if size == 0 and (not kept or accents > MAX_ACCENTS):
            continue
        if wide + size > columns:
            return _cut(kept, columns)
        kept.append(character)
        wide += size
    if len(text) > 8 * columns:
        return _cut(kept, columns)
    return "".join(kept).rstrip() or NAMELESS


def width(text: str) -> int:
    """Columns of a terminal that a text takes: East Asian wide letters two, accents none."""
    return sum(
        0 if category(c) in ("Mn", "Me") else 2 if east_asian_width(c) in "WF" else 1 for c in text
    )


def _cut(kept: list[str], columns: int) -> str:
    """As much of it as leaves a column for the mark that it was cut."""
    while kept and width("".join(kept)) > columns - 1:
        kept.pop()
    return "".join(kept).rstrip() + "…"
