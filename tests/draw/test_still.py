"""The cube at rest: crisp, exact to the pixel, and the same cube however it leans."""

from __future__ import annotations

from collections import Counter, defaultdict
from fractions import Fraction
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import STICKERS, dot, sticker
from game.draw.cells import row_width
from game.draw.look import SIZES, Eye, Look, far_eye, near_eye
from game.draw.palette import GREY, LETTER, PALETTES, PLASTIC
from game.draw.panel import Paint, face_places, paint, sticker_zone
from game.draw.still import (
    OUTSIDE,
    PANEL,
    axis_at,
    codes,
    draw_still,
    extent,
    is_sticker,
)
from tests.draw.pixels import letters_of, pixels_of
from tests.draw.test_panel import EYES, eyes
from tests.strategies import cubes

sizes = st.sampled_from(SIZES)
NONE: frozenset[int] = frozenset()
MIRRORS = list(product([False, True], repeat=2))


def stickers_of(
    size: int, leans_left: bool = False, from_below: bool = False
) -> dict[int, set[tuple[int, int]]]:
    """Code of each sticker -> its pixels as (row, column)."""
    found = defaultdict(set)
    for y, row in enumerate(codes(size, leans_left, from_below)):
        for x, code in enumerate(row):
            if code != OUTSIDE and is_sticker(code):
                found[code].add((y, x))
    return found


@pytest.mark.parametrize(("size", "cells"), [(4, (20, 10)), (8, (38, 19)), (12, (56, 28))])
def test_known_sizes_fill_known_cells(size: int, cells: tuple[int, int]) -> None:
    """The sizes the screens are laid out for."""
    assert extent(size) == cells


