"""The lines of several players for one position beside each other, and what leads to watching them.

They are shown to whoever has played the position; that nobody else sees them is up to whoever
opens this screen. Par and a shortest line are filled in when the search has found them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from textual import events
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from game.engine.engine import Answered, first_question, whole_question
from game.play.position import Position
from game.screens.lines.columns import Grid, PlayerLine, grid, legend
from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar

SHORTEST = "shortest"
"""Heads the column of a shortest line."""
LOOKING = "looking for par ..."
WATCHED = 2
"""Lines that are watched together at most."""


@dataclass(frozen=True)
class Page:
    """The lines for one position. par: None while it is not known."""

    title: str
    position: Position
    entries: tuple[PlayerLine, ...]
    par: int | None = None


class LinesScreen(FramedScreen):
    """A column a player; one or two of them can be watched on the cube.

    pages: a position each, at least one; number: the one shown first. onward: what Enter leads to,
    in a word or two; nothing where the screen is only to be left again.
    """

    COMMAND_SCREEN = "lines"
    BINDINGS = keys.bindings("lines")
    CSS_PATH = "lines.tcss"

    def __init__(self, pages: Sequence[Page], number: int = 0, *, onward: str = "") -> None:
        super().__init__()
        self._pages = list(pages)
        self._number = number
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
        """Show the page, and have its par searched."""
        self.query_one("#lines-legend", Static).update(legend())
        self._open(self._number)

    def _open(self, number: int) -> None:
        """Another page."""
        self._number = number
        self._marked = self._first = 0
        self._picked = ()
        self._problem = ""
        self.app.engine.forget(self)
        for question in (first_question(self.page.position), whole_question(self.page.position)):
            self.app.engine.ask(question, self)
        self.query_one("#lines-scroll").scroll_home(animate=False, immediate=True)
        self._show()
        self.query_one(KeyBar).refresh()

    def on_unmount(self) -> None:
        """Nothing is to be known any more."""
        self.app.engine.forget(self)

    def on_resize(self) -> None:
        """As many columns as fit."""
        self.call_after_refresh(self._show)

    # -- showing ---------------------------------------------------------------------------------

    @property
    def page(self) -> Page:
        """The page that is shown."""
        return self._pages[self._number]

    @property
    def _grid(self) -> Grid:
        columns = self.query_one("#lines-head").content_size.width
        return grid(
            self.page.entries,
            self.page.par,
            columns,
            marked=self._marked,
            first=self._first,
            picked=self._picked,
        )

    def _show(self) -> None:
        if not self.query_one("#lines-head").content_size.width:
            return  # its room is not known yet
        shown = self._grid
        self._first = shown.first
        self.entitle(self.page.title, self._aside(shown))
        self.query_one("#lines-head", Static).update(shown.head())
        self.query_one("#lines-body", Static).update(shown.body())

    def _aside(self, shown: Grid) -> Content:
        """Which columns are in view, where not all are; par."""
        seen, count = shown.seen, len(self.page.entries)
        some = f"{seen.start + 1} to {seen.stop} of {count}   " if len(seen) < count else ""
        if self.page.par is not None:
            par = (f"par {self.page.par}", "$accent")
        else:
            par = (self._problem or LOOKING, "$muted")
        return Content.assemble((some, "$muted"), par)

    # -- what the engine finds -------------------------------------------------------------------

    def answered(self, answer: Answered) -> None:
        """Par; and a shortest line as one more column, once all are known."""
        page = self.page
        whole = whole_question(page.position)
        if answer.question not in (whole, first_question(page.position)):
            return
        self._problem = "par not found"
        par = getattr(answer.outcome, "par", page.par)
        lines = getattr(answer.outcome, "solutions", ()) if answer.question == whole else ()
        known = any(entry.result is None for entry in page.entries)
        shortest = [PlayerLine(page.position, SHORTEST, line) for line in lines[:1] if not known]
        self._pages[self._number] = replace(page, par=par, entries=(*page.entries, *shortest))
        self._show()

    def failed(self, problem: str) -> None:
        """It goes without."""
        self._problem = problem
        self._show()

    # -- what the player does --------------------------------------------------------------------

    def key_label(self, action: str) -> str | None:
        """What Enter leads to here."""
        return self._onward if action == "go" else None

    def allows(self, action: str) -> bool:
        """Where nothing comes after, the screen is only left; other pages where there are some."""
        if action in ("next", "previous"):
            return len(self._pages) > 1
        return bool(self._onward) if action == "go" else True

    def _mark(self, number: int) -> None:
        self._marked = max(0, min(len(self.page.entries) - 1, number))
        self._show()

    def action_right(self) -> None:
        """The next line."""
        self._mark(self._marked + 1)

    def action_left(self) -> None:
        """The line before."""
        self._mark(self._marked - 1)

    def action_next(self) -> None:
        """The next position."""
        self._open((self._number + 1) % len(self._pages))

    def action_previous(self) -> None:
        """The position before."""
        self._open((self._number - 1) % len(self._pages))

    def action_down(self) -> None:
        """Further down the lines."""
        self.query_one("#lines-scroll").scroll_relative(y=1, animate=False, immediate=True)

    def action_up(self) -> None:
        """Further up."""
        self.query_one("#lines-scroll").scroll_relative(y=-1, animate=False, immediate=True)

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
        from game.screens.lines.race import RaceScreen  # noqa: PLC0415 - imported where it is pushed

        chosen = sorted(self._picked) or [self._marked]
        self.app.push_screen(RaceScreen(tuple(self.page.entries[number] for number in chosen)))

    def action_go(self) -> None:
        """On to what comes next."""
        self.leave()

    def action_back(self) -> None:
        """To where the player came from."""
        self.leave()
