"""A solution as it is listed."""

from __future__ import annotations

import pytest

from game.cube.moves import parse_line
from game.screens.shared.solution_row import solution_row


@pytest.mark.parametrize(
    ("line", "row"),
    [
        ("R B U2 B' R'", "R B U2 B' R'\nor held otherwise: y F R U2 R' F'"),
        ("R U' R'", "R U' R'"),
    ],
)
def test_both_grips_are_listed_where_they_differ(line: str, row: str) -> None:
    """As held at the start first, so that it agrees with the note; then the easiest grip."""
    assert str(solution_row(parse_line(line))) == row
