"""What the search says of spots, kept in memory: asked once for all rotations and mirror images."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from game.atlas.cell import Cell
from game.atlas.spot import Spot, spots
from game.search.outcome import Outcome, Solved


class Par(NamedTuple):
    """Turns of a shortest solution, and how many shortest solutions there are."""

    turns: int
    solutions: int


class Facts(NamedTuple):
    """Pars of a cell at each of its turns of the top, None where they are not known yet."""

    pars: tuple[Par | None, ...]

    @property
    def least(self) -> int | None:
        """The par of the placement: the least over the turns of the top, once all are known."""
        known = [par.turns for par in self.pars if par is not None]
        return min(known) if len(known) == len(self.pars) else None

    @property
    def solutions(self) -> int:
        """The shortest solutions of the placement, at every turn of the top with the least par.

        None of them begins with a turn of the top, so all of them differ.
        """
        return sum(par.solutions for par in self.pars if par and par.turns == self.least)


class Pars:
    """Pars of spots, as far as they are known."""

    def __init__(self) -> None:
        self._known: dict[Spot, Par] = {}

    def of(self, spot: Spot) -> Par | None:
        """The par of a spot, if any of its images was searched."""
        return self._known.get(spot.model)

    def learn(self, spot: Spot, outcome: Outcome) -> None:
        """Keep what a whole search of a spot's model, or of any image of it, has found."""
        if isinstance(outcome, Solved) and outcome.complete:
            self._known[spot.model] = Par(outcome.par, len(outcome.solutions))

    def facts(self, cell: Cell, slot: str, chosen: tuple[str, ...]) -> Facts:
        """What is known of a cell at a slot."""
        return Facts(tuple(self.of(spot) for spot in spots(slot, chosen, (cell,))))

    def missing(self, wanted: Iterable[Spot]) -> Iterator[Spot]:
        """The models to search so that all these are known, each once, in the order wanted."""
        models = dict.fromkeys(spot.model for spot in wanted)
        return (model for model in models if model not in self._known)
