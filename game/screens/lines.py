"""The lines of several players for one position beside each other, and what leads to watching them.

They are shown to whoever has played the position; that nobody else sees them is up to whoever
opens this screen. Par and a shortest line are filled in when the search has found them.
"""

from __future__ import annotations

from collections.abc import Iterable

from textual import events
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from game.position import Position
from game.screens import commands
from game.screens.columns import Entry, Grid, grid, legend
from game.screens.engine import Answered, Failed, whole_question
from game.screens.frame import FramedScreen

SHORTEST = "shortest"
"""Heads the column of a shortest line."""
WATCHED = 2
"""Lines that are watched together at most."""


class LinesScreen(FramedScreen):
    """A column a player; one or two of them can be watched on the cube.

    par: None while it is not known. title: which position this is. onward: what Enter leads to,
    in a word or two; nothing where the screen is only to be left again.
    """

    COMMAND_SCREEN = "lines"
    BINDINGS = commands.bindings("lines")

    def __init__(
        self,
        position: Position,
        entries: Iterable[Entry],
        par: int | None = None,
        *,
        title: str = "The lines",
        onward: str = "",
    ) -> None:
        super().__init__()
        self._position = position
        self.entries = tuple(entries)
        self.par = par
        self._title = title
        self._onward = onward
        self._marked = 0
        self._picked: tuple[int, ...] = ()
        self._first = 0
        self._problem = ""

    def body(self) -> Iterable[Widget]:
        """Names and results; the moves, which can be scrolled; what the signs mean."""
        yield Static(id="lines-head")
        with VerticalScroll(id="lines-scroll", can_focus=False):
            yield Static(id="lines-body")
        yield Static(id="lines-legend")

    def on_mount(self) -> None:
        """Show what there is, and have par searched."""
        self.query_one("#lines-legend", Static).update(legend())
        self.app.engine.ask(whole_question(self._position), self)
        self._show()

    def on_unmount(self) -> None:
        """Nothing is to be known any more."""
        self.app.engine.forget(self)

    def on_resize(self) -> None:
        """As many columns as fit."""
        self.call_after_refresh(self._show)

    # -- showing ---------------------------------------------------------------------------------

    @property
    def _grid(self) -> Grid:
        columns = self.query_one("#lines-head").content_size.width
        return grid(
            self.entries,
            self.par,
            columns,
            marked=self._marked,
            first=self._first,
            picked=self._picked,
        )

    def _show(self) -> None:
        shown = self._grid
        self._first = shown.first
        self.entitle(self._title, self._aside(shown))
        self.query_one("#lines-head", Static).update(shown.head())
        self.query_one("#lines-body", Static).update(shown.body())

    def _aside(self, shown: Grid) -> Content:
        """Which columns are in view, where not all are; par."""
        seen, count = shown.seen, len(self.entries)
        some = f"{seen.start + 1} to {seen.stop} of {count}   " if len(seen) < count else ""
        par = f"par {self.par}" if self.par is not None else self._problem or "looking for par ..."
        return Content.assemble((some, "$muted"), (par, "$accent" if self.par else "$muted"))

    # -- what the engine finds -------------------------------------------------------------------

    def on_answered(self, message: Answered) -> None:
        """Par, and a shortest line as one more column."""
        message.stop()
        self.par = getattr(message.outcome, "par", self.par)
        for line in getattr(message.outcome, "solutions", ())[:1]:
            self.entries = (*self.entries, Entry(self._position, SHORTEST, line))
        self._problem = "par not found"
        self._show()

    def on_failed(self, message: Failed) -> None:
        """It goes without."""
        message.stop()
        self._problem = message.problem
        self._show()

    # -- what the player does --------------------------------------------------------------------

    def key_label(self, action: str) -> str | None:
        """What Enter leads to here."""
        return self._onward if action == "go" else None

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Where nothing comes after, the screen is only left."""
        return bool(self._onward) if action == "go" else True

    def _mark(self, number: int) -> None:
        self._marked = max(0, min(len(self.entries) - 1, number))
        self._show()

    def action_right(self) -> None:
        """The next line."""
        self._mark(self._marked + 1)

    def action_left(self) -> None:
        """The line before."""
        self._mark(self._marked - 1)

    def action_down(self) -> None:
        """Further down the lines."""
        self.query_one("#lines-scroll").scroll_relative(y=1, animate=False)

    def action_up(self) -> None:
        """Further up."""
        self.query_one("#lines-scroll").scroll_relative(y=-1, animate=False)

    def on_click(self, event: events.Click) -> None:
        """Mark a column; the marked one is picked, or no longer."""
        for selector in ("#lines-head", "#lines-body"):
            offset = event.get_content_offset(self.query_one(selector))
            number = self._grid.at(offset.x) if offset is not None else None
            if number is None:
                continue
            event.stop()
            if number == self._marked:
                self.action_pick()
            else:
                self._mark(number)

    def action_pick(self) -> None:
        """Pick the marked line to be watched, or drop it; of too many the first goes."""
        marked = self._marked
        kept = tuple(number for number in self._picked if number != marked)
        self._picked = kept if marked in self._picked else (*kept, marked)[-WATCHED:]
        self._show()

    def action_watch(self) -> None:
        """Watch the lines picked, or else the marked one."""
        from game.screens.race import RaceScreen  # noqa: PLC0415 - imported where it is pushed

        chosen = sorted(self._picked) or [self._marked]
        self.app.push_screen(RaceScreen(tuple(self.entries[number] for number in chosen)))

    def action_go(self) -> None:
        """On to what comes next."""
        self.dismiss()

    def action_back(self) -> None:
        """To where the player came from."""
        self.dismiss()
