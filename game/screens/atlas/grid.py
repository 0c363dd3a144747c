"""A sheet of the atlas as a grid: a row for each state of the corner, columns for the edge's.

                  green up        orange up       in slot
    corner above   F   R   B   L   F   R   B   L   gF  gR
                   0   1   2   3   4   5   6   7   8   9
    a white up     6·  7·  6●  5◐ ...
    corner in slot
    d white down  ▸7·             ...

A square tells the least par and what the player has come to there; where several columns are one
cell the square goes over all of them. The sign before the par marks the cell that is chosen.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Size
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from game.atlas import Cell, Sheet
from game.screens.atlas.words import Line, Met, lines
from game.screens.shared.lists import POINTER

LABEL = 15
"""Columns of a row's letter and words."""
CELL, ROOMY_CELL = 4, 5
"""Columns of a square, the last of them empty; in a roomy window."""
GAPS = (3, 7)
"""After these columns there is one column more."""
AIRY_ROWS = 34
"""Windows this high get an empty line between the rows."""


@dataclass(frozen=True)
class Square:
    """What a square tells. par: in a character; picked: whether the terms pick the cell."""

    par: str
    met: Met
    picked: bool


@dataclass(frozen=True)
class Chart:
    """What the grid shows: a sheet as seen at a slot, and the cell that is chosen.

    column: the digit under which it was chosen. colours: centre -> colour name.
    """

    sheet: Sheet
    slot: str
    colours: Mapping[str, str]
    squares: Mapping[Cell, Square]
    chosen: Cell
    column: str


_STYLES = {
    Met.NONE: "atlas-grid--label",
    Met.NOT: "atlas-grid--not",
    Met.SOLVED: "atlas-grid--solved",
    Met.AT_PAR: "atlas-grid--at-par",
}


class AtlasGrid(Widget, can_focus=True):
    """The grid. A click chooses a cell, a click on the chosen one takes it."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES = {  # noqa: RUF012
        "atlas-grid--label",
        "atlas-grid--letter",
        "atlas-grid--pointer",
        "atlas-grid--not",
        "atlas-grid--solved",
        "atlas-grid--at-par",
    }

    class Chosen(Message):
        """A square was clicked. square: its row and column."""

        def __init__(self, square: str) -> None:
            super().__init__()
            self.square = square

    class Taken(Message):
        """The chosen cell was clicked."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.chart: Chart | None = None
        self._lines: tuple[Line, ...] = ()

    def show(self, chart: Chart) -> None:
        """Show this from now on."""
        self.chart = chart
        airy = self.app.size.height >= AIRY_ROWS
        found = lines(chart.sheet, chart.slot, chart.colours, airy=airy)
        resized = len(found) != len(self._lines)
        self._lines = found
        self.refresh(layout=resized)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """A row for each line."""
        return len(self._lines)

    @property
    def _square(self) -> int:
        return ROOMY_CELL if self.size.width >= LABEL + 10 * ROOMY_CELL + len(GAPS) else CELL

    def _left(self, column: int) -> int:
        """Where a column begins."""
        return LABEL + column * self._square + sum(column > gap for gap in GAPS)

    def render_line(self, y: int) -> Strip:
        """A line of the grid."""
        chart = self.chart
        if chart is None or y >= len(self._lines):
            return Strip.blank(self.size.width, self.rich_style)
        line = self._lines[y]
        label = self.get_component_rich_style("atlas-grid--label")
        if not line.row:
            segments = [Segment(_spread(line, self._left), label)]
        else:
            letter = self.get_component_rich_style("atlas-grid--letter")
            segments = [
                Segment(line.row, letter),
                Segment(f" {line.label:<{LABEL - 2}}", label),
                *self._cells(chart, line.row),
            ]
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style)

    def _cells(self, chart: Chart, row: str) -> list[Segment]:
        segments: list[Segment] = []
        at = LABEL
        for cell in chart.sheet.cells:
            if cell.row.letter != row:
                continue
            first, last = int(cell.columns[0]), int(cell.columns[-1])
            segments.append(Segment(" " * (self._left(first) - at), self.rich_style))
            at = self._left(last) + self._square - 1
            segments += self._cell_text(chart, cell, at - self._left(first))
        return segments

    def _cell_text(self, chart: Chart, cell: Cell, width: int) -> list[Segment]:
        """A square of that many columns."""
        square = chart.squares[cell]
        if not square.picked and cell is not chart.chosen:
            return [Segment(" " * width, self.rich_style)]
        style = self.get_component_rich_style(_STYLES[square.met])
        space = " " * (self._square - CELL)
        text = f" {square.par}{space}{square.met.value}".ljust(width)
        if cell is not chart.chosen:
            return [Segment(text, style)]
        pointer = self.get_component_rich_style("atlas-grid--pointer", partial=True)
        at = self._left(int(chart.column)) - self._left(int(cell.columns[0]))
        strong = style + Style(bold=True)
        return [
            Segment(text[:at], strong),
            Segment(POINTER, strong + pointer),
            Segment(text[at + 1 :], strong),
        ]

    def on_click(self, event: events.Click) -> None:
        """Choose what was clicked, or take it."""
        offset = event.get_content_offset(self)
        chart = self.chart
        if offset is None or chart is None or offset.y >= len(self._lines):
            return
        row = self._lines[offset.y].row
        columns = [c for c in range(len(chart.sheet.edges)) if self._left(c) <= offset.x]
        if not row or not columns:
            return
        event.stop()
        if row == chart.chosen.row.letter and str(columns[-1]) == chart.column:
            self.post_message(self.Taken())
        else:
            self.post_message(self.Chosen(f"{row}{columns[-1]}"))


def _spread(line: Line, left: Callable[[int], int]) -> str:
    """The label and the heads, each where its column begins."""
    text = line.label
    for column, word in (line.heads or {}).items():
        text = f"{text:<{left(column) + 1}}{word}"
    return text
