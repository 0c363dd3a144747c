"""Par of a position that is near its goal, in plain Python: two searches that meet half-way.

All that can be made of the position in a few turns is held against all from which the goal is a
few turns away (bidirectional search, common practice, no source). Both are whole, so that a meeting
is the shortest, and if they do not meet, no solution is that short. Where slots are open their
pieces are not looked at, and the goal is one state all the same.
"""

from __future__ import annotations

from functools import lru_cache

from game.cube.cube import PIECE_OF
from game.cube.moves import FACE_MOVES, permutation
from game.cube.pair import CROSS_EDGES, SLOT
from game.play.position import Position

State = bytes
"""Where one sticker of each piece that matters lies; so a turn is a translation of bytes."""

FROM_GOAL = 4
FROM_START = 3
FARTHEST = FROM_GOAL + FROM_START
"""Turns up to which par is found."""


def par_if_near(position: Position) -> int | None:
    """The par of a position; None where it is proven to be more than `FARTHEST` turns."""
    homes = _homes(position.solve)
    to_goal = _distances(homes, position.faces, FROM_GOAL)
    where = position.cube.upright.where
    start = bytes(where[home] for home in homes)
    near = _around(start, position.faces, FROM_START)
    return min((turns + to_goal[s] for s, turns in near.items() if s in to_goal), default=None)


def _homes(slots: tuple[str, ...]) -> State:
    """The homes of the cross and of the pairs of these slots: the goal."""
    pairs = (PIECE_OF[home][0] for slot in slots for home in SLOT[slot].home)
    return bytes((*CROSS_EDGES, *pairs))


@lru_cache(maxsize=2)  # 6 MB each
def _distances(goal: State, faces: str, most: int) -> dict[State, int]:
    """Turns to the goal: as many as from it, since every turn can be turned back."""
    return _around(goal, faces, most)


def _around(start: State, faces: str, most: int) -> dict[State, int]:
    """Every state at most so many turns away, with its turns."""
    turns = [
        bytes(permutation(move)).ljust(256, b"\0") for move in FACE_MOVES if move.name[0] in faces
    ]
    found = {start: 0}
    edge = [start]
    for count in range(1, most + 1):
        beyond = []
        for state in edge:
            for turn in turns:
                child = state.translate(turn)
                if child not in found:
                    found[child] = count
                    beyond.append(child)
        edge = beyond
    return found
