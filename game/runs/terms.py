"""The terms of a timed run: two runs of the same terms can be compared.

A *dash* is a fixed number of positions, to be solved in the least time. An *hourglass* is a fixed
time, in which most positions are to be solved.
"""

from __future__ import annotations

from dataclasses import dataclass

from game.deal.selection import MAX_PROGRAMME_TEXT
from game.errors import SelectionError
from game.modes import DASH, HOURGLASS, TIMED

USUAL_ADDED = 50
"""Hundredths of a second added for each turn over par, unless chosen otherwise."""
MOST = {DASH: 40, HOURGLASS: 3600}
"""Positions of a dash, seconds of an hourglass at most."""
MOST_ADDED = 1000
"""Ten seconds for each turn over par at most."""


@dataclass(frozen=True)
class RunTerms:
    """mode: dash or hourglass; amount: so many positions, or seconds; selection: its text.

    added: hundredths of a second for each turn over par; inspection: before each position.
    Raises SelectionError for terms that cannot be.
    """

    mode: str
    amount: int
    selection: str
    added: int = USUAL_ADDED
    inspection: bool = False

    def __post_init__(self) -> None:
        if self.mode not in TIMED:
            raise SelectionError(f"a run is a {' or an '.join(TIMED)}")
        if not 1 <= self.amount <= MOST[self.mode]:
            unit = "positions" if self.mode == DASH else "seconds"
            raise SelectionError(f"a {self.mode} has 1 to {MOST[self.mode]} {unit}")
        if not 0 <= self.added <= MOST_ADDED:
            raise SelectionError(f"0 to {MOST_ADDED // 100} seconds are added for a turn over par")
        if not 0 < len(self.selection) <= MAX_PROGRAMME_TEXT or not self.selection.isprintable():
            raise SelectionError("a run needs something to play")

    @property
    def kind(self) -> str:
        """One short text for all of it: runs with the same are of the same kind."""
        inspected = "inspected" if self.inspection else "at once"
        return f"{self.mode}/{self.amount}/{self.added}/{inspected}/{self.selection}"
