"""What the engine can be asked of a position."""

from __future__ import annotations

from typing import NamedTuple

from game.cube import pair
from game.cube.cube import Cube
from game.play.position import Position

LARGE = 3
"""Pairs to solve, the cross counting as one, from which on a search may need the large tables."""


class Question(NamedTuple):
    """A search: bring `cube` to where the cross and these slots are solved with these faces.

    first: any one shortest solution is enough.
    """

    cube: Cube
    solve: tuple[str, ...]
    faces: str
    first: bool = False

    @property
    def is_large(self) -> bool:
        """Whether it may take long without the large tables."""
        unsolved = sum(not pair.is_pair_solved(self.cube, slot) for slot in self.solve)
        return unsolved + (not pair.is_cross_solved(self.cube)) >= LARGE


class ByPairs(NamedTuple):
    """The best total when one pair after another is solved, see `game.search.pair_by_pair`."""

    cube: Cube
    solve: tuple[str, ...]


def whole_question(position: Position) -> Question:
    """Par and every shortest solution of a position."""
    return Question(position.cube, position.solve, position.faces)


def first_question(position: Position) -> Question:
    """Par and one shortest solution: sooner known, where pairs are many."""
    return Question(position.cube, position.solve, position.faces, first=True)


def hand_question(position: Position) -> Question:
    """Par with only the faces at the hands, and every solution of that length."""
    return Question(position.cube, position.solve, position.hand_faces)


def pairs_question(position: Position) -> ByPairs | None:
    """The best total pair by pair; None for a single pair, or where not every face may turn."""
    from game.coach.ways import is_by_pairs  # noqa: PLC0415 - not before the first picture

    return ByPairs(position.cube, position.solve) if is_by_pairs(position) else None
