"""The calls that screens and commands make."""

from __future__ import annotations

import subprocess
import sys
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.colours import colour_scheme
from game.cube.cube import SOLVED, Cube
from game.cube.moves import MOVES, Move
from game.draw.depth import DEPTHS
from game.draw.drawing import draw_cube, draw_far, face_at, size_for
from game.draw.look import SIZES, Lean, Look, Style, Turning, near_eye
from game.draw.panel import focus_grey
from game.draw.still import extent
from tests.draw.pixels import letters_of, pixels_of
from tests.strategies import cubes, moves

looks = st.builds(
    Look,
    depth=st.sampled_from(DEPTHS),
    letters=st.booleans(),
    size=st.sampled_from([2, 4, 6, 8]),
    lean=st.sampled_from(["right", "left"]),
    style=st.sampled_from(["cube", "flat", "plain"]),
    margin=st.sampled_from([(0, 0), (3, 2)]),
)


@given(cubes(), looks, moves, st.floats(-0.5, 1.5), st.booleans())
def test_any_cube_can_be_drawn_in_any_look(
    cube: Cube, look: Look, move: Move, fraction: float, from_below: bool
) -> None:
    """Near and far, at rest and turning; a drawing of cells has exactly the extent."""
    turning = Turning(move, fraction)
    grey, joined = focus_grey(["FR", "BL"]), ("FR", "BL")
    columns, rows = extent(look.size)
    for picture in (
        draw_cube(cube, look, grey=grey, joined=joined, turning=turning),
        draw_far(cube, look, grey=grey, joined=joined, turning=turning, from_below=from_below),
    ):
        grid = pixels_of(picture)
        assert len({len(row) for row in grid}) == 1
        if look.drawing == "cube":
            assert len(picture) == rows + 2 * look.margin[1]
            assert len(grid[0]) == columns + 2 * look.margin[0]


@given(cubes(), looks, moves)
def test_a_turn_at_its_ends_is_the_picture_at_rest(cube: Cube, look: Look, move: Move) -> None:
    """At 0 the cube before, at 1 the cube after."""
    assert draw_cube(cube, look, turning=Turning(move, 1)) == draw_cube(cube.turn([move]), look)
    if look.drawing == "cube":
        assert draw_cube(cube, look, turning=Turning(move, 0)) == draw_cube(cube, look)


def test_the_unfolded_drawing_shows_a_turn_at_once() -> None:
    """Nothing turns there: any moment of a turn shows the cube after it."""
    look, turn = Look(style="flat"), MOVES["R"]
    for fraction in (0.0, 0.3):
        drawn = draw_cube(SOLVED, look, turning=Turning(turn, fraction))
        assert drawn == draw_cube(SOLVED.turn([turn]), look)


@given(cubes())
def test_a_turned_grip_shows_other_faces(cube: Cube) -> None:
    """A cube is drawn as it is held: after y the left side shows what the front showed."""
    look = Look(style="plain", lean="left")
    before = letters_of(draw_cube(cube, look))
    after = letters_of(draw_cube(cube.turn([MOVES["y"]]), look))
    for row, column in product(range(5, 8), range(0, 6, 2)):
        assert after[row, column] == before[row, column + 8]


def test_colours_are_those_of_the_scheme() -> None:
    """With a red cross and white in front the solved cube has white in front, orange on top."""
    look = Look(scheme=colour_scheme("red", "white"), style="plain")
    letters = letters_of(draw_cube(SOLVED, look))
    assert letters[6, 2] == "W"
    assert letters[2, 2] == "O"


@given(st.integers(1, 200), st.integers(1, 100))
def test_the_largest_size_that_fits_is_chosen(columns: int, rows: int) -> None:
    """One size more would not fit; the smallest is the least there is."""
    size = size_for(columns, rows)
    fits = [s for s in SIZES if extent(s)[0] <= columns and extent(s)[1] <= rows]
    assert size in SIZES
    assert size == (fits[-1] if fits else SIZES[0])


def test_a_terminal_of_80_by_24_has_room() -> None:
    """Beside a panel of 40 columns the cube has stickers of 8 pixels."""
    assert size_for(80 - 40, 24 - 4) == 8


@pytest.mark.parametrize("style", ["cube", "flat", "plain"])
@pytest.mark.parametrize("lean", ["right", "left"])
def test_a_click_finds_the_face_under_it(lean: Lean, style: Style) -> None:
    """In a margin there is none; the faces found are those in view."""
    look = Look(lean=lean, style=style, margin=(3, 2))
    picture = draw_cube(SOLVED, look)
    found = {
        face_at(look, x, y)
        for y in range(-1, len(picture) + 1)
        for x in range(-1, len(pixels_of(picture)[0]) + 1)
    }
    assert found == {"", *near_eye(look.lean)}


def test_a_click_on_the_colour_of_a_face_is_on_that_face() -> None:
    """On a solved cube, a cell with a face's colour in it tells that face, or another it shows."""
    look = Look(size=8, margin=(3, 2))
    faces = {
        look.palette.inks[look.scheme[face]][axis]: face
        for axis, face in enumerate(near_eye("right"))
    }
    grid = pixels_of(draw_cube(SOLVED, look))
    told = set()
    for y, x in product(range(0, len(grid), 2), range(len(grid[0]))):
        shown = {faces[ink] for ink in (grid[y][x], grid[y + 1][x]) if ink in faces}
        if shown:
            told.add(face_at(look, x, y // 2))
            assert face_at(look, x, y // 2) in shown
    assert told == {"F", "R", "U"}


def test_a_cube_at_rest_is_drawn_without_numpy() -> None:
    """The first picture of the game must not wait for it."""
    program = (
        "import sys; from game.cube.cube import SOLVED; from game.draw.look import Look;"
        "from game.draw.drawing import draw_cube, draw_far;"
        "draw_cube(SOLVED, Look()); draw_far(SOLVED, Look(depth='none'));"
        "print('numpy' in sys.modules)"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert ran.stdout == "False\n"
