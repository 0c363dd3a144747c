"""Text for a chat: to be copied, marked with the mouse, or written to a file.

A terminal never says whether it took what it was handed for its clipboard, so the text stands here
to be marked too, and a file is offered.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from textual.containers import Vertical
from textual.widget import Widget
from textual.widgets import Static, TextArea

from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen

COPIED = "Handed to the terminal, which never says whether it took it. Paste it to see."
OTHERWISE = "Or mark it with the mouse (with Shift, in most terminals), or press w for a file."


class CodeScreen(FramedScreen):
    """Shows a text; heading: what it is; about: what to do with it; name: of the file."""

    COMMAND_SCREEN = "code"
    SAID = "#code-said"
    BINDINGS = keys.bindings("code")
    CSS_PATH = "contests.tcss"

    def __init__(self, heading: str, about: str, text: str, name: str) -> None:
        super().__init__()
        self._heading, self._about = heading, about
        self.text = text
        self._file = file_name(name)

    def body(self) -> Iterable[Widget]:
        """What it is for, the text as plain lines, what was done with it."""
        yield Vertical(
            Static(self._about, id="code-about", markup=False),
            TextArea(self.text, read_only=True, show_cursor=False, compact=True, id="code-text"),
            Static(id="code-said"),
            id="code",
        )

    def on_mount(self) -> None:
        """Ready to be copied."""
        self.entitle(self._heading)
        self.say(f"y copies it. {OTHERWISE}")
        self.query_one(TextArea).focus()

    def action_copy(self) -> None:
        """Hand it to the clipboard."""
        self.app.copy_to_clipboard(self.text)
        self.say(f"{COPIED}\n{OTHERWISE}", "$foreground")

    def action_write(self) -> None:
        """Write it to a file among the player's own."""
        path = self.app.folders.chat / f"{self._file}.txt"
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(f"{self.text}\n", encoding="utf-8")
        except OSError as fault:
            self.say(f"{path} cannot be written: {fault.strerror or fault}", "$error")
            return
        self.say(f"Written to {path}", "$foreground")


def file_name(text: str) -> str:
    """A text as the name of a file: small letters, digits and hyphens, never empty."""
    words = re.findall(r"[a-z0-9]+", text.casefold(), re.ASCII)
    return "-".join(words)[:60].strip("-") or "contest"