@pytest.mark.parametrize("size", SIZES)
def test_the_picture_is_three_fronts_three_depths_and_two_pixels(size: int) -> None:
    """3S + 3S/2 + 2 pixels wide and high, the height rounded up to whole cells."""
    pixels = 3 * size + 3 * size // 2 + 2
    assert extent(size) == (pixels, -(-pixels // 2))


@pytest.mark.parametrize("size", SIZES)
def test_twenty_seven_stickers_of_the_expected_area(size: int) -> None:
    """Nine on each face; a gap takes one pixel across and one along, where there is room for it."""
    fine, deep = size - (size >= 4), size // 2 - (size >= 6)
    areas = {0: fine * deep, 1: fine * deep, 2: fine * fine}
    found = stickers_of(size)
    assert Counter(code // PANEL for code in found) == {0: 9, 1: 9, 2: 9}
    assert {code: len(pixels) for code, pixels in found.items()} == {
        code: areas[code // PANEL] for code in found
    }


@pytest.mark.parametrize("size", SIZES)
def test_every_sticker_is_a_solid_parallelogram(size: int) -> None:
    """Fronts are squares; on the cap each row lies one to the right of the row below it; on the
    side each column lies one above the column before."""
    for code, pixels in stickers_of(size).items():
        lines = defaultdict(set)
        for y, x in pixels:
            lines[x if code < PANEL else y].add(y if code < PANEL else x)
        assert sorted(lines) == list(range(min(lines), max(lines) + 1))
        spans = [(min(lines[at]), max(lines[at])) for at in sorted(lines)]
        assert all(
            len(lines[at]) == b - a + 1 for at, (a, b) in zip(sorted(lines), spans, strict=True)
        )
        shift = 0 if code // PANEL == 2 else -1
        assert all((a + shift, b + shift) == (c, d) for (a, b), (c, d) in pairwise(spans))


@pytest.mark.parametrize("size", [6, 8, 12])
def test_each_pixel_shows_what_a_line_of_sight_meets(size: int) -> None:
    """Against an independent method: where the line through a pixel's centre enters the cube.

    With exact fractions: the line through (u, v) on the plane of the front meets the planes of
    the front (z = 0), the cap (y = 0) and the side (x = 3); within half a pixel of a sticker's
    edge there is plastic.
    """
    three, half = Fraction(3), Fraction(1, 2)
    grid = codes(size, leans_left=False, from_below=False)
    for row, column in product(range(len(grid)), range(len(grid[0]))):
        across, down = Fraction(column, size), Fraction(row, size) - 3 * half
        # one step into the depth z moves half a step right and half a step up
        meets = [
            (2, across, 3 - down, three, (across, down)),
            (1, across + 2 * down / 2, three, 3 + 2 * down, (across + down, -2 * down)),
            (
                0,
                three,
                3 - (down + across - 3),
                3 - 2 * (across - 3),
                (down + across - 3, 2 * (across - 3)),
            ),
        ]
        inside = [
            (axis, (x, y, z)) for axis, x, y, z, along in meets if all(0 <= a <= 3 for a in along)
        ]
        code = grid[row][column]
        if not inside:
            assert code == OUTSIDE
            continue
        point = inside[0][1]
        axis = inside[0][0]
        margins = (half / size, half / size, Fraction(1, size))
        flat = [i for i in range(3) if i != axis]
        cells = [min(2, int(point[i])) for i in flat]
        on_sticker = all(
            margins[i] < point[i] - cell < 1 - margins[i]
            for i, cell in zip(flat, cells, strict=True)
        )
        assert is_sticker(code) == on_sticker
        if on_sticker:
            assert code == PANEL * axis + sticker_zone(3 * cells[0] + cells[1])


@pytest.mark.parametrize(("leans_left", "from_below"), MIRRORS)
@pytest.mark.parametrize("size", SIZES)
def test_other_views_are_mirror_images(size: int, leans_left: bool, from_below: bool) -> None:
    """Leaning left mirrors the columns, seen from below the rows; cells stay whole."""
    plain = codes(size, leans_left=False, from_below=False)
    seen = codes(size, leans_left, from_below)
    for y, row in enumerate(seen):
        for x, code in enumerate(row):
            across = len(row) - 1 - x if leans_left else x
            assert code == plain[len(seen) - 1 - y if from_below else y][across]


def middle(place: int, size: int, eye: Eye) -> tuple[int, int]:
    """A pixel (row, column) well inside the sticker at a place, by the projection alone."""
    x, y, z = (dot(axis, STICKERS[place].place) for axis in eye.axes)
    normal = [dot(axis, STICKERS[place].normal) for axis in eye.axes]
    right = Fraction(2 * x + 3 + normal[0], 2)
    down = Fraction(3 - 2 * y - normal[1], 2)
    depth = Fraction(3 - 2 * z - normal[2], 2)
    columns, rows = extent(size)
    column = int(size * (right + depth / 2))
    row = int(size * (Fraction(3, 2) + down - depth / 2))
    return (
        2 * rows - 1 - row if eye.from_below else row,
        columns - 1 - column if eye.leans_left else column,
    )


@given(cubes(), eyes, st.sampled_from([s for s in SIZES if s >= 6]))
def test_every_sticker_in_view_has_its_colour(cube: Cube, eye: Eye, size: int) -> None:
    """All 27 places of the three faces, in any grip, from every eye."""
    look = Look(size=size)
    colours = paint(cube, look, NONE, ())
    pixels = pixels_of(draw_still(colours, eye, look))
    for axis in range(3):
        for place in face_places(eye, axis, 1):
            y, x = middle(place, size, eye)
            assert pixels[y][x] == look.palette.inks[colours.names[place]][axis]


NEIGHBOURS = [(n, n + 1) for n in range(9) if n % 3 < 2] + [(n, n + 3) for n in range(6)]
"""The stickers of a face that lie above each other, then those that lie side by side."""


@given(eyes, sizes, st.sampled_from(NEIGHBOURS))
def test_a_joined_gap_closes_and_nothing_else_changes(
    eye: Eye, size: int, neighbours: tuple[int, int]
) -> None:
    """Between two neighbours on a face, exactly the line of pixels between them changes."""
    names = tuple("white" for _ in range(54))
    axis = 2
    a, b = (face_places(eye, axis, 1)[n] for n in neighbours)
    upright = neighbours[1] == neighbours[0] + 1
    look = Look(size=size)
    before = pixels_of(draw_still(Paint(names, frozenset()), eye, look))
    after = pixels_of(draw_still(Paint(names, frozenset({(a, b), (b, a)})), eye, look))
    changed = [
        (y, x)
        for y, (old, new) in enumerate(zip(before, after, strict=True))
        for x in range(len(old))
        if old[x] != new[x]
    ]
    length = size - 1 if size >= 4 else 0
    assert len(changed) == length
    assert len({at[0] if upright else at[1] for at in changed}) == min(1, length)
    assert {before[y][x] for y, x in changed} <= {look.palette.inks[PLASTIC][axis]}
    assert {after[y][x] for y, x in changed} <= {look.palette.inks["white"][axis]}


@pytest.mark.parametrize("eye", EYES)
@pytest.mark.parametrize("size", [4, 6, 8, 10])
def test_each_sticker_carries_its_letter_once(size: int, eye: Eye) -> None:
    """Letters stand on their own sticker, 27 of them at every size from 4 on."""
    letter = dict(zip(range(6), LETTER.values(), strict=True))
    names = list(LETTER)
    for axis in range(3):
        for place in face_places(eye, axis, 1):
            cube_names = [GREY] * 54
            cube_names[place] = names[place % 6]
            look = Look(size=size, letters=True)
            picture = draw_still(Paint(tuple(cube_names), frozenset()), eye, look)
            found = letters_of(picture)
            assert list(found.values()) == [letter[place % 6]]
            (row, column), ground = next(iter(found)), look.palette.inks[names[place % 6]][axis]
            grid = pixels_of(picture)
            assert grid[2 * row][column] == grid[2 * row + 1][column] == ground


@pytest.mark.parametrize("size", [4, 8, 10, 12, 14])
def test_letters_leave_the_pixels_alone(size: int) -> None:
    """With whole cells to stand on, a letter changes no colour around it."""
    colours = paint(SOLVED, Look(), NONE, ())
    for eye in EYES:
        bare = draw_still(colours, eye, Look(size=size))
        lettered = draw_still(colours, eye, Look(size=size, letters=True))
        assert pixels_of(bare) == pixels_of(lettered)
        assert not letters_of(bare)
        assert len(letters_of(lettered)) == 27


@given(sizes, eyes, st.tuples(st.integers(0, 9), st.integers(0, 9)))
def test_a_margin_surrounds_the_same_picture(size: int, eye: Eye, margin: tuple[int, int]) -> None:
    """It adds empty columns and rows on all sides."""
    colours = paint(SOLVED, Look(), NONE, ())
    bare = pixels_of(draw_still(colours, eye, Look(size=size)))
    framed = draw_still(colours, eye, Look(size=size, margin=margin))
    columns, rows = extent(size)
    assert len(framed) == rows + 2 * margin[1]
    assert {row_width(row) for row in framed} == {columns + 2 * margin[0]}
    empty = [None] * (columns + 2 * margin[0])
    side = [None] * margin[0]
    expected = [empty] * (2 * margin[1]) + [side + row + side for row in bare]
    assert pixels_of(framed) == expected + [empty] * (2 * margin[1])


@pytest.mark.parametrize("eye", EYES)
def test_every_cell_of_the_cube_belongs_to_a_face(eye: Eye) -> None:
    """A cell is of the face of one of its pixels, and cells beside the cube of none."""
    look = Look(size=8)
    grid = codes(8, eye.leans_left, eye.from_below)
    columns, rows = extent(8)
    for row, column in product(range(-1, rows + 1), range(-1, columns + 1)):
        axis = axis_at(eye, look, column, row)
        if 0 <= row < rows and 0 <= column < columns:
            axes = {code // PANEL for y in (0, 1) if (code := grid[2 * row + y][column]) != OUTSIDE}
            assert axis in axes if axes else axis is None
        else:
            assert axis is None


def test_views_from_the_front_and_from_behind() -> None:
    """A literal case: the solved cube from the front is green, yellow and orange; from behind and
    below it is blue, white and red."""
    inks = PALETTES["true"].inks
    for eye, names in (
        (near_eye("right"), ("orange", "yellow", "green")),
        (far_eye("right", from_below=True), ("red", "white", "blue")),
    ):
        pixels = pixels_of(draw_still(paint(SOLVED, Look(), NONE, ()), eye, Look(size=8)))
        seen = Counter(ink for row in pixels for ink in row)
        assert [seen[inks[name][axis]] for axis, name in enumerate(names)] == [
            9 * 21,
            9 * 21,
            9 * 49,
        ]
        assert set(seen) == {None, inks[PLASTIC][0], *(inks[n][a] for a, n in enumerate(names))}


def test_one_sticker_at_a_place_is_seen_from_one_of_two_sides() -> None:
    """Near and far from below share no place: 27 and 27 make 54."""
    near = {p for axis in range(3) for p in face_places(near_eye("right"), axis, 1)}
    far = {p for axis in range(3) for p in face_places(far_eye("right", from_below=True), axis, 1)}
    assert near | far == set(range(54))
    assert sticker("F", 0, 0) in near
