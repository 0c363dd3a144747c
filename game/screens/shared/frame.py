"""What every screen but the playing one has: a title row, a body, the key bar, help and back."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from game.screens.shared import too_small
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.listening import Listener
from game.screens.shared.too_small import TooSmall

if TYPE_CHECKING:
    from game.screens.app import PairwrightApp


class FramedScreen(Listener, Screen[None]):
    """A screen of the frame. `COMMAND_SCREEN` names it in the table of commands."""

    COMMAND_SCREEN: ClassVar[str]
    HORIZONTAL_BREAKPOINTS = too_small.HORIZONTAL_BREAKPOINTS
    VERTICAL_BREAKPOINTS = too_small.VERTICAL_BREAKPOINTS
    app: PairwrightApp

    def compose(self) -> ComposeResult:
        """Title, body and keys; and what is shown instead in a window that is too small."""
        with Vertical(classes="frame"):
            with Horizontal(classes="frame-title"):
                yield Static(classes="frame-name")
                yield Static(classes="frame-aside")
            yield from self.body()
        yield KeyBar(self.COMMAND_SCREEN)
        yield TooSmall()

    @abstractmethod
    def body(self) -> Iterable[Widget]:
        """What stands between the title and the keys."""

    def entitle(self, name: str | Content, aside: str | Content = "") -> None:
        """Write the title row: the screen's name, and something at the right."""
        for place, said in ((".frame-name", name), (".frame-aside", aside)):
            plain = Content(said) if isinstance(said, str) else said
            self.query_one(place, Static).update(plain)

    def action_help(self) -> None:
        """Every key of this screen, and how turns are counted."""
        self.app.show_help(self.COMMAND_SCREEN)

    def action_back(self) -> None:
        """To the screen below."""
        self.app.pop_screen()
