"""The clock: seeing and doing time, running while the player sees and does."""

from __future__ import annotations

from collections.abc import Callable

from rich.text import Text
from textual.timer import Timer
from textual.widgets import Static

TICK = 0.1
QUIET_TICK = 1.0
"""Seconds between two looks at the clock; the quiet one where animations are not wanted."""


def time_text(ms: int | None) -> str:
    """Milliseconds as 0.0, 12.3 or 1:02.3, cut and not rounded; a dash when there is none."""
    if ms is None:
        return "-"
    tenths = ms // 100
    minutes, rest = divmod(tenths, 600)
    seconds = f"{rest // 10}.{rest % 10}"
    return f"{minutes}:{seconds:>04}" if minutes else seconds


class ClockView(Static):
    """One row; `look` gives seeing and doing milliseconds as they are now."""

    def __init__(
        self, look: Callable[[], tuple[int | None, int | None]], *, id: str | None = None
    ) -> None:
        super().__init__(id=id)
        self._look = look
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
        seeing, doing = self._look()
        muted = self.get_component_rich_style("clock--label")
        self.update(
            Text.assemble(
                ("seeing ", muted), f"{time_text(seeing):<7}", (" doing ", muted), time_text(doing)
            )
        )

    COMPONENT_CLASSES = {"clock--label"}  # noqa: RUF012
