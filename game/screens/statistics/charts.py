"""Charts drawn as text: columns, bars, shades. Pure; each is as wide and high as it is told.

    columns   ▁▂▃▅▆█     bar   ███████▌     shade   · ░ ▒ ▓ █

Blocks come in eighths of a cell. What has no value leaves its cells empty.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

Values = Sequence[float | None]

EIGHTHS = " ▁▂▃▄▅▆▇█"
"""A cell filled from below."""
LEFTS = " ▏▎▍▌▋▊▉█"
"""A cell filled from the left."""
SHADES = "·░▒▓█"
STEPS = len(SHADES)


def columns(values: Values, rows: int, width: int, low: float, high: float) -> list[str]:
    """One column of blocks a value, drawn between `low` and `high`; the top row first.

    Fewer values than columns are stretched. Every value shows at least an eighth.
    """
    spread = stretched(values, width)
    full = 8 * rows
    heights = [None if v is None else max(1, round(full * share(v, low, high))) for v in spread]
    return [
        "".join(EIGHTHS[max(0, min(8, (h or 0) - 8 * row))] for h in heights).ljust(width)
        for row in reversed(range(rows))
    ]


def stretched(values: Values, width: int) -> Values:
    """So many columns, each value as wide as the others or a column wider."""
    if not values:
        return ()
    wide = max(1, min(width // len(values), MOST_WIDE)) if len(values) < width else 1
    return [value for value in values for _ in range(wide)]


MOST_WIDE = 3
"""Columns that one value takes at most: two days are no wall."""


def bar(value: float, high: float, width: int) -> str:
    """A bar that fills the width at `high`."""
    eighths = max(1, round(8 * width * share(value, 0, high)))
    return "█" * (eighths // 8) + LEFTS[eighths % 8].strip()


def share(value: float, low: float, high: float) -> float:
    """How far a value lies from low to high, 0 to 1; 1 where these are equal."""
    return max(0.0, min(1.0, (value - low) / (high - low))) if high > low else 1.0


def step(value: float, low: float, high: float) -> int:
    """The shade of a value, 0 to `STEPS` - 1."""
    return min(STEPS - 1, int(STEPS * share(value, low, high))) if high > low else 0


def bounds(values: Values) -> tuple[float, float]:
    """The least and the greatest value; 0 and 0 if there are no values."""
    known = [value for value in values if value is not None]
    return (min(known), max(known)) if known else (0.0, 0.0)


def histogram(numbers: Sequence[float], count: int, high: float) -> list[int]:
    """How many numbers fall into each of so many equal spans from 0 to `high`; the last is open."""
    edges = [high * i / count for i in range(count)] + [float("inf")]
    return [sum(low <= n < top for n in numbers) for low, top in pairwise(edges)]
