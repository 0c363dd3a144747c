"""Marks on stickers: in the middle of them, legible in every drawing, and nothing else changes."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import sticker
from game.draw.depth import DEPTHS
from game.draw.drawing import draw_cube, draw_far
from game.draw.flat import SIGN, draw_flat
from game.draw.look import SIZES, Eye, Look, near_eye
from game.draw.palette import contrast
from game.draw.panel import face_places, paint
from game.draw.still import codes, draw_still, is_sticker
from tests.draw.pixels import letters_of, pixels_of, text_of
from tests.draw.test_panel import eyes
from tests.strategies import cubes

NONE: frozenset[int] = frozenset()
places = st.integers(0, 53)
LEAST_CONTRAST = 3.0
"""For graphics: WCAG 2.2, 1.4.11."""


@given(cubes(), eyes, st.sampled_from(SIZES), places)
def test_a_mark_lies_inside_its_sticker(cube: Cube, eye: Eye, size: int, place: int) -> None:
    """It changes pixels of that sticker alone, at least one where it is in view, else none."""
    look = Look(size=size)
    bare = pixels_of(draw_still(paint(cube, look, NONE, ()), eye, look))
    marks = pixels_of(draw_still(paint(cube, look, NONE, (), frozenset((place,))), eye, look))
    grid = codes(size, eye.leans_left, eye.from_below)
    changed = {
        grid[y][x]
        for y, (old, new) in enumerate(zip(bare, marks, strict=True))
        for x in range(len(old))
        if old[x] != new[x]
    }
    in_view = any(place in face_places(eye, axis, 1) for axis in range(3))
    assert len(changed) == in_view
    assert all(map(is_sticker, changed))


@pytest.mark.parametrize("depth", [depth for depth in DEPTHS if depth != "none"])
def test_marks_stand_out_from_every_colour(depth: str) -> None:
    """Every mark on every colour and grey keeps the contrast that graphics need."""
    palette = Look(depth=depth).palette  # type: ignore[arg-type]
    for name, axis in product(
        ("white", "yellow", "green", "blue", "orange", "red", "grey"), range(3)
    ):
        under = palette.inks[name][axis]
        assert contrast(palette.letter_ink(under), under) >= LEAST_CONTRAST


@pytest.mark.parametrize("size", [6, 8, 12])
def test_a_letter_stands_on_its_mark(size: int) -> None:
    """With letters on, a marked sticker still tells its colour, in an ink read on the mark."""
    marked = frozenset(face_places(near_eye("right"), 2, 1))
    look = Look(size=size, letters=True)
    picture = draw_cube(SOLVED, look, marked=marked)
    assert len(letters_of(picture)) == 27
    runs = [run for row in picture for run in row if run.text.strip("▀▄ ")]
    assert all(contrast(run.fg, run.bg) >= LEAST_CONTRAST for run in runs)
    assert {run.bg for run in runs if "G" in run.text} == {
        look.palette.letter_ink(look.palette.inks["green"][2])
    }


def test_unfolded_a_sign_stands_behind_the_letter() -> None:
    """Without colours too; it goes before the sign of a joined pair."""
    marked = frozenset((sticker("F", 0, 2), sticker("U", 0, 0)))
    look = Look(depth="none")
    colours = paint(SOLVED, look, NONE, ("FR",), marked)
    assert text_of(draw_flat(colours, near_eye("right"), look)) == "\n".join(
        [
            "top",
            f"Y{SIGN}Y Y",
            "Y Y Y",
            "Y Y Y",
            "front   right",
            f"G G G{SIGN}  O O O",
            "G G G*  O*O O",
            "G G G*  O*O O",
        ]
    )


def test_the_far_side_is_marked_too() -> None:
    """A place that the player's view hides is marked where the far side shows it."""
    hidden = frozenset((sticker("B", 0, 0),))
    look = Look(size=8)
    assert draw_cube(SOLVED, look, marked=hidden) == draw_cube(SOLVED, look)
    assert draw_far(SOLVED, look, marked=hidden) != draw_far(SOLVED, look)
