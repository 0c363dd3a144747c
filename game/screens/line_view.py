"""The line of turns made so far, with a tick under each turn after which a pair is joined."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual.content import Content
from textual.widgets import Static

TICK = "✓"
CUT = ".. "
"""Stands for the turns that no longer fit."""


def line_rows(names: Sequence[str], ticked: Iterable[int], width: int) -> tuple[str, str]:
    """Two rows: the names of the moves, and a tick under each whose number (from 0) is ticked.

    Where they do not fit into `width` columns the earliest are left out.
    """
    under = set(ticked)
    first = 0
    while first < len(names) and len(" ".join(names[first:])) + len(CUT) * bool(first) > width:
        first += 1
    above = CUT if first else ""
    below = " " * len(above)
    for number in range(first, len(names)):
        name = names[number]
        above += f"{name} "
        below += f"{TICK if number in under else '':<{len(name)}} "
    return above.rstrip(), below.rstrip()


class LineView(Static):
    """Two rows: the line and its ticks."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._names: Sequence[str] = ()
        self._ticked: tuple[int, ...] = ()
        self._start = ""

    def show(self, names: Sequence[str], ticked: Iterable[int], start: str) -> None:
        """Show this line; `start` is said while it is empty."""
        self._names, self._ticked, self._start = names, tuple(ticked), start
        self._draw()

    def on_resize(self) -> None:
        """Fit the line into the new width."""
        self._draw()

    def _draw(self) -> None:
        if not self._names:
            self.update(Content.assemble((self._start, "$muted")), layout=False)
            return
        above, below = line_rows(self._names, self._ticked, self.content_size.width)
        rows = Content.assemble((above, "bold"), "\n", (below, "$success"))
        self.update(rows, layout=False)
