"""A keeper without a game: what it tells is listed, and nothing is searched."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from game.engine.engine import Engine
from game.keeping.keeper import Keeper


@pytest.fixture
def told() -> list[str]:
    """What the keeper has told."""
    return []


@pytest.fixture
def keeper(tmp_path: Path, told: list[str]) -> Iterator[Keeper]:
    """A keeper of a folder of its own."""
    made = Keeper(
        tmp_path / "records.db",
        lambda: Engine(tmp_path / "tables"),
        tell=told.append,
        lasting=told.append,
        soon=lambda callback, *values: callback(*values),
    )
    yield made
    made.close()
