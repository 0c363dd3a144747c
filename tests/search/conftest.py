"""Near sets small enough to be made in a few seconds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from game.search.growth import near_sets
from game.search.near import PARTS, Bits, NearTables, Part
from game.search.tables import Tables

SMALL_PARTS = tuple(replace(part, turns=(3, 4)) for part in PARTS)
"""The parts of the large tables, with sets for fewer turns."""


@pytest.fixture(scope="session")
def sets() -> dict[Part, dict[int, Bits]]:
    """The near sets of both parts for three and four turns."""
    return {part: dict(near_sets(part)) for part in SMALL_PARTS}


@pytest.fixture(scope="session")
def near_tables(tables: Tables, sets: dict[Part, dict[int, Bits]]) -> NearTables:
    """Tables with those near sets."""
    return NearTables(tables, sets)
