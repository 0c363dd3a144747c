"""Par and all shortest lines by plain breadth-first search, sharing nothing with `game.search`.

A state is the places of the stickers that matter, as bytes; turning is `bytes.translate`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from game.cube.cube import SOLVED, Cube
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import FACE_MOVES, Move, permutation, turned_face
from game.cube.pair import CROSS_EDGES, SLOT

DEPTH = 3
"""Turns from solved that are known by heart."""


def in_order(line: Sequence[Move]) -> Line:
    """The same line with neighbouring turns of opposite faces in the order of `FACES`."""
    ordered = list(line)
    for i in range(len(ordered) - 1):
        a, b = ordered[i], ordered[i + 1]
        if a.axis == b.axis and FACES.index(turned_face(a)) > FACES.index(turned_face(b)):
            ordered[i], ordered[i + 1] = b, a
    return tuple(ordered)


class Plain:
    """One goal and the faces that may turn. setups: a line from solved to each known state."""

    def __init__(self, slots: Iterable[str], faces: str = FACES) -> None:
        self.stickers = bytes([*CROSS_EDGES, *(i for slot in slots for i in SLOT[slot].home)])
        self.turns = {
            turn: bytes(permutation(turn)) + bytes(202)
            for turn in FACE_MOVES
            if turned_face(turn) in faces
        }
        self.setups: dict[bytes, Line] = {self.stickers: ()}
        level = [self.stickers]
        for _ in range(DEPTH):
            found = []
            for state in level:
                for turn, table in self.turns.items():
                    after = state.translate(table)
                    if after not in self.setups:
                        self.setups[after] = (*self.setups[state], turn)
                        found.append(after)
            level = found

    def cubes(self) -> list[Cube]:
        """A cube for every state of at most `DEPTH` turns."""
        return [SOLVED.turn(setup) for setup in self.setups.values()]

    def state(self, cube: Cube) -> bytes:
        """Where a cube, its centres at home, has the stickers that matter."""
        return bytes(cube.where[i] for i in self.stickers)

    def shortest(self, cube: Cube, longest: int) -> tuple[int, frozenset[Line]] | None:
        """Par and all shortest lines; None if nothing of at most `longest` turns solves it."""
        for par in range(longest + 1):
            lines = list(self._lines(self.state(cube), par))
            if lines:
                return par, frozenset(map(in_order, lines))
        return None

    def _lines(self, state: bytes, length: int) -> Iterable[Line]:
        """All lines of exactly that length that solve the state, if none shorter does."""
        if length <= DEPTH and (state not in self.setups or len(self.setups[state]) > length):
            return
        if length == 0:
            yield ()
            return
        for turn, table in self.turns.items():
            for rest in self._lines(state.translate(table), length - 1):
                yield (turn, *rest)
