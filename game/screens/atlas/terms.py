"""What the atlas shows: the slot, which other slots are open, and which cells of all. Pure.

Each term is a row of a list whose value the player steps on or back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from game.atlas import CELLS, Cell, Group, Spot
from game.cube.pair import SLOTS

T = TypeVar("T")

ROWS = 1 + (len(SLOTS) - 1) + 3
"""The slot, the other slots, kind, par, whether it was solved at par."""
_KIND, _PAR, _MET = range(len(SLOTS), ROWS)


@dataclass(frozen=True)
class SurveyTerms:
    """slot: of the pair; chosen: slots left open. The rest picks cells, None being any.

    unmet: only those not yet solved at par.
    """

    slot: str = "FR"
    chosen: tuple[str, ...] = ()
    group: Group | None = None
    par: int | None = None
    unmet: bool = False

    def spot(self, cell: Cell, turn: int = 0) -> Spot:
        """The cell at the slot."""
        return Spot(cell, self.slot, turn, self.chosen)

    def follow(self, spot: Spot) -> SurveyTerms:
        """With the slot and the open slots of a spot."""
        return replace(self, slot=spot.slot, chosen=spot.chosen)

    def picks(self, cell: Cell, least: int | None, *, met: bool) -> bool:
        """Whether a cell is to be seen. least: its par; met: it was solved at par."""
        if self.group not in (None, cell.group):
            return False
        return self.par in (None, least) and not (self.unmet and met)

    @property
    def others(self) -> tuple[str, ...]:
        """The slots besides the pair's own."""
        return tuple(slot for slot in SLOTS if slot != self.slot)

    def rows(self) -> tuple[str, ...]:
        """The values in words, a row each."""
        return (
            f"slot {self.slot}",
            *(f"{slot} {'open' if slot in self.chosen else 'kept'}" for slot in self.others),
            self.group.value if self.group else "any kind",
            f"par {self.par}" if self.par is not None else "any par",
            "not yet at par" if self.unmet else "any result",
        )

    def stepped(self, row: int, step: int, pars: Sequence[int]) -> SurveyTerms:
        """With the next value of a row (step 1) or the one before (-1). pars: that there are."""
        if row == 0:
            there = self.spot(CELLS[0]).at_slot(_next(SLOTS, self.slot, step))
            return self.follow(there)
        if row == _KIND:
            return replace(self, group=_next((None, *Group), self.group, step))
        if row == _PAR:
            return replace(self, par=_next((None, *pars), self.par, step))
        if row == _MET:
            return replace(self, unmet=not self.unmet)
        toggled = {self.others[row - 1]} ^ set(self.chosen)
        return replace(self, chosen=tuple(slot for slot in SLOTS if slot in toggled))


def _next(values: Sequence[T], value: T, step: int) -> T:
    """The value so many places on, round and round; the first where the value is not there."""
    at = values.index(value) + step if value in values else 0
    return values[at % len(values)]
