"""The unfolded drawing: letters where stickers are, nothing that a plain terminal cannot show."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import sticker
from game.cube.moves import parse_line
from game.draw.cells import row_width
from game.draw.depth import DEPTHS, Depth
from game.draw.flat import blocks, draw_flat, flat_axis_at, sticker_cells
from game.draw.look import SIZES, Eye, Look, Style, far_eye, near_eye
from game.draw.panel import focus_grey, paint
from game.draw.still import extent
from tests.draw.pixels import letters_of, text_of
from tests.draw.test_panel import eyes
from tests.strategies import cubes

NONE: frozenset[int] = frozenset()
PLAIN = Look(depth="none")


def text(cube: Cube, eye: Eye, grey: frozenset[int] = NONE, joined: tuple[str, ...] = ()) -> str:
    return text_of(draw_flat(paint(cube, PLAIN, grey, joined), eye, PLAIN))


def test_the_player_sees_front_top_and_right_unfolded() -> None:
    """R F: green's right column was white and has turned clockwise with the front, and so on.

    Worked out by hand from the two turns: R brings white to the front's right column, green to
    the top's, yellow to the back's; F then moves the top's row nearest to the front to the right
    side, and the left side's nearest column to the top.
    """
    assert text(SOLVED.turn(parse_line("R F")), near_eye("right")) == "\n".join(
        [
            "top",
            "Y Y G",
            "Y Y G",
            "R R R",
            "front   right",
            "G G G   Y O O",
            "G G G   Y O O",
            "W W W   G O O",
        ]
    )


def test_leaning_left_the_left_side_stands_on_the_left() -> None:
    """L' brings white to the front's left column and green to the top's; red stays red."""
    assert text(SOLVED.turn(parse_line("L'")), near_eye("left")) == "\n".join(
        [
            "        top",
            "        G Y Y",
            "        G Y Y",
            "        G Y Y",
            "left    front",
            "R R R   W G G",
            "R R R   W G G",
            "R R R   W G G",
        ]
    )


def test_the_far_side_from_below_has_the_bottom_under_the_back() -> None:
    """B: seen from behind, the bottom's row next to the back has taken the left side's colour."""
    assert text(SOLVED.turn(parse_line("B")), far_eye("right", from_below=True)) == "\n".join(
        [
            "back    left",
            "B B B   Y R R",
            "B B B   Y R R",
            "B B B   Y R R",
            "bottom",
            "R R R",
            "W W W",
            "W W W",
        ]
    )


def test_the_far_sides_own_rows_stand_upright() -> None:
    """U: the top row of the back has come from the left, that of the left from the front."""
    assert text(SOLVED.turn(parse_line("U")), far_eye("right", from_below=True)) == "\n".join(
        [
            "back    left",
            "R R R   G G G",
            "B B B   R R R",
            "B B B   R R R",
            "bottom",
            "W W W",
            "W W W",
            "W W W",
        ]
    )


def test_grey_is_a_dot_and_a_joined_pair_is_marked() -> None:
    """In focus, a solved slot FR: its two stickers on each side are joined."""
    shown = text(SOLVED, near_eye("right"), focus_grey(["FR"]), ("FR",))
    assert shown == "\n".join(
        [
            "top",
            ". . .",
            ". Y .",
            ". . .",
            "front   right",
            ". . .   . . .",
            ". G G*  O*O .",
            ". G G*  O*O .",
        ]
    )


@given(cubes(), eyes, st.sampled_from(SIZES), st.sampled_from(DEPTHS))
def test_only_spaces_and_letters_are_drawn(cube: Cube, eye: Eye, size: int, depth: Depth) -> None:
    """No half blocks, boxes or arrows at any size or depth."""
    look = Look(size=size, depth=depth, style="flat")
    picture = draw_flat(paint(cube, look, NONE, ("FR",)), eye, look)
    assert text_of(picture).isascii()
    assert len({row_width(row) for row in picture}) == 1


