"""Parallel rays against boxes: which face, and which zone of it, is seen through each sample.

A pixel has three by three samples, a third of a pixel apart, the middle one at its centre; through
each runs a ray, and all rays have one direction. A box is met where the ray has entered between
all three pairs of its planes and left none of them: it enters through the plane reached last.

Axes as in `look.Eye`, in stickers from the middle of the cube. A ray's parameter is the depth in
pixels of `still`, so that of two hits the lesser is seen.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from game.draw.panel import ZONES
from game.draw.still import extent

Floats = NDArray[np.float32]
Ints = NDArray[np.intp]
Span = tuple[float, float]
Box = tuple[Span, Span, Span]
"""Extent along each axis."""

SAMPLES = 3
"""Samples along each side of a pixel."""
ALMOST = 1e-4
"""Stickers: a ray that passes a box this closely meets it."""


class View(NamedTuple):
    """The grid of pixels: the cube's size and the margin in cells, as in `look.Look`."""

    size: int
    margin: tuple[int, int]

    @property
    def shape(self) -> tuple[int, int]:
        """Rows and columns of pixels."""
        columns, rows = extent(self.size)
        return 2 * (rows + 2 * self.margin[1]), columns + 2 * self.margin[0]


class Hits(NamedTuple):
    """Where rays meet a box; the arrays have the shape (sample rows, sample columns).

    depth: infinite where missed. zone: 0..146, 49 * axis of the face + zone on its panel, axes in
    the box's own frame. signs: for each axis, the end of the box that faces the eye.
    """

    depth: Floats
    zone: Ints
    signs: tuple[int, int, int]


def cast(view: View, box: Box, back: Floats, insets: tuple[float, float, float]) -> Hits:
    """Where the rays meet a box that was turned.

    back: 3 x 3, takes directions of the drawing into the box's own frame. insets: for each axis
    of the box, the distance from a sticker's edge to the middle of the gap, in stickers.
    """
    rows, columns = view.shape
    size = view.size
    column = np.arange(SAMPLES * columns, dtype=np.float32)
    row = np.arange(SAMPLES * rows, dtype=np.float32)[:, np.newaxis]
    across = ((column - 1) / SAMPLES - view.margin[0]) / size - 1.5
    up = 3 - ((row - 1) / SAMPLES - 2 * view.margin[1]) / size
    origin = [back[i, 0] * across + (back[i, 1] * up + back[i, 2] * 1.5) for i in range(3)]
    direction = back @ np.array((-1, -1, -2), dtype=np.float32) / size
    direction[np.abs(direction) < ALMOST / size] = ALMOST / size
    signs = tuple(-1 if step > 0 else 1 for step in direction)

    entering, leaving = [], []
    for (low, high), start, step in zip(box, origin, direction, strict=True):
        planes = (low, high) if step > 0 else (high, low)
        entering.append((planes[0] - start) / step)
        leaving.append((planes[1] - start) / step)
    depth = np.maximum(np.maximum(entering[0], entering[1]), entering[2])
    left = np.minimum(np.minimum(leaving[0], leaving[1]), leaving[2])
    zones = [
        _zones(start + depth * step, inset)
        for start, step, inset in zip(origin, direction, insets, strict=True)
    ]
    side, cap, front = (
        ZONES * zones[j] + zones[k] + ZONES**2 * axis
        for axis, j, k in ((0, 1, 2), (1, 0, 2), (2, 0, 1))
    )
    zone = np.where(depth == entering[2], front, np.where(depth == entering[1], cap, side))
    missed = depth > left + ALMOST * size
    return Hits(
        np.where(missed, np.float32(np.inf), depth),
        zone.astype(np.intp),
        (signs[0], signs[1], signs[2]),
    )


def _zones(at: Floats, inset: float) -> NDArray[np.int16]:
    """The zone 0..6 along an axis of points -1.5..1.5 on it."""
    zones = np.zeros(at.shape, dtype=np.int16)
    for middle in (-1.0, 0.0, 1.0):
        zones += at > middle - 0.5 + inset
        zones += at > middle + 0.5 - inset
    return zones
