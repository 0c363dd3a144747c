from __future__ import annotations

import pytest

from game.draw.still import extent
from game.screens.shared.layout import FIXED_ROWS, ROOMY_FIXED_ROWS, plan
from game.screens.shared.too_small import LEAST_COLUMNS, LEAST_ROWS

SIZES = [
    (60, 20),
    (61, 23),
    (79, 24),
    (80, 24),
    (100, 30),
    (120, 40),
    (200, 60),
    (60, 90),
    (300, 20),
]


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_everything_fits_into_the_window(columns: int, rows: int) -> None:
    """Cube with its margin and side lie beside each other, over the fixed rows, far side too."""
    room = plan(columns, rows)
    wide, high = extent(room.size)
    height = rows - (ROOMY_FIXED_ROWS if room.roomy else FIXED_ROWS)
    assert wide + 2 * room.margin[0] + room.side <= columns
    assert high + 2 * room.margin[1] <= height
    assert extent(room.far)[0] <= room.side
    assert extent(room.far)[1] < height


def test_the_sizes_of_the_design() -> None:
    """S is 8 at 80x24 and 12 at 120x40, as the design of the picture gives them."""
    assert plan(80, 24).size == 8
    assert plan(120, 40).size == 12


def test_more_room_never_makes_the_cube_smaller() -> None:
    """From the least size on, wider and higher windows have larger cubes or equal ones."""
    sizes = [plan(LEAST_COLUMNS + 4 * n, LEAST_ROWS + n).size for n in range(60)]
    assert sizes == sorted(sizes)
    assert sizes[-1] > 2 * sizes[0]
