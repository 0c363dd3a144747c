"""The cube unfolded, in spaces and letters alone: for few colours, none, or doubtful glyphs.

The same three faces as in the other drawing, each named, the cap above or below the front, the
side beside it; every sticker carries the letter of its colour, a grey one none:

    top
    Y Y Y
    Y Y Y
    G Y Y
    front   right
    O*G*R   B O O
    O G G   O O O           the two stickers of a joined pair on a face are marked with *
    G G G   O O O           a sticker that carries a mark has + there

Stickers are as large as fits into the room of the other drawing of that size; in "plain", where
only letters are left, they stay close together.
"""

from __future__ import annotations

from typing import NamedTuple

from game.cube.words import SIDE
from game.draw.cells import Picture, Run, merged
from game.draw.look import Eye, Look
from game.draw.palette import LETTER
from game.draw.panel import Paint, face_places

BETWEEN = 2
"""Columns between the front and the side."""
MARK = "*"
"""Behind the letter of a sticker whose pair is joined."""
SIGN = "+"
"""Behind the letter of a sticker that carries a mark."""
GREY_LETTER = "."
"""In "plain", a sticker that does not matter."""
LIGHTS = (1, 2)
"""The axes whose light neighbours are given in turn, to be told apart without gaps."""


class Block(NamedTuple):
    """A face as drawn: its axis, its corner in cells, its stickers' homes in reading order."""

    axis: int
    left: int
    top: int
    order: tuple[int, ...]


def sticker_cells(look: Look) -> tuple[int, int]:
    """Columns and rows of a sticker."""
    step = 2 if look.drawing == "plain" else max(2, (3 * look.size - 2) // 4 // 2 * 2)
    return step, step // 2


def blocks(eye: Eye, look: Look) -> tuple[Block, ...]:
    """Where the side, the cap and the front are drawn."""
    columns, rows = sticker_cells(look)
    left, below = eye.leans_left, eye.from_below
    name = int(has_names(look))
    front = (3 * columns + BETWEEN if left else 0, name if below else 3 * rows + 2 * name)
    side = (0 if left else 3 * columns + BETWEEN, front[1])
    cap = (front[0], 3 * rows + 2 * name if below else name)
    forth, back = (0, 1, 2), (2, 1, 0)
    across = back if left else forth
    down = forth if below else back
    return (
        Block(0, *side, tuple(3 * y + z for y in down for z in (forth if left else back))),
        Block(1, *cap, tuple(3 * x + z for z in (back if below else forth) for x in across)),
        Block(2, *front, tuple(3 * x + y for y in down for x in across)),
    )


def has_names(look: Look) -> bool:
    """Whether there is room for the names of the faces."""
    return look.size >= 4


def draw_flat(colours: Paint, eye: Eye, look: Look) -> Picture:
    """The unfolded picture of a cube."""
    columns, rows = sticker_cells(look)
    faces = blocks(eye, look)
    height = max(block.top for block in faces) + 3 * rows
    grid = [[Run(" ")] * (6 * columns + BETWEEN) for _ in range(height)]
    signs = {place: MARK for pair in colours.closed for place in pair}
    signs |= dict.fromkeys(colours.marked, SIGN)
    for block in faces:
        if has_names(look):
            for x, letter in enumerate(SIDE[eye[block.axis]], block.left):
                grid[block.top - 1][x] = Run(letter)
        places = face_places(eye, block.axis, 1)
        for n, i in enumerate(block.order):
            top, left = block.top + n // 3 * rows, block.left + n % 3 * columns
            sign = signs.get(places[i], " ")
            sticker = _sticker(colours.names[places[i]], sign, LIGHTS[n % 2], look)
            for y, row in enumerate(sticker, top):
                grid[y][left : left + columns] = row
    return tuple(map(merged, grid))


def _sticker(name: str, sign: str, light: int, look: Look) -> list[list[Run]]:
    """The cells of a sticker. sign: behind its letter; light: the axis whose light it is given."""
    columns, rows = sticker_cells(look)
    plain = look.drawing == "plain"
    under = None if plain else look.palette.inks[name][light]
    letter = LETTER.get(name, GREY_LETTER if plain else " ")
    cells = [[Run(" ", None, under)] * columns for _ in range(rows)]
    ink = None if plain else look.palette.letter_ink(under)
    at = (columns - 1) // 2
    cells[(rows - 1) // 2][at : at + 2] = [Run(c, ink, under) for c in letter + sign]
    return cells


def flat_axis_at(eye: Eye, look: Look, column: int, row: int) -> int | None:
    """The axis whose face a cell shows, or None beside the faces."""
    columns, rows = (3 * count for count in sticker_cells(look))
    for block in blocks(eye, look):
        if 0 <= column - block.left < columns and 0 <= row - block.top < rows:
            return block.axis
    return None
