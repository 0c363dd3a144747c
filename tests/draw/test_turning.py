"""A turning layer: it starts and ends at the pictures at rest, and in between it is where geometry
puts it, before or behind the rest as it must be."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import CENTRES, NORMAL, STICKERS, sticker
from game.cube.moves import MOVES, Move, parse_line, parse_move
from game.draw.cells import row_width
from game.draw.depth import Depth
from game.draw.look import Eye, Lean, Look, Turning, far_eye, near_eye
from game.draw.palette import GREY, INSIDE, PALETTES, PLASTIC
from game.draw.panel import PANEL, Paint, paint
from game.draw.still import codes, draw_still, extent, is_sticker
from game.draw.turning import draw_turning
from tests.draw.pixels import letters_of, pixels_of
from tests.draw.test_panel import EYES, eyes
from tests.strategies import cubes, moves

Floats = NDArray[np.float64]
NONE: frozenset[int] = frozenset()
FRONT = 2
"""The axis of the front."""
FEW: tuple[Depth, ...] = ("256", "16")
CUBE = SOLVED.turn(parse_line("R U F' L2 D B R' U2"))


def colours_of(cube: Cube) -> Paint:
    return paint(cube, Look(), NONE, ())


def inner_pixels(size: int, eye: Eye) -> list[tuple[int, int]]:
    """Pixels of stickers all of whose neighbours are of the same sticker; on the front all."""
    grid = codes(size, eye.leans_left, eye.from_below)
    steps = list(product((-1, 0, 1), repeat=2))
    return [
        (y, x)
        for y in range(1, len(grid) - 1)
        for x in range(1, len(grid[0]) - 1)
        if is_sticker(grid[y][x])
        and (grid[y][x] // PANEL == FRONT or len({grid[y + dy][x + dx] for dy, dx in steps}) == 1)
    ]


@pytest.mark.parametrize(
    ("name", "depth"),
    [(name, "true") for name in MOVES] + [(face, depth) for face in "FBRLUD" for depth in FEW],
)
def test_a_turn_starts_and_ends_at_rest(name: str, depth: Depth) -> None:
    """Just after its start and just before its end every sticker has its colour."""
    move = parse_move(name)
    look = Look(size=8, depth=depth)
    eye = EYES[sorted(MOVES).index(name) % len(EYES)]
    inner = inner_pixels(8, eye)
    assert len({codes(8, eye.leans_left, eye.from_below)[y][x] for y, x in inner}) == 27
    for fraction, cube in ((1e-4, CUBE), (1 - 1e-4, CUBE.turn([move]))):
        frame = pixels_of(draw_turning(colours_of(CUBE), eye, look, Turning(move, fraction)))
        rest = pixels_of(draw_still(colours_of(cube), eye, look))
        assert [frame[y][x] for y, x in inner] == [rest[y][x] for y, x in inner]


def turned(points: Floats, move: Move, fraction: float) -> Floats:
    """Where a turn takes points, by SciPy's rotations."""
    quarters = -1 if move.quarters == 3 else move.quarters
    angle = quarters * fraction * math.pi / 2
    return Rotation.from_rotvec(-angle * np.eye(3)[move.axis]).apply(points)  # clockwise


def pixel(point: Floats, size: int, eye: Eye, margin: int) -> tuple[int, int]:
    """The pixel (row, column) that shows a point (in stickers, from the middle of the cube)."""
    x, y, z = np.array(eye.axes) @ point
    right, down, depth = x + 1.5, 1.5 - y, 1.5 - z
    column = round(size * (right + depth / 2))
    row = round(size * (1.5 + down - depth / 2))
    columns, rows = extent(size)
    column = columns - 1 - column if eye.leans_left else column
    row = 2 * rows - 1 - row if eye.from_below else row
    return row + 2 * margin, column + margin


@pytest.mark.parametrize("fraction", [0.3, 0.8])
@pytest.mark.parametrize("suffix", ["", "'", "2"])
@pytest.mark.parametrize("face", "FRULBD")
def test_a_turned_sticker_is_where_geometry_puts_it(
    face: str, suffix: str, fraction: float
) -> None:
    """Each sticker of a face that turns in its own plane, one grey at a time."""
    eye = next(eye for eye in EYES if face in eye)
    move, size, margin = parse_move(face + suffix), 8, 6
    look = Look(size=size, depth="16", margin=(margin, margin))
    grey = PALETTES["16"].inks[GREY][0]
    for row, column in product(range(3), range(3)):
        marked = sticker(face, row, column)
        colours = paint(SOLVED, look, frozenset([marked]), ())
        place = np.array(STICKERS[marked].place) + 0.5 * np.array(NORMAL[face])
        y, x = pixel(turned(place, move, fraction), size, eye, margin)
        frame = pixels_of(draw_turning(colours, eye, look, Turning(move, fraction)))
        assert frame[y][x] == grey


