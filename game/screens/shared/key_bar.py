"""The bottom row: the keys that matter now, from the table of commands; each can be clicked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from game.screens.shared.command import Command
from game.screens.shared.keys import of_screen

KEY_SIGNS = {
    "left": "←",
    "right": "→",
    "up": "↑",
    "down": "↓",
    "question_mark": "?",
    "enter": "Enter",
    "escape": "Esc",
    "space": "Space",
    "tab": "Tab",
}
"""How a key's name is written in the bar; other keys are written as they are named."""


_GAP = "   "


class KeyBar(Widget):
    """One row of keys and labels. What does not fit is left out, the least important first.

    A screen may rank its commands otherwise in its present state: `key_ranks`, action -> place.
    """

    ALLOW_SELECT = False
    COMPONENT_CLASSES = {"key-bar--key", "key-bar--label"}  # noqa: RUF012

    def __init__(self, screen: str, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._commands = [c for c in of_screen(screen) if c.bar]

    def label(self, command: Command) -> str:
        """The command's label now; nothing where it is left out.

        A screen may name its commands otherwise in its present state: `key_label(action)` gives
        None for the usual label.
        """
        say = getattr(self.screen, "key_label", None)
        named: str | None = say(command.action) if say else None
        return command.label if named is None else named

    def sign(self, command: Command) -> str:
        """The key that is shown: the command's first, unless the screen names another."""
        say = getattr(self.screen, "key_sign", None)
        named: str | None = say(command.action) if say else None
        return named or KEY_SIGNS.get(command.keys[0], command.keys[0])

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """One row."""
        return 1

    def render_line(self, y: int) -> Strip:
        """The row."""
        key_style = self.get_component_rich_style("key-bar--key")
        label_style = self.get_component_rich_style("key-bar--label")
        segments = [Segment(" ", self.rich_style)]
        shown = self._shown(self.size.width - 1) if getattr(self.screen, "stands", True) else ()
        for command, key, label in shown:
            click = Style(meta={"@click": f"screen.{command.action}"})
            segments.append(Segment(f"{key} ", key_style + click))
            segments.append(Segment(label, label_style + click))
            segments.append(Segment(_GAP, self.rich_style))
        strip = Strip(segments)
        return strip.adjust_cell_length(self.size.width, self.rich_style)

    def _shown(self, room: int) -> Iterable[tuple[Command, str, str]]:
        """The commands that fit, in the table's order."""
        able = [c for c in self._commands if self.screen.check_action(c.action, ())]
        labels = {c: label for c in able if (label := self.label(c))}
        chosen: list[Command] = []
        ranks: Mapping[str, int] = getattr(self.screen, "key_ranks", {})
        for command in sorted(labels, key=lambda c: ranks.get(c.action, c.bar)):
            needed = len(self.sign(command)) + len(labels[command]) + len(_GAP) + 1
            if needed <= room:
                room -= needed
                chosen.append(command)
        return [(c, self.sign(c), labels[c]) for c in labels if c in chosen]
