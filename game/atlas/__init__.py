"""The atlas: every placement of a pair, each under a name of its own.

    cell    the 168 placements as three sheets of rows and columns
    spot     a cell at a slot, the top turned, some slots open: a position
    puzzle   a spot as it is played
    words    short words for tables
    pars     par and how many solutions, each searched once for all its mirror images

Each stands on those above it.
"""

from game.atlas.cell import CELLS, SHEETS, TOP_TURNS, Cell, Group, Row, Sheet, cell_of, named
from game.atlas.pars import Facts, Par, Pars
from game.atlas.puzzle import AtlasPuzzle
from game.atlas.spot import Spot, spots

__all__ = [
    "CELLS",
    "SHEETS",
    "TOP_TURNS",
    "AtlasPuzzle",
    "Cell",
    "Facts",
    "Group",
    "Par",
    "Pars",
    "Row",
    "Sheet",
    "Spot",
    "cell_of",
    "named",
    "spots",
]