def seen_by_marching(
    eye: Eye, move: Move, fraction: float, size: int
) -> tuple[NDArray[np.int_], NDArray[np.bool_]]:
    """Which place's sticker each sample shows: -1 none, -2 a wall; and where that is certain.

    Independent of planes and boxes: along each ray, in small steps from the eye, the first point
    that lies in any of the 26 pieces; its face is the nearest. Near a piece's edge or a gap that
    is not certain.
    """
    columns, rows = extent(size)
    column, row = np.meshgrid(np.arange(columns * 3), np.arange(rows * 6))
    column, row = (column - 1) / 3, (row - 1) / 3
    to_world = np.array(eye.axes).T
    step = 1 / 32
    shown = np.full(column.shape, -1)
    certain = np.ones(column.shape, dtype=bool)
    open_rays = np.ones(column.shape, dtype=bool)
    for depth in np.arange(-1.5, 4.5, step):  # in stickers, 0 at the front
        y, x = np.nonzero(open_rays)
        across, up = column[y, x] / size - depth / 2 - 1.5, 3 - row[y, x] / size - depth / 2
        point = np.stack([across, up, np.full(len(y), 1.5 - depth)], axis=1) @ to_world.T
        for is_turned in (True, False):
            own = turned(point, move, -fraction) if is_turned else point
            near = np.abs(own).max(axis=1) <= 1.5
            layer = np.clip(np.round(own), -1, 1)
            moves_too = np.isin(layer[:, move.axis], list(move.layers))
            hit = near & (moves_too == is_turned) & open_rays[y, x]
            place, sure = nearest_sticker(own[hit], layer[hit])
            shown[y[hit], x[hit]] = place
            certain[y[hit], x[hit]] = sure
            open_rays[y[hit], x[hit]] = False
    return shown, certain


def nearest_sticker(points: Floats, pieces: Floats) -> tuple[NDArray[np.int_], NDArray[np.bool_]]:
    """The place whose sticker points just inside pieces are at, and where that is certain."""
    local = points - pieces
    away = 0.5 - np.abs(local)
    order = np.argsort(away, axis=1)
    axis = order[:, 0]
    least, second = (np.take_along_axis(away, order[:, i : i + 1], axis=1)[:, 0] for i in (0, 1))
    rows = np.arange(len(points))
    sign = np.sign(local[rows, axis])
    index = {(s.place, s.normal): i for i, s in enumerate(STICKERS)}
    found = []
    for n, piece in enumerate(pieces.astype(int).tolist()):
        normal = [0, 0, 0]
        normal[axis[n]] = int(sign[n])
        found.append(index.get((tuple(piece), tuple(normal)), -2))
    return np.array(found), (second > 0.2) & (least < 0.1)


@pytest.mark.parametrize(
    ("name", "fraction", "lean"),
    [
        ("R", 0.35, "right"),
        ("U'", 0.6, "left"),
        ("F", 0.5, "right"),
        ("M", 0.3, "left"),
        ("x", 0.7, "right"),
        ("Dw2", 0.4, "left"),
        ("B'", 0.25, "right"),
    ],
)
def test_the_nearest_piece_is_seen(name: str, fraction: float, lean: Lean) -> None:
    """Hidden surfaces against a march along each ray, wherever all samples of a pixel agree."""
    size, move, eye = 8, parse_move(name), near_eye(lean)
    look = Look(size=size, depth="16")
    shown, certain = seen_by_marching(eye, move, fraction, size)
    inks = look.palette.inks
    colours = colours_of(CUBE)
    wanted = {-1: None, -2: inks[INSIDE][0]} | {
        place: inks[name][0] for place, name in enumerate(colours.names)
    }
    frame = pixels_of(draw_turning(colours, eye, look, Turning(move, fraction)))
    frame = [row[::-1] for row in frame] if eye.leans_left else frame
    compared = {"sticker": 0, "wall": 0, "nothing": 0}
    for y, x in product(range(len(frame)), range(len(frame[0]))):
        samples = shown[3 * y : 3 * y + 3, 3 * x : 3 * x + 3]
        if not certain[3 * y : 3 * y + 3, 3 * x : 3 * x + 3].all() or len(np.unique(samples)) > 1:
            continue
        place = int(samples[0, 0])
        compared[{-1: "nothing", -2: "wall"}.get(place, "sticker")] += 1
        assert frame[y][x] == wanted[place], (y, x)
    assert compared["sticker"] > 150
    assert compared["nothing"] > 100


@pytest.mark.parametrize(("name", "fraction"), [("R", 0.35), ("U'", 0.6), ("z", 0.5)])
@pytest.mark.parametrize("depth", ["true", "16"])
def test_the_cube_ends_where_most_samples_see_nothing(
    name: str, fraction: float, depth: Depth
) -> None:
    """A pixel that shows the cube in three samples of nine is empty, in six it is not."""
    size, move, eye = 8, parse_move(name), near_eye("right")
    shown, _ = seen_by_marching(eye, move, fraction, size)
    look = Look(size=size, depth=depth)
    frame = pixels_of(draw_turning(colours_of(CUBE), eye, look, Turning(move, fraction)))
    counts = (shown != -1).reshape(len(frame), 3, -1, 3).sum(axis=(1, 3))
    assert ((counts > 0) & (counts <= 3)).sum() > 3
    for y, x in product(range(len(frame)), range(len(frame[0]))):
        if counts[y, x] <= 3:
            assert frame[y][x] is None
        if counts[y, x] >= 6:
            assert frame[y][x] is not None


