"""Which faces are seen from where."""

from __future__ import annotations

from itertools import product

import pytest

from game.draw.depth import DEPTHS, Depth
from game.draw.look import Eye, Lean, Look, Style, far_eye, near_eye

LEANS: tuple[Lean, ...] = ("right", "left")


@pytest.mark.parametrize("lean", LEANS)
def test_both_views_together_see_all_six_faces(lean: Lean) -> None:
    """What the player does not see, the far side from below shows."""
    assert sorted(near_eye(lean) + far_eye(lean, from_below=True)) == sorted("FBRLUD")


@pytest.mark.parametrize(
    ("eye", "leans_left", "from_below"),
    [
        (near_eye("right"), False, False),
        (near_eye("left"), True, False),
        (far_eye("right", from_below=False), False, False),
        (far_eye("left", from_below=False), True, False),
        (far_eye("right", from_below=True), False, True),
        (far_eye("left", from_below=True), True, True),
    ],
)
def test_the_far_side_leans_like_the_near_one(eye: Eye, leans_left: bool, from_below: bool) -> None:
    """Seen from behind, the left is on the right, so both pictures lean the same way."""
    assert (eye.leans_left, eye.from_below) == (leans_left, from_below)


def test_the_side_that_is_seen_is_the_lean() -> None:
    """The player's picture leans right when the right side shows."""
    assert near_eye("right") == ("R", "U", "F")
    assert near_eye("left") == ("L", "U", "F")


@pytest.mark.parametrize(("depth", "style"), list(product(DEPTHS, ("cube", "flat", "plain"))))
def test_letters_show_wherever_colours_may_not_be_enough(depth: Depth, style: Style) -> None:
    """Sixteen colours, no colour, and the unfolded drawings always have letters."""
    look = Look(depth=depth, style=style)
    assert look.shows_letters == (depth in ("16", "none") or style != "cube")
    assert Look(depth=depth, style=style, letters=True).shows_letters


@pytest.mark.parametrize("style", ["cube", "flat", "plain"])
def test_without_colours_only_letters_are_left(style: Style) -> None:
    """NO_COLOR makes every drawing the plain one."""
    assert Look(depth="none", style=style).drawing == "plain"
    assert Look(depth="256", style=style).drawing == style
