"""Pictures as text for a terminal."""

from __future__ import annotations

import io
import re

import pytest

from game.cli.paint import depth_of, painted, picture_of
from game.cube.moves import parse_line
from game.draw.cells import Run, width
from game.play.position import position_after
from game.settings import Settings


class Terminal(io.TextIOWrapper):
    """A stream that says it is a terminal."""

    def __init__(self, encoding: str = "utf-8") -> None:
        super().__init__(io.BytesIO(), encoding=encoding)

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("environment", "chosen", "depth"),
    [
        ({"TERM": "xterm-256color", "COLORTERM": "truecolor"}, "auto", "true"),
        ({"TERM": "xterm", "COLORTERM": "24BIT"}, "auto", "true"),
        ({"TERM": "xterm-256color", "COLORTERM": "1"}, "auto", "256"),
        ({"TERM": "screen"}, "auto", "16"),
        ({"TERM": "xterm"}, "256", "256"),
        ({"TERM": "xterm-256color"}, "none", "none"),
        ({"TERM": "xterm-256color", "NO_COLOR": "0"}, "true", "none"),
        ({"TERM": "xterm-256color", "NO_COLOR": ""}, "auto", "256"),
        ({"TERM": "dumb"}, "true", "none"),
        ({}, "auto", "none"),
    ],
)
def test_depth(environment: dict[str, str], chosen: str, depth: str) -> None:
    """NO_COLOR, set and not empty, wins over everything (no-color.org); then what was chosen."""
    assert depth_of(Terminal(), environment, chosen) == depth


def test_no_colours_elsewhere() -> None:
    """A file, and a terminal that cannot show half blocks, get no colours."""
    environment = {"TERM": "xterm-256color", "COLORTERM": "truecolor"}
    assert depth_of(io.StringIO(), environment, "true") == "none"
    assert depth_of(Terminal("latin-1"), environment) == "none"
    assert depth_of(Terminal("cp437"), environment) == "true"


def test_sequences() -> None:
    """Inks are written as ECMA-48 and xterm have them, and every run ends in the usual colours."""
    row = (
        Run("a", 1, 11, True),
        Run("b", (1, 2, 3), 200),
        Run("c"),
        Run("d", None, 7),
        Run("e", 15, None),
    )
    assert painted((row, (Run("  "),))) == (
        "\x1b[1;31;103ma\x1b[0m\x1b[38;2;1;2;3;48;5;200mb\x1b[0mc\x1b[47md\x1b[0m\x1b[97me\x1b[0m\n\n"
    )


@pytest.mark.parametrize("depth", ["true", "256", "16", "none"])
@pytest.mark.parametrize("columns", [20, 40, 60, 200])
def test_a_picture_fits(depth: str, columns: int) -> None:
    """The picture is never wider than the terminal, and the far side comes where there is room."""
    position = position_after(parse_line("R U R'"), view="full")
    found = picture_of(position, Settings(), depth, columns)  # type: ignore[arg-type]
    assert width(found) <= columns
    assert (width(found) > 38) == (columns >= 60) or depth == "none"


def test_settings_are_heeded() -> None:
    """The picture has the player's own colours: a solved cube on blue shows white and green."""
    position = position_after((), view="full")
    found = painted(picture_of(position, Settings(cross="blue", front="white"), "none", 20))
    assert re.findall("[WYGBOR]", found)
    assert set(re.findall("[WYGB]", found)) == {"W", "G"}


@pytest.mark.parametrize(("setup", "lean"), [("R U R'", "right"), ("L' U' L", "left")])
def test_a_left_slot_leans_left(setup: str, lean: str) -> None:
    """A cube whose pair belongs on the left shows its left side: red, where the right is orange."""
    position = position_after(parse_line(setup), view="full")
    found = painted(picture_of(position, Settings(drawing="plain"), "none", 20))
    assert ("left" in found) == (lean == "left")
    assert ("right" in found) == (lean == "right")
