"""How easy a line is on the hands: our own simple measure, to put solutions in an order.

The effort of a line is the sum of what its moves cost, in units of one easy quarter turn, plus
what their successions cost:

    U, R, L   1        both hands are equals: a line and its left-right image cost the same
    F         1.5      pushed across by a finger
    D         2        out of sight, below the ring fingers
    B         3        out of sight and out of reach
    a wide turn        0.5 more than its face: the hand takes two layers
    M E S     2        a layer between two others
    x y z     1.5      the whole cube is taken anew and the eyes must find their place
    a half turn        half as much again as the quarter turn
    regrip    0.5      a turn of a side straight after one of a neighbouring side (R F, B L' ...):
                       the hand that holds one has to let go for the other

Costs are what hands of many players agree on (common practice, no source); the numbers are ours.
They are sums of quarters, so floats add them exactly.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

from game.cube import line as lines
from game.cube import symmetry
from game.cube.line import Line
from game.cube.moves import Move

_FACE_COST = {"U": 1.0, "R": 1.0, "L": 1.0, "F": 1.5, "D": 2.0, "B": 3.0}
_WIDE_COST = 0.5
_SLICE_COST = 2.0
_ROTATION_COST = 1.5
_REGRIP_COST = 0.5


def effort(line: Line) -> float:
    """The effort of a line of moves as the hands make them; lower is easier. Of no moves: 0."""
    regrips = sum(_is_regrip(before, move) for before, move in pairwise(line))
    return sum(map(_cost, line)) + _REGRIP_COST * regrips


@cache
def _cost(move: Move) -> float:
    letter = move.name[0]
    if move.is_rotation:
        quarter = _ROTATION_COST
    elif letter in "MES":
        quarter = _SLICE_COST
    else:
        quarter = _FACE_COST[letter] + (_WIDE_COST if len(move.layers) == 2 else 0.0)
    return quarter * (1.5 if move.quarters == 2 else 1.0)


@cache
def _is_regrip(before: Move, move: Move) -> bool:
    """Whether both turn sides, of different axes."""
    sides = before.name[0] in "FBRL" and move.name[0] in "FBRL"
    return sides and before.axis != move.axis


def easiest_grip(line: Line) -> Line:
    """Turns named by centres, as the hands make them in the easiest of the four upright grips.

    Begins with y, y2 or y' where that grip is not the one held at the start, which wins a tie.
    """
    return min((_in_grip(line, quarters) for quarters in range(4)), key=effort)


def _in_grip(line: Line, quarters: int) -> Line:
    grip = symmetry.VERTICAL[quarters]
    return lines.rotation_line(grip) + lines.held(line, grip)
