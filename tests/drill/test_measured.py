"""The difficulties that items start from are what measuring gives."""

from __future__ import annotations

from collections.abc import Iterable
from statistics import fmean

import pytest

from game.atlas import CELLS, Cell, Spot, named
from game.drill import measured
from game.packs.difficulty import Find, measure
from game.search.outcome import Solved


def measured_now(cell: Cell, turns: Iterable[int], find: Find) -> float:
    """Difficulty without what is hidden, the mean over these turns of the top."""
    found = []
    for turn in turns:
        position = Spot(cell, "FR", turn).position
        outcome = find(position.cube, position.solve, position.faces)
        assert isinstance(outcome, Solved)
        difficulty = measure(position, outcome, find)
        found.append(difficulty.value - difficulty.hidden / 4)
    return fmean(found)


@pytest.mark.slow
def test_entries(find: Find) -> None:
    """Each of the 41 is its measured difficulty, rounded, and none is missing."""
    wanted = [e for e in CELLS if "astray" not in e.group.value and not e.is_solved]
    found = {cell.name: round(measured_now(cell, cell.turns, find), 1) for cell in wanted}
    assert found == measured.CELLS


@pytest.mark.slow
def test_groups(find: Find) -> None:
    """The mean of every third cell of a group is within a third of a turn of that of all."""
    for group, mean in measured.GROUPS.items():
        cells = [cell for cell in CELLS if cell.group.value == group]
        found = fmean(measured_now(cell, (0,), find) for cell in cells[::3])
        assert abs(found - mean) < 0.34


def test_a_twin_is_as_hard() -> None:
    """A cell and its diagonal mirror image have one difficulty."""
    for name, difficulty in measured.CELLS.items():
        assert measured.CELLS[Spot(named(name)).twin("diagonal").cell.name] == difficulty
