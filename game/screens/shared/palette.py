"""The palette of commands: Textual's own, left once, with a list that may change or be small."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.command import CommandInput, CommandList, CommandPalette, SearchIcon
from textual.containers import Horizontal, Vertical
from textual.widgets import LoadingIndicator

from game.screens.shared.leaving import LeftOnce
from game.screens.shared.lists import RoomyList


class PaletteList(CommandList, RoomyList):
    """The commands that fit what is typed."""


class Palette(CommandPalette, LeftOnce[None]):
    """Commands to search and choose from."""

    def compose(self) -> ComposeResult:
        """As Textual does it, but with the list above."""
        with Vertical(id="--container"):
            with Horizontal(id="--input"):
                yield SearchIcon()
                yield CommandInput(placeholder="Search for a command", select_on_focus=False)
            with Vertical(id="--results"):
                yield PaletteList()
                yield LoadingIndicator()
