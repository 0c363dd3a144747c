"""The clock: seeing and doing time, running while the player sees and does."""

from __future__ import annotations

from collections.abc import Callable

from textual.content import Content
from textual.timer import Timer
from textual.widgets import Static

TICK = 0.1
QUIET_TICK = 1.0
"""Seconds between two looks at the clock; the quiet one where animations are not wanted."""


def time_text(ms: int | None) -> str:
    """Milliseconds as 0.0, 12.3 or 1:02.3, cut and not rounded; a dash for None."""
    if ms is None:
        return "-"
    minutes, tenths = divmod(ms // 100, 600)
    seconds = f"{tenths // 10}.{tenths % 10}"
    return f"{minutes}:{seconds:>04}" if minutes else seconds


class ClockView(Static):
    """One row; `times` gives seeing and doing milliseconds as they are now."""

    def __init__(
        self, times: Callable[[], tuple[int | None, int | None]], *, id: str | None = None
    ) -> None:
        super().__init__(id=id)
        self._times = times
        self._timer: Timer | None = None

    def on_mount(self) -> None:
        """Make the timer; it stands until `run`."""
        tick = QUIET_TICK if self.app.animation_level == "none" else TICK
        self._timer = self.set_interval(tick, self.tick, pause=True)

    def run(self, running: bool) -> None:
        """Let the clock run or stand."""
        if self._timer is not None:
            if running:
                self._timer.resume()
            else:
                self._timer.pause()
        self.tick()

    def tick(self) -> None:
        """Show the time that it is."""
        seeing, doing = map(time_text, self._times())
        label = "$muted"
        row = Content.assemble(("seeing ", label), f"{seeing:<8}", ("doing ", label), doing)
        self.update(row, layout=False)
