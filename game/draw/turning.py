"""A layer in the middle of its turn: a true rotation, in the same projection as at rest.

The cube is two or three boxes that do not overlap: the layers that turn, and the layers that rest
on either side of them. The nearest box that a ray meets is seen, which settles hidden surfaces
exactly. Where a pixel shows resting layers alone it is taken from the picture at rest, so that
nothing stirs that does not turn; other pixels blend their nine samples, or with few colours take
the one seen most.

Every sample has a *code*: 0..146 a zone of a resting face as in `still`, then as many for the
turning layers' own faces, then the walls that open inside. NumPy is used here and in `rays` only.
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import product
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from game.cube.geometry import UNMOVED, apply, cross, determinant
from game.draw import still
from game.draw.cells import Ink, Picture, Run, half_cells, merged
from game.draw.depth import Depth
from game.draw.look import Eye, Look, Turning
from game.draw.palette import INSIDE, LETTER
from game.draw.panel import PANEL, Paint, panel, sticker_zone, still_panels
from game.draw.rays import SAMPLES, Box, Floats, Hits, Ints, View, cast

T = TypeVar("T", bound=np.generic)
Bools = NDArray[np.bool_]

TURNING = 3 * PANEL
"""The first code of the turning layers' faces."""
WALL = 2 * TURNING
"""The code of a wall that has opened in the resting layers."""
NOTHING = WALL + 1
"""The code of a sample that shows no part of the cube."""
UNBLENDED = 0.4
"""By how much of their width gaps are wider in the middle of a turn with few colours."""


class Layers(NamedTuple):
    """Layers that turn together: the axis of the drawing that they lie across, and their extent.

    In stickers from the middle: the outer layer at the axis' positive end is 0.5 to 1.5.
    """

    axis: int
    low: float
    high: float

    def box(self, low: float, high: float) -> Box:
        """The part of the cube between two places on the axis."""
        spans = [(-1.5, 1.5)] * 3
        spans[self.axis] = (low, high)
        return (spans[0], spans[1], spans[2])


def draw_turning(colours: Paint, eye: Eye, look: Look, turning: Turning) -> Picture:
    """The picture of a cube at a moment of a turn. colours: before the turn."""
    view = View(look.size, look.margin)
    layers, rotation = _motion(eye, turning)
    turned = cast(
        view, layers.box(layers.low, layers.high), rotation.T, _insets(look, layers, turning)
    )
    depth, codes = _resting(view, layers)
    codes = np.where(turned.depth < depth, TURNING + turned.zone, codes)
    at_rest = _at_rest(view)
    centres = codes[1::SAMPLES, 1::SAMPLES]
    rests = _blocks(codes < TURNING).all(axis=(1, 3))
    at_edge = _blocks((codes < TURNING) | (codes == NOTHING)).all(axis=(1, 3))
    untouched = rests | (at_edge & (centres == at_rest))

    names = still_panels(colours, eye) + _turned_names(colours, eye, layers, turned) + [INSIDE]
    inks = _inks(names, look, layers, rotation)
    packed = np.array([_pack(ink) for ink in inks])
    blend = _mean if look.depth == "true" else _most_seen
    shown = np.where(untouched, packed[at_rest], blend(codes, packed))
    centres = np.where(untouched, at_rest, centres)
    letters: dict[tuple[int, int], Run] = {}
    if look.shows_letters:
        places = _resting_letters(_as_seen(centres == at_rest, eye), eye, look)
        places |= _turned_letters(_as_seen(centres, eye), eye, look, turned.signs, rotation)
        for cell, code in places.items():
            if names[code] in LETTER:
                letters[cell] = still.letter_run(LETTER[names[code]], inks[code], look.palette)
    return _rows(_as_seen(shown, eye), letters, look)


def _motion(eye: Eye, turning: Turning) -> tuple[Layers, Floats]:
    """The layers that turn, and their rotation so far as a 3 x 3 matrix; in the eye's axes."""
    move = turning.move
    normal = apply(eye.axes, UNMOVED[move.axis])
    axis = next(i for i in range(3) if normal[i])
    seen = [normal[axis] * layer for layer in move.layers]
    quarters = -1 if move.quarters == 3 else move.quarters
    angle = quarters * turning.fraction * math.pi / 2 * determinant(eye.axes)
    units = np.eye(3)
    along = np.outer(normal, normal)
    across = np.array([cross(unit, normal) for unit in UNMOVED]).T  # clockwise from its end
    rotation = along + math.cos(angle) * (units - along) + math.sin(angle) * across
    return Layers(axis, min(seen) - 0.5, max(seen) + 0.5), rotation.astype(np.float32)


