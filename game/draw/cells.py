"""Pictures as text: rows of runs, a run being neighbouring characters of one style.

One character cell shows two square pixels, an upper and a lower one. Where they have one colour
the cell is a space with that background; otherwise it is a half block:

    "▀" fg = upper, bg = lower       "▄" fg = lower, no bg: the upper pixel shows the terminal
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import zip_longest
from typing import NamedTuple

RGB = tuple[int, int, int]
Ink = RGB | int | None
"""A colour: red, green and blue in 0..255, an index of the ANSI palette, or the terminal's own."""


class Run(NamedTuple):
    """Characters of one style."""

    text: str
    fg: Ink = None
    bg: Ink = None
    bold: bool = False


Row = tuple[Run, ...]
Picture = tuple[Row, ...]


def half_cells(upper: Ink, lower: Ink, count: int = 1) -> Run:
    """A run of cells that all show these two pixels."""
    if upper == lower:
        return Run(" " * count, None, upper)
    if upper is None:
        return Run("▄" * count, lower)
    return Run("▀" * count, upper, lower)


def merged(runs: Iterable[Run]) -> Row:
    """The row with neighbours of one style as one run; a space has no foreground."""
    row: list[Run] = []
    for run in runs:
        if not run.text:
            continue
        last = row[-1] if row else None
        if last is None or last.bg != run.bg or last.bold != run.bold:
            row.append(run)
        elif last.fg == run.fg or run.text.isspace():
            row[-1] = Run(last.text + run.text, *last[1:])
        elif last.text.isspace():
            row[-1] = Run(last.text + run.text, *run[1:])
        else:
            row.append(run)
    return tuple(row)


def row_width(row: Row) -> int:
    """Columns of a row: every character that is drawn here is one column wide."""
    return sum(len(run.text) for run in row)


def width(picture: Picture) -> int:
    """Columns of the widest row."""
    return max(map(row_width, picture), default=0)


def padded(row: Row, columns: int) -> Row:
    """The row with spaces added up to that many columns."""
    return merged((*row, Run(" " * (columns - row_width(row)))))


def beside(*pictures: Picture, gap: int = 2) -> Picture:
    """The pictures side by side, their tops aligned, with `gap` columns between them."""
    widths = [width(picture) for picture in pictures]
    rows = []
    for parts in zip_longest(*pictures, fillvalue=()):
        runs: list[Run] = []
        for columns, part in zip(widths, parts, strict=True):
            runs += [Run(" " * gap)] if runs else []
            runs += padded(part, columns)
        rows.append(merged(runs))
    return tuple(rows)
