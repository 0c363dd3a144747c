"""Pars of whole sheets, searched once for the whole run."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from game.atlas import Pars, spots
from game.packs.difficulty import Find

Searched = Callable[[str, tuple[str, ...]], Pars]


@pytest.fixture(scope="session")
def searched(find: Find) -> Searched:
    """Pars in which everything at a slot, with these slots open, is known."""
    pars = Pars()

    def filled(slot: str, chosen: tuple[str, ...]) -> Pars:
        for model in pars.missing(spots(slot, chosen)):
            position = model.position
            pars.learn(model, find(position.cube, position.solve, position.faces))
        return pars

    return filled
