"""A form: rows whose values are stepped through, what the marked one means, a picture beside."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable, Sequence
from pathlib import Path

from textual import events
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from game.play.position import Position
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.preview import Preview
from game.screens.shared.selection_rows import FormRow

LABEL_WIDTH = 12
PICTURE_COLUMNS = 76
"""Windows this wide have room for a picture."""


class FormRows(ChoiceList):
    """Rows whose values are stepped through; a last one that does something may stand below."""

    LAST = "last"
    """The id of the last row's option."""

    def __init__(self, *, id: str, quiet: bool = False) -> None:
        super().__init__(eager=True, quiet=quiet, id=id)
        self._rows: Sequence[FormRow] = ()

    def show(self, rows: Sequence[FormRow], last: str = "") -> None:
        """Show the rows as they are now, the same one marked. last: what the last row is called."""
        marked = self.highlighted or 0
        self._rows = rows
        end = [Option(Content.styled(last, "bold $accent"), id=self.LAST)] if last else []
        self.set_options([*map(_row, rows), *end])
        self.highlighted = min(marked, self.option_count - 1)

    @property
    def marked(self) -> FormRow | None:
        """The marked row; None at the last one, and before there are any."""
        at = self.highlighted or 0
        return self._rows[at] if at < len(self._rows) else None


class FormList(FormRows):
    """Rows. A click marks a row; a click on the marked row changes its value."""

    class Clicked(Message):
        """The marked row was clicked."""

    def on_click(self, event: events.Click) -> None:
        """Mark, or change."""
        event.prevent_default()
        clicked = event.style.meta.get("option")
        if clicked is None:
            return
        if clicked == self.highlighted:
            self.post_message(self.Clicked())
        else:
            self.highlighted = clicked


class FormScreen(FramedScreen):
    """A form. Its commands: `change`, `change_back`, `begin`."""

    SAID = "#form-help"
    CSS_PATH = Path(__file__).with_name("form.tcss")
    HORIZONTAL_BREAKPOINTS = [  # noqa: RUF012
        *FramedScreen.HORIZONTAL_BREAKPOINTS,
        (PICTURE_COLUMNS, "-with-picture"),
    ]

    def body(self) -> Iterable[Widget]:
        """What is said first, the rows, what the marked one means; a picture."""
        yield Horizontal(
            Vertical(
                Static(id="form-first"),
                FormList(id="form-rows"),
                Static(id="form-help"),
                Static(id="form-last"),
                id="form-side",
            ),
            Preview(words=False, id="form-picture"),
            id="form",
        )

    @abstractmethod
    def rows(self) -> Sequence[FormRow]:
        """The rows as they are now."""

    @abstractmethod
    def step(self, key: str, step: int) -> None:
        """Take the next value of a row, or the one before."""

    @abstractmethod
    def action_begin(self) -> None:
        """The form is filled in."""

    def sample(self) -> Position | None:
        """The position of the picture."""
        return None

    def first_words(self) -> Content:
        """What is said above the rows."""
        return Content("")

    def last_words(self) -> Content:
        """What is said under them."""
        return Content("")

    # -- showing ---------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """The rows take the keys."""
        self.show_form()
        self._list.focus()

    def on_resize(self) -> None:
        """The picture is as large as its room."""
        self.call_after_refresh(self._draw)

    def show_form(self) -> None:
        """Show everything as it is now."""
        self._list.show(self.rows())
        for selector, words in (
            ("#form-first", self.first_words()),
            ("#form-last", self.last_words()),
        ):
            place = self.query_one(selector, Static)
            place.display = bool(words.plain)
            place.update(words)
        self._explain()
        self.query_one(KeyBar).refresh()
        self.call_after_refresh(self._draw)

    def _explain(self) -> None:
        self.say(self._marked.help)

    def _draw(self) -> None:
        position = self.sample()
        if self.is_attached and position is not None:
            settings = self.app.settings
            look = look_of(settings, self.app.depth, position)
            focus = focuses(settings, position)
            self.query_one(Preview).show(position, None, look, focus=focus)

    @property
    def _list(self) -> FormList:
        return self.query_one(FormList)

    @property
    def _marked(self) -> FormRow:
        return self.rows()[self._list.highlighted or 0]

    # -- what the player does --------------------------------------------------------------------

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Say what this one means."""
        event.stop()
        self._explain()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter."""
        event.stop()
        self.call_later(self.action_begin)

    def on_form_list_clicked(self, message: FormList.Clicked) -> None:
        """A click changes."""
        message.stop()
        self.action_change()

    def action_change(self) -> None:
        """The next value."""
        self._change(1)

    def action_change_back(self) -> None:
        """The value before."""
        self._change(-1)

    def _change(self, step: int) -> None:
        self.step(self._marked.key, step)
        self.show_form()


def _row(row: FormRow) -> Content:
    return Content.assemble(
        f"{row.label:<{LABEL_WIDTH}}", ("‹ ", "$muted"), (row.value, "bold"), (" ›", "$muted")
    )
