"""A screen to read: text that scrolls, laid out for the width that there is."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable
from pathlib import Path

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen

MOST_COLUMNS = 76
"""Columns of a text at most: longer lines are hard to read."""


class TextPage(FramedScreen):
    """Shows a text; `text` gives it for a width in columns."""

    COMMAND_SCREEN = "help"
    BINDINGS = keys.bindings("help")
    CSS_PATH = Path(__file__).with_name("text_page.tcss")

    def __init__(self, heading: str) -> None:
        super().__init__()
        self._heading = heading

    @abstractmethod
    def text(self, columns: int) -> Content:
        """The text, with lines of at most so many columns."""

    def body(self) -> Iterable[Widget]:
        """The text in a scroll."""
        yield VerticalScroll(Static(id="text"), *self.below(), id="reader")

    def below(self) -> Iterable[Widget]:
        """What stands below the text."""
        return ()

    def on_mount(self) -> None:
        """Ready to scroll."""
        self.entitle(self._heading)
        self.query_one("#reader").focus()

    def on_resize(self) -> None:
        """Lay the text out anew."""
        room = self.query_one("#reader").scrollable_content_region.width
        self.lay_out(min(MOST_COLUMNS, room))

    def lay_out(self, columns: int) -> None:
        """Write the text for so many columns."""
        self.query_one("#text", Static).update(self.text(columns))


class FaultsScreen(TextPage):
    """What is wrong with the packs that were left out."""

    def text(self, columns: int) -> Content:
        """The faults as they are: their carets need their lines unbroken."""
        return Content("\n\n".join(map(str, self.app.pack_faults)))
