"""A line to type or paste turns in; checked while it is typed, applied with Enter."""

from __future__ import annotations

from rich.cells import cell_len
from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from game.cube.line import Line
from game.cube.moves import MAX_TEXT, parse_line
from game.errors import NotationError


class LineInput(Vertical):
    """The input and, under it, what is wrong with the line, or how many turns it holds."""

    class Entered(Message):
        """The player applies this line."""

        def __init__(self, line: Line) -> None:
            super().__init__()
            self.line = line

    class Left(Message):
        """The player closes the line without applying it."""

    def compose(self) -> ComposeResult:
        """The input over its remark."""
        yield Input(
            placeholder="R U R' U2 ...",
            max_length=MAX_TEXT,
            compact=True,
            select_on_focus=False,
        )
        yield Static(id="remark")

    def open(self) -> None:
        """Empty the line and put the cursor into it."""
        field = self.query_one(Input)
        field.value = ""
        field.focus()
        self._remark("")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Check the line as it stands."""
        event.stop()
        self._remark(event.value)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Apply the line, if it can be read; an empty one closes the input."""
        event.stop()
        try:
            line = parse_line(event.value)
        except NotationError:
            self.app.bell()
            return
        self.post_message(self.Entered(line) if line else self.Left())

    def key_escape(self, event: events.Key) -> None:
        """Close; the screen below must not take the key for its own."""
        event.stop()
        self.post_message(self.Left())

    def _remark(self, text: str) -> None:
        try:
            line = parse_line(text)
        except NotationError as fault:
            said = Content.assemble(
                (f"{self._carets(fault)}\n{self._cut(fault.problem)}", "$error")
            )
        else:
            count = "1 move" if len(line) == 1 else f"{len(line)} moves"
            word = f"{count}: Enter makes them" if line else "Turns in notation"
            said = Content.assemble((f"\n{word}, Escape closes.", "$muted"))
        self.query_one("#remark", Static).update(said)

    def _cut(self, problem: str) -> str:
        """The problem; without what was expected where there is no room for it."""
        fits = cell_len(problem) <= self.content_size.width
        return problem if fits else problem.partition(";")[0]

    def _carets(self, fault: NotationError) -> str:
        """Carets under the fault as the input shows it, scrolled as it is."""
        field = self.query_one(Input)
        before = cell_len(fault.text[: fault.place]) - int(field.scroll_offset.x)
        width = cell_len(fault.text[fault.place : fault.place + fault.length])
        room = field.content_size.width - before
        return " " * before + "^" * max(1, min(width, room)) if before >= 0 else ""
