"""A spot of the atlas, played as a level is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from game.atlas.spot import Spot
from game.cube.words import pair_words
from game.modes import CASUAL
from game.play.position import Position


@dataclass(frozen=True)
class AtlasPuzzle:
    """A spot with its par, ready to play."""

    spot: Spot
    par: int

    @property
    def key(self) -> str:
        """Its name in records: "atlas/FR/a3", then what the top was turned and what is open."""
        spot = self.spot
        parts = ["atlas", spot.slot, spot.name, spot.top, "+".join(spot.open)]
        return "/".join(filter(None, parts))

    @property
    def position(self) -> Position:
        """The position to play."""
        return self.spot.position

    @property
    def source(self) -> str:
        """The atlas."""
        return "Atlas"

    @property
    def name(self) -> str:
        """ "a3 at FR"."""
        return f"{self.spot.name} at {self.spot.slot}"

    @property
    def aside(self) -> str:
        """How the top is turned."""
        return f"top turned {self.spot.top}" if self.spot.top else ""

    @property
    def place(self) -> str:
        """Its number on its sheet."""
        cells = self.spot.cell.sheet.cells
        return f"{cells.index(self.spot.cell) + 1} of {len(cells)}"

    mode = CASUAL
    why = ""

    def note(self, colours: Mapping[str, str]) -> str:
        """Where the pieces lay at the start."""
        words = pair_words(self.spot.place, self.spot.slot, colours)
        return f"{words[0].upper()}{words[1:]}."
