"""The line of turns made so far, with a sign under each turn that leads to a stage."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate

from textual.content import Content
from textual.widgets import Static

from game.screens.shared.stage_rows import named_joined

CUT = ".. "
"""Stands for the turns that no longer fit."""


def line_rows(names: Sequence[str], signs: Sequence[str], width: int) -> tuple[str, str]:
    """Two rows: the names of the moves, and the sign of each under it, which may be nothing.

    Where they do not fit into `width` columns the earliest are left out.
    """
    ends = list(accumulate(len(name) + 1 for name in reversed(names)))  # a blank after each
    fits = len(names)
    if ends and ends[-1] > width + 1:
        fits = bisect_right(ends, width + 1 - len(CUT))
    first = len(names) - fits
    above = CUT if first else ""
    below = " " * len(above)
    for name, sign in list(zip(names, signs, strict=True))[first:]:
        above += f"{name} "
        below += f"{sign:<{len(name)}} "
    return above.rstrip(), below.rstrip()


class LineView(Static):
    """Two rows: the line and its signs."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._names: Sequence[str] = ()
        self._signs: Sequence[str] = ()
        self._start = ""

    def show(self, names: Sequence[str], signs: Sequence[str], start: str) -> None:
        """Show this line; `start` is said while it is empty."""
        self._names, self._signs, self._start = names, signs, start
        self._draw()

    def on_resize(self) -> None:
        """Fit the line into the new width."""
        self._draw()

    def _draw(self) -> None:
        if not self._names:
            self.update(Content.assemble((self._start, "$muted")), layout=False)
            return
        above, below = line_rows(self._names, self._signs, self.content_size.width)
        below = named_joined(below, self.content_size.width)
        rows = Content.assemble((above, "bold"), "\n", (below, "$success"))
        self.update(rows, layout=False)
