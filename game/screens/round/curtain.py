"""The curtain: what hides the cube, before the first position and while the clock stands."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Static

from game.prose import numeral
from game.screens.shared import keys
from game.screens.shared.frame import BaseScreen
from game.screens.shared.key_bar import KeyBar

LOOK_SECONDS = 0.05
"""Between two looks at the clock while counting down."""


class CurtainScreen(BaseScreen[bool]):
    """Says a word instead of the cube. Its result: whether it is to go on.

    title, words: what is said. count: seconds counted down in words, then it rises by itself; 0:
    it waits for a key.
    """

    COMMAND_SCREEN = "curtain"
    BINDINGS = keys.bindings("curtain")
    CSS_PATH = "curtain.tcss"

    def __init__(self, title: str, words: str, count: int = 0) -> None:
        super().__init__()
        self._title = title
        self._words = words
        self._count = count
        self._since = 0.0
        self._said = 0
        self._timer: Timer | None = None

    def compose(self) -> ComposeResult:
        """The words in the middle, and the keys."""
        yield Static(id="curtain")
        yield KeyBar(self.COMMAND_SCREEN)

    def on_mount(self) -> None:
        """Begin to count."""
        self._since = self.app.clock()
        self._said = self._count
        if self._count:
            self._timer = self.set_interval(LOOK_SECONDS, self._look)
        self._show()

    def _look(self) -> None:
        left = self._count - int(self.app.clock() - self._since)
        if left <= 0:
            self._rise(True)
        elif left != self._said:
            self._said = left
            self._show()

    def _show(self) -> None:
        count = f"\n\n{numeral(self._said)}" if self._count else ""
        said = Content.assemble(
            (self._title, "bold"), "\n\n", (self._words, "$muted"), (count, "bold $accent")
        )
        self.query_one("#curtain", Static).update(said)

    def _rise(self, goes_on: bool) -> None:
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        self.leave(goes_on)

    def action_go(self) -> None:
        """Go on."""
        self._rise(True)

    def action_back(self) -> None:
        """Leave."""
        self._rise(False)
