"""Every figure and layout is asked for every size, and gives something or nothing."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import pytest

from game.cube.moves import parse_line
from game.keeping.statistics import Statistics
from game.modes import DASH
from game.packs import Puzzle
from game.screens.home.map_rows import level_head, level_row, pack_row
from game.screens.lines.columns import grid
from game.screens.match.rows import head_row, player_rows
from game.screens.runs.figures import table
from game.screens.shared.help import own_text, rest_text
from game.screens.shared.layout import plan
from game.screens.shared.line_view import line_rows
from game.screens.statistics.figures import (
    MEASURES,
    Measure,
    calendar,
    counts,
    heat_map,
    sides,
    strength,
    trends,
)
from game.screens.statistics.tally import Tally
from tests.screens.lines.test_columns import THREE
from tests.screens.match.test_rows import PARS, begun
from tests.screens.match.test_rows import result as played
from tests.screens.runs.test_figures import done, run
from tests.screens.statistics.test_figures import NOTHING, TODAY, found

SOME = found(TODAY - 400, TODAY - 3, TODAY)
RUN = run(DASH, 3, done(300, turns=5), done(600, par=None), done(900, par=None, solved=False))
MATCH = begun("Ada", "Bo", "Cem").after(played()).without(0)
LINE = [move.name for move in parse_line("R U R' U' F2 B L' D U2 R")]

OF_A_WIDTH: dict[str, Callable[[int], object]] = {
    "counts": lambda width: counts(SOME.whole, width),
    "sides": lambda width: [sides(all_, MEASURES[0], width) for all_ in (SOME, NOTHING)],
    "a run": lambda width: table(RUN, RUN, width, marked=1),
    "a match": lambda width: (head_row(width), player_rows(MATCH, PARS, width)),
    "lines": lambda width: (
        (shown := grid(THREE, 5, width, marked=1)).head(),
        shown.body(),
    ),
    "the line": lambda width: line_rows(LINE, ["&"] * len(LINE), width),
}


def warm(all_: Statistics, measure: Measure, is_rich: bool, width: int, rows: int) -> object:
    return heat_map(all_, measure, width, rows, rich=is_rich)


HEATS = tuple(product((SOME, NOTHING), MEASURES, (True, False)))
"""What a heat map can be of, how it is measured and coloured; the sizes take turns at these."""
OF_A_SIZE: dict[str, Callable[[int, int], object]] = {
    "the playing screen": plan,
    "strength": lambda width, rows: [strength(all_.days, width, rows) for all_ in (SOME, NOTHING)],
    "calendar": lambda width, rows: [
        calendar(all_.days, TODAY, width, rows) for all_ in (SOME, NOTHING)
    ],
    "heat map": lambda width, rows: warm(*HEATS[(width + rows) % len(HEATS)], width, rows),
    "trends": lambda width, rows: [
        trends(all_, pauses, width, rows) for all_ in (SOME, NOTHING) for pauses in ((), (300, 700))
    ],
}
WIDTHS = (*range(-6, 90), 120, 200, 400)
HEIGHTS = (*range(-4, 30), 50, 100)


@pytest.mark.parametrize("figure", OF_A_WIDTH)
def test_every_width(figure: str) -> None:
    """From less than nothing to a very wide window."""
    for width in WIDTHS:
        OF_A_WIDTH[figure](width)


@pytest.mark.parametrize("figure", OF_A_SIZE)
def test_every_size(figure: str) -> None:
    """The same in both directions."""
    every = 1 if figure == "the playing screen" else 6
    for width in WIDTHS[::every]:
        for rows in HEIGHTS[::every]:
            OF_A_SIZE[figure](width, rows)


def test_the_map_in_every_width(shipped: dict[str, Puzzle]) -> None:
    """Packs and levels, their headings too."""
    puzzle = next(iter(shipped.values()))
    for width in WIDTHS:
        pack_row(puzzle.pack, Tally(5, 2, 1), width)
        level_head(width)
        level_row(puzzle, None, width, hides_par=False)


def test_the_help_in_every_width() -> None:
    """Down to the least that it is asked for."""
    for width in (40, 41, 58, 76):
        assert own_text("play", width).plain and rest_text("play", width).plain
