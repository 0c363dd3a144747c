"""A line to type or paste turns in; checked while it is typed, applied with Enter.

What is read is written back as it will be made: a small letter is a wide turn here.
"""

from __future__ import annotations

from collections.abc import Callable

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
from game.screens.shared.line_view import line_rows


class LineInput(Vertical):
    """The input and, under it, what is wrong with the line, or how many turns it holds."""

    class Entered(Message):
        """The player applies this line."""

        def __init__(self, line: Line) -> None:
            super().__init__()
            self.line = line

    class Left(Message):
        """The player closes the line without applying it."""

    _refusal: Callable[[Line], str]

    def compose(self) -> ComposeResult:
        """The input over its remark."""
        yield Input(
            placeholder="R U R' U2 ...",
            max_length=MAX_TEXT,
            compact=True,
            select_on_focus=False,
        )
        yield Static(id="remark")

    def open(self, refusal: Callable[[Line], str]) -> None:
        """Empty the line and put the cursor into it.

        refusal: why a line that can be read may not be made, or nothing.
        """
        self._refusal = refusal
        field = self.query_one(Input)
        field.value = ""
        self.screen.set_focus(field)  # at once: the next key is for it
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
        if self._refusal(line):  # said already, and the text stays
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
            read = self._read(line) if line else "Turns in notation; here r is a wide turn."
            refusal = self._refusal(line)
            keys = "Enter makes the turns from here, Escape closes."
            said = Content.assemble(
                (f"{read}\n", "" if line else "$muted"),
                (refusal, "$error") if refusal else (keys, "$muted"),
            )
        self.query_one("#remark", Static).update(said, layout=False)

    def _cut(self, problem: str) -> str:
        """The problem; without what was expected where there is no room for it."""
        fits = cell_len(problem) <= self.content_size.width
        return problem if fits else problem.partition(";")[0]

    def _read(self, line: Line) -> str:
        """The turns as they will be made; the last ones where there is no room for all."""
        count = "1 turn" if len(line) == 1 else f"{len(line)} turns"
        room = self.content_size.width - len(count) - 2
        return f"{count}: {line_rows([m.name for m in line], [''] * len(line), room)[0]}"

    def _carets(self, fault: NotationError) -> str:
        """Carets under the fault as the input shows it, scrolled as it is."""
        field = self.query_one(Input)
        before = cell_len(fault.text[: fault.place]) - int(field.scroll_offset.x)
        width = cell_len(fault.text[fault.place : fault.place + fault.length])
        room = field.content_size.width - before
        return " " * before + "^" * max(1, min(width, room)) if before >= 0 else ""
