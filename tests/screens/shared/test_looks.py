from __future__ import annotations

import io

import pytest
from rich.console import Console

from game.cube.moves import parse_line
from game.play.position import position_after
from game.screens.shared.looks import colour_depth, look_of
from game.settings import Settings


def console(colours: str | None) -> Console:
    return Console(file=io.StringIO(), color_system=colours, force_terminal=True)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("colours", "depth"),
    [("truecolor", "true"), ("256", "256"), ("standard", "16"), ("windows", "16"), (None, "none")],
)
def test_the_terminal_is_asked(colours: str | None, depth: str) -> None:
    """ "auto" takes what the terminal can show."""
    assert colour_depth(Settings(), console(colours), no_color=False) == depth


def test_no_color_means_none() -> None:
    """NO_COLOR wins over the terminal (no-color.org), and the player's own setting over both."""
    assert colour_depth(Settings(), console("truecolor"), no_color=True) == "none"
    assert colour_depth(Settings(colours="256"), console(None), no_color=True) == "256"


@pytest.mark.parametrize(
    ("setup", "lean"),
    [("R U R'", "right"), ("L' U L", "left"), ("L U L'", "left"), ("R' U R", "right")],
)
def test_a_slot_on_the_left_leans_left(setup: str, lean: str) -> None:
    """The side that the slot is on is the side that is seen, for all four slots."""
    position = position_after(parse_line(setup))
    assert look_of(Settings(), "true", position).lean == lean


def test_colours_follow_the_settings() -> None:
    """A red cross with a blue front puts orange on top."""
    look = look_of(Settings(cross="red", front="blue"), "true", position_after(()))
    assert (look.scheme["D"], look.scheme["F"], look.scheme["U"]) == ("red", "blue", "orange")
