"""Every turn and command as something to click."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from game.screens.shared.keys import of_screen

ROWS = (
    ("f", "F", "b", "B", "r", "R", "l", "L"),
    ("u", "U", "d", "D", "m", "M", "e", "E"),
    ("s", "S", "x", "X", "y", "Y", "z", "Z"),
)
"""The keys of the turns, small letters clockwise; each row as wide as the narrowest side."""


def _name(key: str) -> str:
    letter = key.lower() if key.lower() in "xyz" else key.upper()
    return letter + ("'" if key.isupper() else "")


COLUMNS = 36
LEFT_OUT = ("pad", "go", "call")
"""What is of no use here: the pad stands only while turns can be made."""


def pad_content() -> Content:
    """The pad: three rows of turns, then the other commands, each with its own click."""
    parts: list[tuple[str, str]] = []
    for row in ROWS:
        for key in row:
            click = f"@click=screen.click('{key.lower()}', {key.isupper()})"
            parts += [(f" {_name(key):<2}", f"bold on $panel {click}"), (" ", "")]
        parts.append(("\n", ""))
    room = COLUMNS
    for command in of_screen("play"):
        if command.each or command.action in LEFT_OUT:
            continue
        if room < len(command.label):
            parts.append(("\n", ""))
            room = COLUMNS
        room -= len(command.label) + 2
        parts += [(command.label, f"@click=screen.{command.action}"), ("  ", "")]
    return Content.assemble(*parts)


class TurnPad(Static):
    """The pad."""

    def on_mount(self) -> None:
        """Write it."""
        self.update(pad_content())
