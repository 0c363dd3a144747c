"""The statistics: what all attempts come to, as pictures.

The attempts are added up in a thread with a connection of its own; the screen is there at once and
fills when they are.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import closing
from datetime import date
from pathlib import Path

from textual.containers import Horizontal, Vertical
from textual.widget import Widget
from textual.widgets import Static

from game.errors import RecordsError
from game.keeping.statistics import Statistics, recent_pauses, statistics, statistics_of
from game.records import Records
from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen
from game.screens.statistics import figures

TALL_ROWS = 36
"""Windows this high get larger cells and charts."""
FEW_COLOURS = ("16", "none")


class StatisticsScreen(FramedScreen):
    """Strength and days above, the heat map, sides and times below.

    today: the last day of the calendar, by default the day on which it is drawn.
    """

    COMMAND_SCREEN = "statistics"
    BINDINGS = keys.bindings("statistics")
    CSS_PATH = "statistics.tcss"
    VERTICAL_BREAKPOINTS = [  # noqa: RUF012
        *FramedScreen.VERTICAL_BREAKPOINTS,
        (TALL_ROWS, "-tall"),
    ]

    def __init__(self, today: date | None = None) -> None:
        super().__init__()
        self._today = today
        self._measure = 0
        self._found: Statistics | None = None
        self._pauses: tuple[int, ...] = ()

    def body(self) -> Iterable[Widget]:
        """Four figures, two by two."""
        yield Vertical(
            Horizontal(Static(id="strength"), Static(id="calendar"), id="over-time"),
            Horizontal(
                Static(id="heat"),
                Vertical(Static(id="sides"), Static(id="trends"), id="beside"),
                id="by-kind",
            ),
            id="statistics",
        )

    def on_mount(self) -> None:
        """Begin to count."""
        self.entitle("Statistics", "counting ...")
        path = self.app.folders.records
        if not self.app.keeper.has_records:
            self._take(statistics({}, {}), ())
        elif self.app.keeper.records.path is None:
            records = self.app.keeper.records
            found = statistics(records.sums_by_position(), records.sums_by_day())
            self._take(found, recent_pauses(records.all_attempts(newest_first=True)))
        else:
            self.run_worker(lambda: self._count_in(path), thread=True)

    def _count_in(self, path: Path) -> None:
        """Count what is in the file; in a thread."""
        try:
            found = statistics_of(path)
            self.app.call_later(self._take, found, ())
            with closing(Records(path)) as records:
                pauses = recent_pauses(records.all_attempts(newest_first=True))
            self.app.call_later(self._take, found, pauses)
        except RecordsError as fault:
            self.app.call_later(self._tell, fault)

    def _tell(self, fault: RecordsError) -> None:
        """Say why nothing can be counted."""
        if self.is_attached:
            self.entitle("Statistics", "the records cannot be read")
            self.app.notify(str(fault), title="Records", severity="warning", markup=False)

    def _take(self, found: Statistics, pauses: Sequence[int]) -> None:
        """Show what was counted."""
        if not self.is_attached:
            return
        self._found, self._pauses = found, tuple(pauses)
        self.call_after_refresh(self._draw)

    def on_resize(self) -> None:
        """Figures are as large as their room."""
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        found = self._found
        if found is None:
            return
        self.entitle("Statistics", figures.counts(found.whole, self.app.size.width))
        measure = figures.MEASURES[self._measure]
        tall = self.app.size.height >= TALL_ROWS
        rich = self.app.depth not in FEW_COLOURS
        today = (self._today or date.today()).toordinal() - date(1970, 1, 1).toordinal()
        room = {name: self.query_one(f"#{name}", Static) for name in FIGURES}
        size = {name: widget.content_size for name, widget in room.items()}
        wide = size["heat"].width
        room["strength"].update(figures.strength(found.days, *size["strength"]))
        room["calendar"].update(figures.calendar(found.days, today, *size["calendar"]))
        room["heat"].update(figures.heat_map(found, measure, wide, 1 + tall, rich=rich))
        room["sides"].update(figures.sides(found, measure, size["sides"].width))
        room["trends"].update(figures.trends(found, self._pauses, size["trends"].width, 1 + tall))

    def action_measure(self) -> None:
        """The next measure."""
        self._measure = (self._measure + 1) % len(figures.MEASURES)
        self._draw()

    def action_measure_before(self) -> None:
        """The measure before."""
        self._measure = (self._measure - 1) % len(figures.MEASURES)
        self._draw()


FIGURES = ("strength", "calendar", "heat", "sides", "trends")
