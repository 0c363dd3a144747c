"""How the playing screen shares out its room: pure numbers, from the window's size."""

from __future__ import annotations

from dataclasses import dataclass

from game.draw.drawing import size_for
from game.draw.still import extent

ROOMY_ROWS = 32
"""Windows this high get empty rows between the parts; the cube is no smaller for it."""
FIXED_ROWS, ROOMY_FIXED_ROWS = 5, 8
"""Rows of title, line, message and keys; with empty rows between them."""
PADDING, ROOMY_PADDING = 2, 4
"""Columns left free at both ends together."""
SIDE_LEAST, SIDE_USUAL, SIDE_MOST = 29, 40, 56
"""Columns of what stands beside the cube."""
SIDE_TEXT_ROWS = 9
"""Rows that stand over the far side, its caption among them."""


@dataclass(frozen=True)
class Plan:
    """size: S of the cube; margin: columns and rows round it; side: columns beside it.

    far: S of the far side, 0 where there is no room; text_rows: what stands over it has so many.
    roomy: empty rows between the parts.
    """

    size: int
    margin: tuple[int, int]
    side: int
    far: int
    text_rows: int
    roomy: bool


def plan(columns: int, rows: int) -> Plan:
    """The largest cube that leaves room for the rest."""
    roomy = rows >= ROOMY_ROWS
    height = rows - (ROOMY_FIXED_ROWS if roomy else FIXED_ROWS)
    least = SIDE_USUAL if columns >= 2 * SIDE_USUAL else SIDE_LEAST
    columns -= ROOMY_PADDING if roomy else PADDING
    size = size_for(columns - least, height)
    wide, high = extent(size)
    side = max(least, min(SIDE_MOST, columns - wide - size))
    reach = (5 * size + 7) // 8  # how far a turning corner reaches out: 3S (sqrt 2 - 1) / 2
    margin = (
        max(0, min((columns - side - wide) // 2, reach)),
        max(0, min((height - high) // 2, reach // 2)),
    )
    far = min(size_for(side - 2, height - SIDE_TEXT_ROWS), size * 2 // 3 // 2 * 2)
    if extent(far)[1] > height - SIDE_TEXT_ROWS:
        far = 0
    return Plan(size, margin, side, far, height - 1 - extent(far)[1], roomy)
