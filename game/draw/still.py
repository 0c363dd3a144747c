"""A cube at rest: which zone of which face each pixel shows, by whole numbers only.

With u to the right and v down on the front, both 0..3S, and d = 0..3S/2 into the depth, a pixel
is at

    column  u + d         row  3S/2 + v - d

where the front has d = 0, the cap v = 0, the side u = 3S. The lines u, v = 0, S, 2S, 3S and
d = 0, S/2, S, 3S/2 are plastic: every gap is one pixel wide, every sticker of the front
(S-1) x (S-1) pixels, of the side (S/2-1) x (S-1), of the cap (S-1) x (S/2-1). Small cubes go
without gaps in depth, and the smallest without any: stickers count more.

The picture is 3S + 3S/2 + 2 pixels wide and high; the height is rounded up to whole cells.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple, TypeVar

from game.draw.cells import Ink, Picture, Row, Run, half_cells, merged
from game.draw.look import Eye, Look
from game.draw.palette import LETTER, Palette
from game.draw.panel import PANEL, ZONES, Paint, face_places, sticker_zone, still_panels

T = TypeVar("T")

OUTSIDE = -1
"""The code of a pixel that shows no part of the cube."""
MARK = 3 * PANEL
"""Added to a sticker's code for the pixels of a mark on it."""
Codes = tuple[tuple[int, ...], ...]
"""Pixel rows; a code is 49 * axis + zone, as an index into `still_panels`."""


class Segment(NamedTuple):
    """Neighbouring cells with the same two pixels. letter: code of the sticker to name there."""

    upper: int
    lower: int
    cells: int
    letter: int


def extent(size: int) -> tuple[int, int]:
    """Columns and rows of cells of a cube of that size, without margin."""
    pixels = 9 * size // 2 + 2
    return pixels, (pixels + 1) // 2


def has_front_gaps(size: int) -> bool:
    """Whether there are gaps between the stickers along the front's edges."""
    return size >= 4


def has_depth_gaps(size: int) -> bool:
    """Whether there are gaps between the stickers along the depth."""
    return size >= 6


def half_gaps(size: int) -> tuple[float, float, float]:
    """From a sticker's edge to the middle of the gap, along each axis, in stickers."""
    fine = 0.5 / size if has_front_gaps(size) else 0.0
    return fine, fine, 1 / size if has_depth_gaps(size) else 0.0


