"""The whole floor in a few calls: a cube and a look in, a picture out.

draw_cube   the player's view: front, top and one side
draw_far    the far side: back, top or bottom and the other side, with their names
size_for    the largest size that fits
"""

from __future__ import annotations

from collections.abc import Iterable

from game.cube.cube import Cube
from game.draw.cells import Picture
from game.draw.flat import draw_flat, flat_axis_at
from game.draw.look import SIZES, Eye, Look, Turning, far_eye, near_eye
from game.draw.panel import paint
from game.draw.still import axis_at, draw_still, extent

NOTHING: frozenset[int] = frozenset()


def draw_cube(
    cube: Cube,
    look: Look,
    *,
    grey: frozenset[int] = NOTHING,
    joined: Iterable[str] = (),
    turning: Turning | None = None,
    marked: frozenset[int] = NOTHING,
) -> Picture:
    """The cube as the player holds it.

    grey: homes of stickers drawn grey. joined: slots whose pair is joined; its gap closes.
    turning: a move of this cube that is under way; marked: places whose stickers carry a mark,
    which is not drawn while a layer turns.
    """
    eye = near_eye(look.lean)
    return _draw(cube, eye, look, grey=grey, joined=joined, turning=turning, marked=marked)


def draw_far(
    cube: Cube,
    look: Look,
    *,
    from_below: bool = False,
    grey: frozenset[int] = NOTHING,
    joined: Iterable[str] = (),
    turning: Turning | None = None,
    marked: frozenset[int] = NOTHING,
) -> Picture:
    """The cube as seen from behind, and above or below."""
    eye = far_eye(look.lean, from_below)
    return _draw(cube, eye, look, grey=grey, joined=joined, turning=turning, marked=marked)


def _draw(
    cube: Cube,
    eye: Eye,
    look: Look,
    *,
    grey: frozenset[int],
    joined: Iterable[str],
    turning: Turning | None,
    marked: frozenset[int],
) -> Picture:
    if turning is not None and (turning.fraction >= 1 or look.drawing != "cube"):
        cube, turning = cube.turn([turning.move]), None
    colours = paint(cube, look, grey, joined, marked)
    if look.drawing != "cube":
        return draw_flat(colours, eye, look)
    if turning is None or turning.fraction <= 0:
        return draw_still(colours, eye, look)
    from game.draw.turning import draw_turning  # noqa: PLC0415  NumPy, and only now

    return draw_turning(colours, eye, look, turning)


def size_for(columns: int, rows: int) -> int:
    """The largest size that fits into that many cells; the smallest where none does."""
    fitting = [s for s in SIZES if extent(s)[0] <= columns and extent(s)[1] <= rows]
    return max(fitting, default=SIZES[0])


def face_at(look: Look, column: int, row: int) -> str:
    """The face that `draw_cube` shows at a cell, named by place; nothing beside the cube."""
    eye = near_eye(look.lean)
    if look.drawing != "cube":
        axis = flat_axis_at(eye, look, column, row)
    else:
        axis = axis_at(eye, look, column - look.margin[0], row - look.margin[1])
    return "" if axis is None else eye[axis]
