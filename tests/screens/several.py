"""Lines of several players for one position, for the tests of what shows them."""

from __future__ import annotations

from game.cube.line import Line, inverse
from game.cube.moves import parse_line
from game.play.position import position_after
from game.play.result import Result
from game.screens.lines.columns import PlayerLine

HOOK = parse_line("R B U2 B' R'")
START = position_after(inverse(HOOK))
"""Par is 5: the hook solves it at par."""
LONG = parse_line("R U' R' U2 R U R'")
OTHER = parse_line("y F R U2 R' F'")
"""The hook in another grip."""


def entry(
    name: str,
    line: Line = HOOK,
    seeing: int = 341,
    doing: int = 210,
    *,
    called: bool = False,
    solved: bool = True,
    late: int = 0,
) -> PlayerLine:
    """A player's line for `START`."""
    return PlayerLine(START, name, line, Result(line, seeing, doing, called, solved, late))