def _zone(at: int, step: int, has_gaps: bool) -> int:
    """The zone of a whole coordinate where stickers are `step` apart."""
    if at == 0 or (has_gaps and at % step == 0):
        return 2 * (at // step)
    return 2 * ((at if has_gaps else at - 1) // step) + 1


def _code(column: int, row: int, size: int) -> int:
    """The code of a pixel, side on the right and cap above."""
    front, half = 3 * size, size // 2
    v = row - 3 * half
    fine, deep = has_front_gaps(size), has_depth_gaps(size)
    if 0 <= v <= front and 0 <= column <= front:
        axis, d, u = 2, 0, column
    elif -3 * half <= v < 0 and 0 <= column + v <= front:
        axis, d, u, v = 1, -v, column + v, 0
    elif front < column <= front + 3 * half and 0 <= v + column - front <= front:
        axis, d, u = 0, column - front, front
        v += d
    else:
        return OUTSIDE
    zones = [
        _zone(u, size, fine),
        ZONES - 1 - _zone(v, size, fine),
        ZONES - 1 - _zone(d, half, deep),
    ]
    del zones[axis]
    return PANEL * axis + ZONES * zones[0] + zones[1]


@lru_cache(maxsize=32)
def codes(size: int, leans_left: bool, from_below: bool) -> Codes:
    """The code of each pixel of a cube without margin."""
    columns, rows = extent(size)
    grid = [[_code(x, y, size) for x in range(columns)] for y in range(2 * rows)]
    if leans_left:
        grid = [row[::-1] for row in grid]
    if from_below:
        grid = grid[::-1]
    return tuple(map(tuple, grid))


def _sticker_pixels(grid: Codes) -> dict[int, list[tuple[int, int]]]:
    """Code of each sticker -> its pixels (row, column)."""
    pixels: dict[int, list[tuple[int, int]]] = {}
    for y, row in enumerate(grid):
        for x, code in enumerate(row):
            if is_sticker(code):
                pixels.setdefault(code, []).append((y, x))
    return pixels


@lru_cache(maxsize=32)
def letter_cells(size: int, leans_left: bool, from_below: bool) -> dict[tuple[int, int], int]:
    """Cell (row, column) -> code of the sticker whose letter it carries.

    The cell nearest to the sticker's middle that shows no other. It lies wholly in the sticker,
    but at size 6, where some are two pixels high, it can take a pixel from the gap.
    """
    grid = codes(size, leans_left, from_below)
    pixels = _sticker_pixels(grid)
    cells = {}
    for code, members in pixels.items():
        middle = [sum(at) / len(members) for at in zip(*members, strict=True)]
        found = []
        for y, x in {(y // 2, x) for y, x in members}:
            other = {grid[2 * y][x], grid[2 * y + 1][x]} - {code}
            if not any(is_sticker(o) or o == OUTSIDE for o in other):
                away = (2 * y + 0.5 - middle[0]) ** 2 + (x - middle[1]) ** 2
                found.append((away, y, x))
        if found:
            _, y, x = min(found)
            cells[y, x] = code
    return cells


@lru_cache(maxsize=32)
def _middles(
    size: int, leans_left: bool, from_below: bool
) -> dict[int, frozenset[tuple[int, int]]]:
    """Code of each sticker -> the pixels (row, column) in the middle of it, where a mark is drawn.

    That is the middle third, along and across.
    """
    found = {}
    for code, pixels in _sticker_pixels(codes(size, leans_left, from_below)).items():
        line = 1 if code // PANEL == 0 else 0  # the side is cut into columns, the others into rows
        lines: dict[int, list[tuple[int, int]]] = {}
        for pixel in sorted(pixels):
            lines.setdefault(pixel[line], []).append(pixel)
        inner = _middle_third([lines[at] for at in sorted(lines)])
        found[code] = frozenset(pixel for each in inner for pixel in _middle_third(each))
    return found


def _middle_third(of: list[T]) -> list[T]:
    """The third in the middle, rounded up to what lies evenly between the ends; at least one."""
    count = -(-len(of) // 3)
    start = (len(of) - count) // 2
    return of[start : len(of) - start]


def is_sticker(code: int) -> bool:
    """Whether a code is of a sticker and not of a gap or nothing."""
    zone = code % PANEL
    return code != OUTSIDE and zone // ZONES % 2 == 1 and zone % ZONES % 2 == 1


@lru_cache(maxsize=64)
def segments(
    size: int, leans_left: bool, from_below: bool, marked: frozenset[int], has_letters: bool
) -> tuple[tuple[Segment, ...], ...]:
    """The rows of a cube without margin, cells with the same two pixels together.

    marked: codes of stickers with a mark, whose pixels have the code of the sticker plus `MARK`.
    has_letters: whether a cell of each sticker stands alone, for its letter.
    """
    grid = [list(row) for row in codes(size, leans_left, from_below)]
    middles = _middles(size, leans_left, from_below) if marked else {}
    for code in marked:
        for y, x in middles[code]:
            grid[y][x] = MARK + code
    lettered = letter_cells(size, leans_left, from_below) if has_letters else {}
    rows = []
    for y in range(len(grid) // 2):
        cells = zip(grid[2 * y], grid[2 * y + 1], strict=True)
        keyed = [(*pixels, lettered.get((y, x), OUTSIDE)) for x, pixels in enumerate(cells)]
        rows.append(
            tuple(
                Segment(upper, lower, len(list(same)), letter)
                for (upper, lower, letter), same in groupby(keyed)
            )
        )
    return tuple(rows)


def draw_still(colours: Paint, eye: Eye, look: Look) -> Picture:
    """The picture of a cube at rest."""
    names = still_panels(colours, eye)
    palette = look.palette
    inks: list[Ink] = [palette.inks[name][i // PANEL] for i, name in enumerate(names)]
    inks += [palette.letter_ink(ink) for ink in inks]  # found at MARK + code
    inks.append(None)  # found at index OUTSIDE
    marked = frozenset(
        PANEL * axis + sticker_zone(n)
        for axis in range(3)
        for n, place in enumerate(face_places(eye, axis, 1))
        if place in colours.marked
    )
    rows: list[Row] = []
    has_letters = look.shows_letters
    for row in segments(look.size, eye.leans_left, eye.from_below, marked, has_letters):
        runs = []
        for upper, lower, cells, letter in row:
            if letter != OUTSIDE and names[letter] in LETTER:
                on_mark = MARK + letter in (upper, lower)
                under = inks[MARK + letter if on_mark else letter]
                runs.append(letter_run(LETTER[names[letter]], under, palette))
            else:
                runs.append(half_cells(inks[upper], inks[lower], cells))
        rows.append(merged(runs))
    return framed(rows, look)


def letter_run(letter: str, under: Ink, palette: Palette) -> Run:
    """One letter on a sticker's ink."""
    return Run(letter, palette.letter_ink(under), under)


def framed(rows: Sequence[Row], look: Look) -> Picture:
    """The rows with the look's margin round them."""
    columns, lines = look.margin
    side = Run(" " * columns)
    empty: Row = merged([Run(" " * (extent(look.size)[0] + 2 * columns))])
    return (empty,) * lines + tuple(merged((side, *row, side)) for row in rows) + (empty,) * lines


def axis_at(eye: Eye, look: Look, column: int, row: int) -> int | None:
    """The axis whose face a cell of a cube without margin shows, or None beside the cube.

    A sticker in the cell goes before a gap.
    """
    grid = codes(look.size, eye.leans_left, eye.from_below)
    if not (0 <= column < len(grid[0]) and 0 <= 2 * row < len(grid)):
        return None
    pixels = (grid[2 * row][column], grid[2 * row + 1][column])
    code = max(pixels, key=lambda code: (is_sticker(code), code))
    return None if code == OUTSIDE else code // PANEL
