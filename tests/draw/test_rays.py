"""Rays against boxes: agreement with the picture at rest, whose pixels are whole numbers."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from game.draw import still
from game.draw.look import SIZES
from game.draw.panel import PANEL
from game.draw.rays import SAMPLES, View, cast

WHOLE = ((-1.5, 1.5), (-1.5, 1.5), (-1.5, 1.5))
UNTURNED = np.eye(3, dtype=np.float32)


@pytest.mark.parametrize("size", [s for s in SIZES if s >= 6])
def test_the_ray_through_a_pixels_centre_meets_what_the_still_picture_shows(size: int) -> None:
    """Two methods, one cube: stickers agree everywhere, outlines in whether there is a hit."""
    hits = cast(View(size, (0, 0)), WHOLE, UNTURNED, still.half_gaps(size))
    centres = hits.zone[1::SAMPLES, 1::SAMPLES]
    met = np.isfinite(hits.depth[1::SAMPLES, 1::SAMPLES])
    codes = np.array(still.codes(size, leans_left=False, from_below=False))
    assert (met == (codes != still.OUTSIDE)).all()
    is_sticker = np.vectorize(still.is_sticker)(codes) & met
    assert (centres[is_sticker] == codes[is_sticker]).all()
    assert not np.vectorize(still.is_sticker)(centres[met & ~is_sticker]).any()


def test_a_ray_that_misses_is_infinitely_far() -> None:
    """The empty corners of the picture."""
    hits = cast(View(8, (0, 0)), WHOLE, UNTURNED, still.half_gaps(8))
    assert np.isinf(hits.depth[0, 0])
    assert np.isinf(hits.depth[-1, -1])
    assert hits.depth.shape == (2 * 19 * SAMPLES, 38 * SAMPLES)


def test_a_box_shows_the_three_faces_that_look_at_the_eye() -> None:
    """At rest the positive ends; turned half round about the vertical, the others but the top."""
    gaps = still.half_gaps(8)
    half = np.diag([-1, 1, -1]).astype(np.float32)
    assert cast(View(8, (0, 0)), WHOLE, UNTURNED, gaps).signs == (1, 1, 1)
    assert cast(View(8, (0, 0)), WHOLE, half, gaps).signs == (-1, 1, -1)


def test_a_margin_only_adds_rays_around() -> None:
    """The grid within it is the same."""
    gaps = still.half_gaps(8)
    bare = cast(View(8, (0, 0)), WHOLE, UNTURNED, gaps)
    framed = cast(View(8, (5, 2)), WHOLE, UNTURNED, gaps)
    within = slice(4 * SAMPLES, -4 * SAMPLES), slice(5 * SAMPLES, -5 * SAMPLES)
    met = np.isfinite(bare.depth)
    assert (np.isfinite(framed.depth[within]) == met).all()
    assert np.isfinite(framed.depth).sum() == met.sum()
    assert framed.depth[within][met] == pytest.approx(bare.depth[met], abs=1e-3)


def test_the_nearer_of_two_boxes_has_the_lesser_depth() -> None:
    """Where the front layer is seen, it is before the layers behind it."""
    view, gaps = View(8, (0, 0)), still.half_gaps(8)
    front = cast(view, (*WHOLE[:2], (0.5, 1.5)), UNTURNED, gaps)
    rest = cast(view, (*WHOLE[:2], (-1.5, 0.5)), UNTURNED, gaps)
    whole = cast(view, WHOLE, UNTURNED, gaps)
    both = np.isfinite(front.depth) & np.isfinite(rest.depth)
    nearest = np.minimum(front.depth, rest.depth)
    met = np.isfinite(whole.depth)
    assert both.any()
    assert nearest[met] == pytest.approx(whole.depth[met], abs=1e-3)
    seen_in_front = met & (whole.zone // PANEL == 2)
    assert (front.depth[seen_in_front] < rest.depth[seen_in_front]).all()


@pytest.mark.parametrize(("size", "margin"), list(product((4, 12), ((0, 0), (3, 1)))))
def test_a_view_has_the_pixels_of_its_cells(size: int, margin: tuple[int, int]) -> None:
    """Two pixel rows for every row of cells, margin included."""
    columns, rows = still.extent(size)
    assert View(size, margin).shape == (2 * (rows + 2 * margin[1]), columns + 2 * margin[0])
