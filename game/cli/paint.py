"""A picture as text for a terminal, and how many colours that terminal has.

Colours are written as SGR sequences (ECMA-48; the 256 and true colour forms are those of xterm).
"""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from dataclasses import replace
from typing import TextIO, cast

from game.cube import pair
from game.cube.colours import colour_scheme
from game.draw.cells import Ink, Picture, Run, beside, width
from game.draw.depth import DEPTHS, Depth
from game.draw.drawing import draw_cube, draw_far, size_for
from game.draw.look import Look, Style
from game.play.position import Position
from game.settings import Settings

SIZE, FAR_SIZE, PLAIN_SIZE = 8, 4, 4
"""The size of the cube, of its far side, and of both when only letters are left."""
TALL = 100
"""Rows that no size needs: a terminal scrolls."""


def depth_of(stream: TextIO, environment: Mapping[str, str], chosen: str = "auto") -> Depth:
    """How many colours to write to a stream.

    None where it is no terminal, a dumb one, cannot show half blocks, or NO_COLOR is set
    (no-color.org); otherwise those chosen, and if none are, what COLORTERM and TERM tell.
    """
    terminal = environment.get("TERM", "")
    if not stream.isatty() or environment.get("NO_COLOR") or terminal in ("", "dumb"):
        return "none"
    if not _encodes_blocks(stream):
        return "none"
    if chosen != "auto":
        return next(depth for depth in DEPTHS if depth == chosen)
    if environment.get("COLORTERM", "").lower() in ("truecolor", "24bit"):
        return "true"
    return "256" if "256" in terminal else "16"


def picture_of(position: Position, settings: Settings, depth: Depth, columns: int) -> Picture:
    """The cube at the start of a position, its far side beside it where that fits."""
    near, far = (PLAIN_SIZE, PLAIN_SIZE) if depth == "none" else (SIZE, FAR_SIZE)
    look = Look(
        colour_scheme(settings.cross, settings.front),
        depth,
        settings.letters,
        min(near, size_for(columns, TALL)),
        "left" if position.pairs[:1] in (("FL",), ("BL",)) else "right",
        cast(Style, settings.drawing),
    )
    from_below = not pair.is_cross_solved(position.cube)
    cube = draw_cube(position.cube, look)
    both = beside(cube, draw_far(position.cube, replace(look, size=far), from_below=from_below))
    return both if width(both) <= columns else cube


def painted(picture: Picture) -> str:
    """The picture as text with colours, every line ending in the terminal's own."""
    return "".join(f"{''.join(map(_painted_run, row)).rstrip()}\n" for row in picture)


def columns() -> int:
    """Columns of the terminal."""
    return shutil.get_terminal_size().columns


def _encodes_blocks(stream: TextIO) -> bool:
    """Whether half blocks can be written to the stream."""
    try:
        "▀▄".encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def _painted_run(run: Run) -> str:
    codes = ["1"] * run.bold + _codes(run.fg, 30) + _codes(run.bg, 40)
    return f"\x1b[{';'.join(codes)}m{run.text}\x1b[0m" if codes else run.text


def _codes(ink: Ink, base: int) -> list[str]:
    if ink is None:
        return []
    if isinstance(ink, tuple):
        return [str(base + 8), "2", *map(str, ink)]
    if ink >= 16:
        return [str(base + 8), "5", str(ink)]
    return [str(base + ink if ink < 8 else base + 52 + ink)]
