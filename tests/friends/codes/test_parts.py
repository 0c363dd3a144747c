"""Positions, lines and texts as numbers."""

from __future__ import annotations

from math import log2

from hypothesis import given
from hypothesis import strategies as st

from game.cube.line import Line
from game.deal.deal import Kind, deal
from game.friends.codes.mixed import Packing, Unpacking
from game.friends.codes.parts import (
    put_line,
    put_position,
    put_text,
    take_line,
    take_position,
    take_text,
)
from game.play.position import Position
from game.play.result import MAX_MOVES
from tests.friends.codes.values import texts
from tests.strategies import lines, positions

STATES = 40_320 * 3**7 * 40_320 * 2**7 // 2
"""Places and turns of what is not of the cross: 2.3e14 (common practice, no source)."""
ASKED = 16 * 63 * 2
"""Slots to solve, faces that may turn, views."""


@given(positions())
def test_positions_come_back(position: Position) -> None:
    """Any cube, slots, faces and view."""
    packing = Packing()
    put_position(packing, position)
    assert take_position(Unpacking(packing.number)) == position


@given(st.integers(1, 4), st.integers(0, 10**6), st.sampled_from(["focus", "full"]))
def test_a_position_with_its_cross_wastes_nothing(pairs: int, seed: int, view: str) -> None:
    """It takes one of exactly as many numbers as there are such positions, twice for the cross."""
    packing = Packing()
    put_position(packing, deal(Kind(pairs, 0, view), str(seed)))
    assert packing.number < 2 * STATES * ASKED
    assert 47 < log2(STATES) < 48


@given(lines(70))
def test_lines_come_back(line: Line) -> None:
    """Faces, wide turns, slices and rotations, in their order, whatever their number."""
    packing = Packing()
    put_line(packing, line)
    assert take_line(Unpacking(packing.number)) == line


def test_the_longest_line_comes_back() -> None:
    """As many moves as a line may have."""
    from game.cube.moves import MOVES  # noqa: PLC0415

    moves = tuple(MOVES.values())
    line = (moves * 20)[:MAX_MOVES]
    packing = Packing()
    put_line(packing, line)
    assert take_line(Unpacking(packing.number)) == line


@given(texts)
def test_texts_come_back(text: str) -> None:
    """Any characters of any script."""
    packing = Packing()
    put_text(packing, text)
    assert take_text(Unpacking(packing.number)) == text
