"""How long pictures of a cube take to build: at rest, and while a layer turns."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product
from time import perf_counter
from typing import TypeVar

from game.cube.cube import SOLVED
from game.cube.moves import parse_line, parse_move
from game.draw import Look, Turning, draw_cube
from game.draw.palette import Depth

T = TypeVar("T")

SIZE = 12
"""The size of the goal: a median under 8 ms for a turning cube."""
CUBE = SOLVED.turn(parse_line("R U F' L2 D B R' U2"))
MOVES = ("R", "U'", "F", "L2", "D", "B'", "Rw", "M", "x", "y'")
MOMENTS = (0.1, 0.3, 0.5, 0.7, 0.9)


def turning_milliseconds(depth: Depth = "true") -> list[float]:
    """Each frame of ten moves at five moments, after one round to fill the caches."""
    look = Look(size=SIZE, depth=depth)
    turnings = [Turning(parse_move(name), moment) for name, moment in product(MOVES, MOMENTS)]

    def draw(turning: Turning) -> None:
        draw_cube(CUBE, look, turning=turning)

    return _milliseconds(draw, turnings)


def resting_milliseconds(depth: Depth = "true") -> list[float]:
    """A cube at rest after each of the ten moves, after one round to fill the caches."""
    look = Look(size=SIZE, depth=depth)
    cubes = [CUBE.turn([parse_move(name)]) for name in MOVES]
    return _milliseconds(lambda cube: draw_cube(cube, look), cubes)


def _milliseconds(draw: Callable[[T], object], things: list[T]) -> list[float]:
    """How long drawing each thing takes the second time."""
    for thing in things:
        draw(thing)
    times = []
    for thing in things:
        start = perf_counter()
        draw(thing)
        times.append(1000 * (perf_counter() - start))
    return times
