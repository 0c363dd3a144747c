"""Pictures of a cube: while a layer turns, and at rest."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from game.cube.cube import SOLVED, Cube
from game.cube.moves import parse_line, parse_move
from game.draw.depth import Depth
from game.draw.drawing import draw_cube
from game.draw.look import Look, Turning
from tests.bench.table import Row, seconds_each

SIZE = 12
CUBE = SOLVED.turn(parse_line("R U F' L2 D B R' U2"))
MOVES = ("R", "U'", "F", "L2", "D", "B'", "Rw", "M", "x", "y'")
MOMENTS = (0.1, 0.3, 0.5, 0.7, 0.9)
COLOURS: dict[Depth, str] = {"true": "true colour", "256": "256 colours"}


def rows() -> Iterator[Row]:
    """Frames of ten moves at five moments; the cube at rest after each of the ten.

    Everything is drawn once before: what is kept from one picture to the next is made then.
    """
    turnings = [Turning(parse_move(name), moment) for name, moment in product(MOVES, MOMENTS)]
    cubes = [CUBE.turn([parse_move(name)]) for name in MOVES]
    for depth, colours in COLOURS.items():
        look = Look(size=SIZE, depth=depth)

        def frame(turning: Turning, look: Look = look) -> None:
            draw_cube(CUBE, look, turning=turning)

        def still(cube: Cube, look: Look = look) -> None:
            draw_cube(cube, look)

        seconds_each(frame, turnings)
        seconds_each(still, cubes)
        what = f"size {SIZE}, {colours}"
        yield Row(f"frame of a turn, {what}", seconds_each(frame, turnings), "median under 8 ms")
        yield Row(f"cube at rest, {what}", seconds_each(still, cubes))