@pytest.mark.parametrize(
    ("depth", "style"), [("none", "cube"), ("none", "flat"), ("true", "plain")]
)
def test_plain_is_text_alone(depth: Depth, style: Style) -> None:
    """No colour and no weight: the same characters without any style."""
    look = Look(depth=depth, style=style)
    picture = draw_flat(paint(SOLVED, look, NONE, ("FR",)), near_eye("right"), look)
    assert all(run.fg is run.bg is None and not run.bold for row in picture for run in row)


@pytest.mark.parametrize("size", [s for s in SIZES if s >= 4])
def test_it_takes_no_more_room_than_the_other_drawing(size: int) -> None:
    """So that a layout made for one serves both."""
    for style in ("flat", "plain"):
        look = Look(size=size, style=style)
        picture = draw_flat(paint(SOLVED, look, NONE, ()), near_eye("right"), look)
        columns, rows = extent(size)
        assert row_width(picture[0]) <= columns
        assert len(picture) <= rows


def test_the_smallest_goes_without_names_to_fit_in_height() -> None:
    """Six rows, as the smallest cube has."""
    look = Look(size=2, style="flat")
    picture = draw_flat(paint(SOLVED, look, NONE, ()), near_eye("right"), look)
    assert len(picture) == extent(2)[1]
    assert "front" not in text_of(picture)


@given(cubes(), eyes, st.sampled_from([4, 8, 12]))
def test_every_sticker_has_its_colour_and_its_letter(cube: Cube, eye: Eye, size: int) -> None:
    """Twenty-seven letters, each on the ground that it names."""
    look = Look(size=size, style="flat")
    colours = paint(cube, look, NONE, ())
    picture = draw_flat(colours, eye, look)
    letter_row = (sticker_cells(look)[1] - 1) // 2
    tops = {block.top for block in blocks(eye, look)}
    rows = {top + n * sticker_cells(look)[1] + letter_row for top in tops for n in range(3)}
    letters = {at: c for at, c in letters_of(picture).items() if at[0] in rows}
    assert len(letters) == 27
    grounds = {}
    for y, row in enumerate(picture):
        x = 0
        for run in row:
            grounds |= {(y, x + i): run.bg for i in range(len(run.text))}
            x += len(run.text)
    for at, letter in letters.items():
        name = next(name for name in look.scheme.values() if name[0].upper() == letter)
        assert grounds[at] in look.palette.inks[name]


def test_neighbours_of_one_colour_are_lit_differently() -> None:
    """In true colour, stickers side by side are told apart without a gap."""
    look = Look(size=8, style="flat")
    picture = draw_flat(paint(SOLVED, look, NONE, ()), near_eye("right"), look)
    front = [run.bg for run in picture[-1] if run.bg is not None]
    assert len(front) == 6
    assert all(a != b for a, b in pairwise(front))


@given(eyes, st.sampled_from([2, 4, 8]), st.sampled_from(["flat", "plain"]))
def test_a_cell_belongs_to_the_face_it_shows(eye: Eye, size: int, style: Style) -> None:
    """Three faces of nine stickers; names and gaps belong to none."""
    look = Look(size=size, style=style)
    columns, rows = sticker_cells(look)
    found = [
        flat_axis_at(eye, look, x, y)
        for y, x in product(range(-1, 9 * rows + 9), range(-1, 9 * columns + 9))
    ]
    assert [found.count(axis) for axis in range(3)] == [9 * columns * rows] * 3


def test_a_sticker_of_the_front_is_where_it_is_read() -> None:
    """The front's stickers in reading order, row by row."""
    look = Look(depth="none")
    for row, column in product(range(3), range(3)):
        colours = paint(SOLVED, look, frozenset([sticker("F", row, column)]), ())
        picture = draw_flat(colours, near_eye("right"), look)
        assert letters_of(picture)[5 + row, 2 * column] == "."
