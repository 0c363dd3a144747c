"""The atlas under its terms: what is known of each cell, which are picked, who stands beside whom.

Pure: it is made anew whenever terms or records change, and looks into pars that fill meanwhile.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from game.atlas import CELLS, SHEETS, Cell, Facts, Pars, Spot, named
from game.records.record import Best
from game.screens.atlas.terms import SurveyTerms
from game.screens.atlas.words import Met, met

STEPS = {"left": (0, -1), "right": (0, 1), "up": (-1, 0), "down": (1, 0)}
"""Rows and columns that a key of that name goes on by."""
ROWS = tuple(row for sheet in SHEETS for row in sheet.rows)


@dataclass(frozen=True, eq=False)
class Survey:
    """bests: by the canonical text of a position. hides_par: until it is met, par is not told."""

    terms: SurveyTerms
    pars: Pars
    bests: Mapping[str, Best]
    hides_par: bool = False

    # -- a cell --------------------------------------------------------------------------------

    def spots(self, cell: Cell) -> tuple[Spot, ...]:
        """The cell at each turn of the top."""
        return _spots(self.terms.slot, self.terms.chosen)[cell]

    def facts(self, cell: Cell) -> Facts:
        """What the search says of it so far."""
        return Facts(tuple(self.pars.of(spot) for spot in self.spots(cell)))

    def bests_of(self, cell: Cell) -> tuple[Best | None, ...]:
        """What the player's attempts come to, at each turn of the top."""
        if not self.bests:
            return (None,) * len(cell.turns)
        return tuple(self.bests.get(spot.position.text) for spot in self.spots(cell))

    def met(self, cell: Cell) -> Met:
        """The most that the player has come to, at any turn of the top."""
        if cell.is_solved:
            return Met.NONE
        signs = {met(best) for best in self.bests_of(cell)}
        return next(sign for sign in (Met.AT_PAR, Met.SOLVED, Met.NOT) if sign in signs)

    def tells_par(self, cell: Cell) -> bool:
        """Whether the par may be seen."""
        return not self.hides_par or self.met(cell) in (Met.AT_PAR, Met.NONE)

    def picks(self, cell: Cell) -> bool:
        """Whether the terms pick it."""
        is_met = self.met(cell) in (Met.AT_PAR, Met.NONE)
        return self.terms.picks(cell, self.facts(cell).least, met=is_met)

    # -- all cells -----------------------------------------------------------------------------

    @property
    def tally(self) -> tuple[int, int, int]:
        """Cells picked, and how many of all are solved and at par."""
        signs = [self.met(cell) for cell in CELLS] if self.bests else []
        return (
            sum(map(self.picks, CELLS)),
            sum(sign in (Met.SOLVED, Met.AT_PAR) for sign in signs),
            sum(sign is Met.AT_PAR for sign in signs),
        )

    @property
    def pars_found(self) -> tuple[int, ...]:
        """The pars that cells are known to have, each once; none while par is hidden."""
        if self.hides_par:
            return ()
        found = {self.facts(cell).least for cell in CELLS if not cell.is_solved}
        return tuple(sorted(par for par in found if par is not None))

    def missing(self, first: Cell) -> tuple[Spot, ...]:
        """What to search next: the rest of an entry's sheet, it first, or of one after that."""
        at = SHEETS.index(first.sheet)
        for sheet in (*SHEETS[at:], *SHEETS[:at]):
            order = dict.fromkeys((first, *sheet.cells) if sheet is first.sheet else sheet.cells)
            spots = (spot for cell in order for spot in self.spots(cell))
            missing = tuple(self.pars.missing(spots))
            if missing:
                return missing
        return ()

    # -- from one to another ---------------------------------------------------------------------

    def at(self, name: str) -> Spot:
        """The spot under a row and column. Raises KeyError if the row has no such column."""
        cell = named(name)
        turn = cell.turn_to(name[1]) if len(cell.columns) > 1 else 0
        return self.spots(cell)[turn]

    def in_row(self, letter: str, column: str) -> Spot:
        """The spot of a row in that column, or in the row's last."""
        (sheet,) = (s for s in SHEETS if any(row.letter == letter for row in s.rows))
        return self.at(f"{letter}{min(int(column), len(sheet.edges) - 1)}")

    def step(self, spot: Spot, way: str) -> Spot | None:
        """The next one picked to the left, right, up or down; from sheet to sheet up and down."""
        rows, columns = STEPS[way]
        letter, column = spot.name[0], spot.name[1]
        if columns:
            at = int(column) + columns
            while 0 <= at < len(spot.cell.sheet.edges):
                there = self.at(f"{letter}{at}")
                if self.picks(there.cell):
                    return there
                at += columns
            return None
        number = ROWS.index(spot.cell.row) + rows
        while 0 <= number < len(ROWS):
            nearest = self._nearest(ROWS[number].letter, int(column))
            if nearest is not None:
                return nearest
            number += rows
        return None

    def _nearest(self, letter: str, column: int) -> Spot | None:
        """The spot picked in a row that is nearest to a column."""
        sheet = self.in_row(letter, "0").cell.sheet
        there = (self.at(f"{letter}{c}") for c in range(len(sheet.edges)))
        picked = [spot for spot in there if self.picks(spot.cell)]
        return min(picked, key=lambda spot: abs(int(spot.name[1]) - column), default=None)

    def beside(self, cell: Cell, step: int) -> Cell | None:
        """The next cell picked that can be played, in the order of the atlas."""
        at = CELLS.index(cell)
        after = CELLS[at + 1 :] if step > 0 else CELLS[:at][::-1]
        return next((e for e in after if self.picks(e) and not e.is_solved), None)

    def first(self, cells: Iterable[Cell] = CELLS) -> Spot | None:
        """The first of these cells that is picked."""
        cell = next(filter(self.picks, cells), None)
        return self.spots(cell)[0] if cell else None


@lru_cache(maxsize=32)
def _spots(slot: str, chosen: tuple[str, ...]) -> Mapping[Cell, tuple[Spot, ...]]:
    """All spots at a slot: kept, since a spot keeps its position and model once they are made."""
    return {cell: tuple(Spot(cell, slot, turn, chosen) for turn in cell.turns) for cell in CELLS}
