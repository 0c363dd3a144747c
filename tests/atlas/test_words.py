"""Short words for tables: exact, and telling the cells apart."""

from __future__ import annotations

import pytest

from game.atlas import CELLS, Spot, named
from game.atlas.words import corner_short, edge_short
from game.cube.colours import HOME_COLOURS
from game.cube.pair import SLOTS


def short(spot: Spot) -> tuple[str, str]:
    return (
        corner_short(spot.place.corner, spot.slot, HOME_COLOURS),
        edge_short(spot.place.edge, spot.slot, HOME_COLOURS),
    )


@pytest.mark.parametrize("slot", SLOTS)
def test_short_words_tell_entries_apart(slot: str) -> None:
    """No two cells of a slot have the same words."""
    assert len({short(Spot(cell, slot)) for cell in CELLS}) == len(CELLS)


@pytest.mark.parametrize(
    ("spot", "words"),
    [
        (Spot(named("a3")), ("above, white up", "left, green up")),
        (Spot(named("a7")), ("above, white up", "left, orange up")),
        (Spot(named("d8"), "BL"), ("in slot, white down", "in slot, blue back")),
        (Spot(named("z4"), "FL"), ("in FR, white front", "in BL, red left")),
    ],
)
def test_short_words(spot: Spot, words: tuple[str, str]) -> None:
    """Where each piece is and where one of its colours looks."""
    assert short(spot) == words
