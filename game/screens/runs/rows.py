"""The terms of a run as rows of a form. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from game.deal.selection import Selection
from game.modes import DASH, HOURGLASS
from game.prose import counted
from game.runs import RunTerms
from game.screens.shared.selection_rows import Chosen, FormRow, chosen_for

POSITIONS = (1, 2, 3, 5, 7, 10, 12, 15, 20, 25, 30, 40)
SECONDS = (10, 30, 60, 120, 180, 300, 600, 900, 1800)
ADDED = (0, 25, 50, 100, 200, 500)
"""Hundredths of a second for each turn over par."""
HELP = {
    DASH: "A fixed number of positions in the least time.",
    HOURGLASS: "As many positions as there is time for.",
}


@dataclass(frozen=True)
class Setup:
    """What is chosen so far; each mode remembers its own amount."""

    chosen: Chosen
    mode: str = DASH
    positions: int = 5
    seconds: int = 180
    added: int = 50
    inspection: bool = False

    @property
    def selection(self) -> Selection:
        """What is played. Raises ProgrammeError where that cannot be had."""
        return self.chosen.selection

    @property
    def terms(self) -> RunTerms:
        """The terms of the run. Raises ProgrammeError as `selection` does."""
        selection = self.selection
        mode = self._mode(selection)
        amount = self.seconds if mode == HOURGLASS else selection.most or self.positions
        return RunTerms(mode, amount, selection.text, self.added, self.inspection)

    def _mode(self, selection: Selection) -> str:
        """What has an end is no hourglass's."""
        return self.mode if selection.most is None else DASH

    def rows(self) -> tuple[FormRow, ...]:
        """The run, then what is played in it."""
        selection = self.selection
        mode, most = self._mode(selection), selection.most
        if mode == HOURGLASS:
            amount = FormRow(
                "amount", "Time", seconds_words(self.seconds), "The time that there is."
            )
        else:
            positions = counted(most or self.positions, "position")
            amount = FormRow("amount", "Length", positions, "How many positions are to be solved.")
        cost = f"{self.added / 100:g} s a turn" if self.added else "nothing"
        costs = "Added for each turn over par, apart from the clock."
        inspects = "15 s to look before each position; the first turn starts the clock."
        return (
            FormRow("mode", "Run", mode, HELP[mode]),
            amount,
            FormRow("added", "Over par", cost, costs),
            FormRow("inspection", "Inspection", "yes" if self.inspection else "no", inspects),
            *self.chosen.rows(),
        )

    def stepped(self, key: str, step: int) -> Setup:
        """With the next value of a row, or the one before."""
        if key == "mode":
            return replace(self, mode=HOURGLASS if self.mode == DASH else DASH)
        if key == "inspection":
            return replace(self, inspection=not self.inspection)
        if key == "added":
            return replace(self, added=_next(ADDED, self.added, step))
        if key == "amount" and self._mode(self.selection) == HOURGLASS:
            return replace(self, seconds=_next(SECONDS, self.seconds, step))
        if key == "amount":
            return replace(self, positions=_next(POSITIONS, self.positions, step))
        return replace(self, chosen=self.chosen.stepped(key, step))


def setup_for(terms: RunTerms, selection: Selection, chosen: Chosen) -> Setup:
    """The choice that gives these terms, as far as the rows can."""
    found = Setup(
        chosen_for(selection, chosen), terms.mode, added=terms.added, inspection=terms.inspection
    )
    if terms.mode == HOURGLASS:
        return replace(found, seconds=terms.amount)
    return replace(found, positions=terms.amount) if selection.most is None else found


def seconds_words(seconds: int) -> str:
    """ "30 seconds", "one minute", "three minutes"."""
    if seconds % 60:
        return f"{seconds} seconds"
    return counted(seconds // 60, "minute")


def _next(values: Sequence[int], value: int, step: int) -> int:
    """The value after another, or before it; the nearest one to a value that is not among them."""
    at = values.index(min(values, key=lambda v: abs(v - value)))
    return values[(at + step) % len(values)] if value in values else values[at]