def _insets(look: Look, layers: Layers, turning: Turning) -> tuple[float, float, float]:
    """Half of the gaps along each axis of the turning layers.

    At rest the gaps in depth are wider, to be a pixel wide all the same; on the way, an axis that
    turns from width to depth changes with the turn. Where inks cannot blend, gaps are wider in
    the middle of the turn, so that slanting ones do not fall apart into dots.
    """
    wider = 1.0
    if look.depth != "true":
        wider += UNBLENDED * math.sin(math.pi * turning.fraction)
    start = [wider * gap for gap in still.half_gaps(look.size)]
    end = list(start)
    if turning.move.quarters % 2:
        j, k = (i for i in range(3) if i != layers.axis)
        end[j], end[k] = end[k], end[j]
    x, y, z = (a + (b - a) * turning.fraction for a, b in zip(start, end, strict=True))
    return (x, y, z)


@lru_cache(maxsize=32)
def _resting(view: View, layers: Layers) -> tuple[Floats, Ints]:
    """Depth and code of the layers that rest, at every sample."""
    rows, columns = (SAMPLES * count for count in view.shape)
    depth = np.full((rows, columns), np.inf, dtype=np.float32)
    codes = np.full((rows, columns), NOTHING)
    for low, high in ((-1.5, layers.low), (layers.high, 1.5)):
        if low == high:
            continue
        hits = cast(
            view, layers.box(low, high), np.eye(3, dtype=np.float32), still.half_gaps(view.size)
        )
        zone = hits.zone
        if high < 1.5:
            zone = np.where(zone // PANEL == layers.axis, WALL, zone)
        nearer = hits.depth < depth
        depth = np.where(nearer, hits.depth, depth)
        codes = np.where(nearer, zone, codes)
    return depth, codes


@lru_cache(maxsize=32)
def _at_rest(view: View) -> Ints:
    """The code of every pixel of the whole cube at rest."""
    grid = np.array(still.codes(view.size, leans_left=False, from_below=False))
    columns, rows = view.margin
    framed = np.pad(grid, ((2 * rows, 2 * rows), (columns, columns)), constant_values=NOTHING)
    return np.where(framed == still.OUTSIDE, NOTHING, framed)


def _turned_names(colours: Paint, eye: Eye, layers: Layers, turned: Hits) -> list[str]:
    """What is in the zones of the three faces of the turning layers that face the eye."""
    names = []
    for axis, sign in enumerate(turned.signs):
        is_wall = axis == layers.axis and (layers.high if sign == 1 else -layers.low) < 1.5
        names += [INSIDE] * PANEL if is_wall else panel(colours, eye, axis, sign)
    return names


def _inks(names: list[str], look: Look, layers: Layers, rotation: Floats) -> list[Ink]:
    """The ink of every code; a turned face is lit by how far it looks along each axis."""
    palette = look.palette
    inks = [palette.inks[name][i // PANEL] for i, name in enumerate(names[:TURNING])]
    for axis in range(3):
        x, y, z = (float(share) for share in rotation[:, axis] ** 2)
        face = names[TURNING + PANEL * axis : TURNING + PANEL * (axis + 1)]
        lit = {name: palette.mixed(name, (x, y, z)) for name in set(face)}
        inks += [lit[name] for name in face]
    return [*inks, palette.inks[INSIDE][layers.axis], None]


def _pack(ink: Ink) -> int:
    """An ink as one number: -1 for the terminal's own."""
    if ink is None:
        return -1
    return ink if isinstance(ink, int) else ink[0] << 16 | ink[1] << 8 | ink[2]


def _unpack(number: int, depth: Depth) -> Ink:
    if number < 0:
        return None
    return (number >> 16, number >> 8 & 255, number & 255) if depth == "true" else number


@lru_cache(maxsize=4096)
def _cell(upper: int, lower: int, depth: Depth) -> Run:
    """The cell of two packed inks."""
    return half_cells(_unpack(upper, depth), _unpack(lower, depth))


def _blocks(samples: NDArray[T]) -> NDArray[T]:
    """Samples as (pixel row, row in the pixel, pixel column, column in the pixel)."""
    rows, columns = samples.shape
    return samples.reshape(rows // SAMPLES, SAMPLES, columns // SAMPLES, SAMPLES)


def _mean(codes: Ints, packed: Ints) -> Ints:
    """The mean colour of each pixel's samples; the terminal's own where most show nothing."""
    red, green, blue = packed >> 16 & 255, packed >> 8 & 255, packed & 255
    fields = np.where(packed < 0, 0, red << 48 | green << 32 | blue << 16 | 1)
    sums = fields[_blocks(codes)].sum(axis=(1, 3))  # four sums of nine in one, 16 bits each
    count = sums & 0xFFFF
    parts = (
        ((sums >> shift & 0xFFFF) + count // 2) // np.maximum(count, 1) for shift in (48, 32, 16)
    )
    red, green, blue = parts
    return np.where(2 * count > SAMPLES**2, red << 16 | green << 8 | blue, -1)


def _most_seen(codes: Ints, packed: Ints) -> Ints:
    """The ink of most of each pixel's samples, the middle one's where they are even."""
    rows, columns = (count // SAMPLES for count in codes.shape)
    nine = packed[_blocks(codes)].transpose(1, 3, 0, 2).reshape(SAMPLES**2, rows, columns)
    nine = np.roll(nine, -(SAMPLES**2 // 2), axis=0)
    seen: Ints = nine[0].copy()
    differ = (nine != seen).any(axis=0)
    mixed = nine[:, differ]
    votes = (mixed[:, np.newaxis] == mixed).sum(axis=1)
    seen[differ] = mixed[votes.argmax(axis=0), np.arange(mixed.shape[1])]
    return seen


def _as_seen(pixels: NDArray[T], eye: Eye) -> NDArray[T]:
    """Pixels worked out with the side on the right and the cap above, mirrored as the eye sees."""
    across, down = -1 if eye.leans_left else 1, -1 if eye.from_below else 1
    return pixels[::down, ::across]


def _resting_letters(rests: Bools, eye: Eye, look: Look) -> dict[tuple[int, int], int]:
    """Cell -> code of the resting sticker named there. rests: the pixels that are as at rest."""
    columns, rows = look.margin
    cells = still.letter_cells(look.size, eye.leans_left, eye.from_below)
    shifted = {(y + rows, x + columns): code for (y, x), code in cells.items()}
    return {(y, x): code for (y, x), code in shifted.items() if rests[2 * y : 2 * y + 2, x].all()}


def _turned_letters(
    centres: Ints, eye: Eye, look: Look, signs: tuple[int, int, int], rotation: Floats
) -> dict[tuple[int, int], int]:
    """Cell at a turned sticker's middle -> its code, where both pixels show it."""
    height, width = centres.shape
    cells = {}
    for axis, n in product(range(3), range(9)):
        point = [n // 3 - 1.0, n % 3 - 1.0]
        point.insert(axis, 1.5 * signs[axis])
        x, y, z = rotation @ np.array(point)
        depth = (1.5 - z) * look.size / 2
        column = (x + 1.5) * look.size + depth + look.margin[0]
        row = (3 - y) * look.size - depth + 2 * look.margin[1]
        at = round(width - 1 - column if eye.leans_left else column)
        line = math.floor((height - 0.5 - row if eye.from_below else row + 0.5) / 2)
        code = TURNING + PANEL * axis + sticker_zone(n)
        is_inside = 0 <= at < width and 0 <= 2 * line < height
        if is_inside and (centres[2 * line : 2 * line + 2, at] == code).all():
            cells[line, at] = code
    return cells


def _rows(shown: Ints, letters: dict[tuple[int, int], Run], look: Look) -> Picture:
    """The picture of packed inks, one for each pixel."""
    upper, lower = shown[0::2], shown[1::2]
    changed = np.ones(upper.shape, dtype=bool)
    changed[:, 1:] = (upper[:, 1:] != upper[:, :-1]) | (lower[:, 1:] != lower[:, :-1])
    for y, x in letters:
        changed[y, x : x + 2] = True
    starts = np.flatnonzero(changed)
    counts = np.diff(starts, append=changed.size).tolist()
    columns = shown.shape[1]
    rows: list[list[Run]] = [[] for _ in changed]
    above, below = (half.ravel()[starts].tolist() for half in (upper, lower))
    for start, count, up, down in zip(starts.tolist(), counts, above, below, strict=True):
        at = divmod(start, columns)
        text, fg, bg, _ = letters.get(at) or _cell(up, down, look.depth)
        rows[at[0]].append(Run(text * count, fg, bg))
    return tuple(map(merged, rows))
