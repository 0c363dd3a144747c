"""The palette of commands: Textual's own, left once, and with a list that may have no room."""

from __future__ import annotations

from textual.command import CommandList, CommandPalette

from game.screens.shared.leaving import LeftOnce


class Palette(CommandPalette, LeftOnce[None]):
    """Commands to search and choose from."""

    def _action_command_list(self, action: str) -> None:
        if self.query_one(CommandList).scrollable_content_region.area:
            super()._action_command_list(action)
