"""A list to choose from with keys or mouse; a sign stands before the marked row."""

from __future__ import annotations

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.strip import Strip
from textual.widgets import OptionList

POINTER = "▸"


class RoomyList(OptionList):
    """An option list that turns pages only where there is room, and may change under a click."""

    async def _on_click(self, event: events.Click) -> None:
        """A click on a row that has gone since it was drawn is not heard."""
        clicked = event.style.meta.get("option")
        if clicked is not None and clicked >= self.option_count:
            event.prevent_default()

    def action_page_up(self) -> None:
        """A page up."""
        if self.scrollable_content_region.area:
            super().action_page_up()  # type: ignore[no-untyped-call]

    def action_page_down(self) -> None:
        """A page down."""
        if self.scrollable_content_region.area:
            super().action_page_down()  # type: ignore[no-untyped-call]


class ChoiceList(RoomyList):
    """An option list in the style of the game.

    A click marks a row, and a click on the marked row takes it; where the list is `eager` the
    first click takes it at once. Where it is `quiet` the sign stands only while it has the focus.
    """

    COMPONENT_CLASSES = {"choice-list--pointer"}  # noqa: RUF012

    def __init__(self, *, eager: bool = False, quiet: bool = False, id: str | None = None) -> None:
        super().__init__(id=id, compact=True)
        self._eager = eager
        self._quiet = quiet

    def on_click(self, event: events.Click) -> None:
        """Mark the row that was clicked, unless it is to be taken."""
        clicked = event.style.meta.get("option")
        is_there = clicked is not None and clicked < self.option_count
        if is_there and not self._eager and clicked != self.highlighted:
            event.prevent_default()
            self.highlighted = clicked

    def render_line(self, y: int) -> Strip:
        """A row; the marked one has the sign in its first column, on its first line."""
        strip = super().render_line(y)
        marked = self.highlighted
        is_silent = self._quiet and not self.has_focus
        if marked is None or is_silent or _option_of(strip) != marked:
            return strip
        if y and _option_of(super().render_line(y - 1)) == marked:
            return strip
        style = next(iter(strip)).style or Style()
        sign = self.get_component_rich_style("choice-list--pointer", partial=True)
        return Strip.join([Strip([Segment(POINTER, style + sign)]), strip.crop(1)])

    @property
    def row_width(self) -> int:
        """Columns of a row's text."""
        padding = self.get_component_styles("option-list--option").padding.width
        return max(0, self.scrollable_content_region.width - padding)


def _option_of(strip: Strip) -> int | None:
    """The option that a line of the list shows."""
    styles = (segment.style for segment in strip if segment.style)
    return next((style.meta["option"] for style in styles if "option" in style.meta), None)
