"""A solution as it is listed: as held at the start, and the easiest way to hold it. Pure."""

from __future__ import annotations

from textual.content import Content

from game.cube.ease import easiest_grip
from game.cube.line import Line
from game.cube.moves import line_text


def solution_row(line: Line) -> Content:
    """The line, and muted below it the same held otherwise where that is easier on the hands."""
    easiest = easiest_grip(line)
    other = "" if easiest == line else f"\nor held otherwise: {line_text(easiest)}"
    return Content.assemble(line_text(line), (other, "$muted"))
