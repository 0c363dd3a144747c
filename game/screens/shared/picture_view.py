"""Shows a picture (rows of runs) and redraws only the rows that changed."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget

if TYPE_CHECKING:
    from game.draw.cells import Picture, Run


class PictureView(Widget):
    """A picture as wide and high as it is, on the widget's own ground."""

    ALLOW_SELECT = False

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.picture: Picture = ()

    def show(self, picture: Picture) -> None:
        """Show this picture from now on."""
        before, self.picture = self.picture, picture
        if _size(before) != _size(picture):
            self.refresh(layout=True)
            return
        width = self.size.width
        changed = [
            y for y, rows in enumerate(zip(before, picture, strict=True)) if rows[0] != rows[1]
        ]
        if changed:
            self.refresh(*(Region(0, y, width, 1) for y in changed))

    @property
    def picture_size(self) -> Size:
        """Columns and rows of the picture."""
        return _size(self.picture)

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """Columns of the picture."""
        return _size(self.picture).width

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Rows of the picture."""
        return len(self.picture)

    def render_line(self, y: int) -> Strip:
        """A row of the picture."""
        ground = self.rich_style
        if y >= len(self.picture):
            return Strip.blank(self.size.width, ground)
        segments = [Segment(run.text, ground + run_style(run)) for run in self.picture[y]]
        return Strip(segments).adjust_cell_length(self.size.width, ground)


def _size(picture: Picture) -> Size:
    width = sum(len(run.text) for run in picture[0]) if picture else 0
    return Size(width, len(picture))


@lru_cache(maxsize=4096)
def _style(fg: Color | None, bg: Color | None, bold: bool) -> Style:
    return Style(color=fg, bgcolor=bg, bold=bold or None)


@lru_cache(maxsize=4096)
def _colour(colour: tuple[int, int, int] | int | None) -> Color | None:
    if colour is None:
        return None
    return Color.from_ansi(colour) if isinstance(colour, int) else Color.from_rgb(*colour)


def run_style(run: Run) -> Style:
    """The style of a run; styles are made once and kept."""
    return _style(_colour(run.fg), _colour(run.bg), run.bold)
