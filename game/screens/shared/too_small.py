"""What is said when the window is too small to play in; playing goes on once it has grown."""

from __future__ import annotations

from textual.widgets import Static

LEAST_COLUMNS = 60
LEAST_ROWS = 20

HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (LEAST_COLUMNS, "-wide")]
VERTICAL_BREAKPOINTS = [(0, "-low"), (LEAST_ROWS, "-high")]
"""For a screen that holds a `TooSmall`: the stylesheet shows it when the screen is one of both."""


class TooSmall(Static):
    """The friendly line, with the size that there is now."""

    def on_resize(self) -> None:
        """Say it for the size that there is."""
        columns, rows = self.app.size
        need = f"{LEAST_COLUMNS}x{LEAST_ROWS}"
        if columns < 34 or rows < 4:
            self.update(f"Please make the window at least {need}.")
        else:
            self.update(
                "A little more room, please.\n\n"
                f"The cube needs a window of {need}; this one is {columns}x{rows}.\n"
                "Your attempt waits."
            )