def test_what_does_not_turn_does_not_stir() -> None:
    """While R turns, the front's left column keeps every pixel it has at rest."""
    look = Look(size=12)
    eye = near_eye("right")
    rest = pixels_of(draw_still(colours_of(CUBE), eye, look))
    for fraction in (0.1, 0.5, 0.9):
        frame = pixels_of(draw_turning(colours_of(CUBE), eye, look, Turning(MOVES["R"], fraction)))
        assert [row[:13] for row in frame[18:]] == [row[:13] for row in rest[18:]]


@given(cubes(), moves, st.floats(0.01, 0.99), eyes, st.sampled_from(["true", "256", "16"]))
def test_a_frame_has_the_size_of_the_picture_at_rest(
    cube: Cube, move: Move, fraction: float, eye: Eye, depth: Depth
) -> None:
    """For any cube, move, moment and eye; and only inks of its depth."""
    look = Look(size=6, depth=depth, margin=(2, 1), letters=True)
    picture = draw_turning(colours_of(cube), eye, look, Turning(move, fraction))
    columns, rows = extent(6)
    assert len(picture) == rows + 2
    assert {row_width(row) for row in picture} == {columns + 4}
    kind = tuple if depth == "true" else int
    inks = {ink for row in pixels_of(picture) for ink in row}
    assert all(ink is None or isinstance(ink, kind) for ink in inks)


@pytest.mark.parametrize("depth", FEW)
def test_with_few_colours_no_ink_is_blended(depth: Depth) -> None:
    """A pixel takes the ink that most of its samples have: only inks of the palette appear."""
    look = Look(size=8, depth=depth)
    known = {ink for inks in look.palette.inks.values() for ink in inks} | {None}
    for name, fraction in product(("R", "U2", "F'", "y"), (0.3, 0.7)):
        turning = Turning(parse_move(name), fraction)
        frame = pixels_of(draw_turning(colours_of(CUBE), near_eye("right"), look, turning))
        assert {ink for row in frame for ink in row} <= known


def test_letters_ride_on_the_turning_stickers() -> None:
    """While U2 turns, all nine letters of the top show, and those of the layers below."""
    look = Look(size=12, letters=True, margin=(8, 4))
    turning = Turning(MOVES["U2"], 0.3)
    frame = draw_turning(colours_of(SOLVED), near_eye("right"), look, turning)
    letters = list(letters_of(frame).values())
    assert letters.count("Y") == 9
    assert letters.count("G") >= 6
    assert letters.count("O") >= 6


@given(st.sampled_from(EYES), moves, st.floats(0.02, 0.98))
def test_a_letter_stands_on_its_own_colour(eye: Eye, move: Move, fraction: float) -> None:
    """At any moment, both pixels under a letter have the colour that it names."""
    look = Look(size=8, depth="16", margin=(5, 2))
    frame = draw_turning(colours_of(CUBE), eye, look, Turning(move, fraction))
    names = {name[0].upper(): name for name in look.scheme.values()}
    grid = pixels_of(frame)
    for (row, column), letter in letters_of(frame).items():
        ink = look.palette.inks[names[letter]][0]
        assert grid[2 * row][column] == grid[2 * row + 1][column] == ink


def test_a_joined_pair_turns_as_one() -> None:
    """While the whole cube turns, fewer pixels are plastic when the gap of a pair is closed."""
    look = Look(size=12, depth="16", margin=(8, 4))
    turning = Turning(MOVES["y"], 0.4)
    dark = look.palette.inks[PLASTIC][0]

    def plastic(joined: tuple[str, ...]) -> int:
        colours = paint(SOLVED, look, NONE, joined)
        frame = pixels_of(draw_turning(colours, near_eye("right"), look, turning))
        return sum(row.count(dark) for row in frame)

    assert plastic(()) - plastic(("FR",)) > 12
    assert plastic(()) - plastic(("BL",)) == 0  # not in view then


def test_grey_turns_with_its_layer() -> None:
    """A cube all grey but its centres shows no other colour at any moment."""
    look = Look(size=8, depth="16")
    colours = paint(CUBE, look, frozenset(range(54)) - set(CENTRES.values()), ())
    inks = look.palette.inks
    centres = {inks[name][0] for name in look.scheme.values()}
    frame = pixels_of(draw_turning(colours, far_eye("left", True), look, Turning(MOVES["B"], 0.5)))
    seen = {ink for row in frame for ink in row}
    assert seen <= centres | {None, inks[GREY][0], inks[PLASTIC][0], inks[INSIDE][0]}
    assert inks[GREY][0] in seen
