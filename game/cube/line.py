"""Lines of moves: inverse, images under symmetries, tidying by centres, counting.

Counting follows WCA Regulations 12a5 and 12a6: in the outer block turn metric (OBTM) a face or
wide turn counts 1 and a rotation 0; in the execution turn metric (ETM) each counts 1. A slice turn
is not in the Regulations; here it counts 2 in OBTM, as the two face turns that it amounts to.

`tidy` rewrites every move as turns of faces named by their *centres*, plus one rotation at the end:

    Rw  =  L  with the whole cube turned x       M  =  R L'  with the whole cube turned x'

Turns of one axis that follow each other merge (R R -> R2, R R' -> nothing, R L R -> R2 L), and
so `R M R` is R' L' and one rotation: OBTM 2. OBTM is the number of face turns that remain.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from game.cube import geometry
from game.cube.geometry import FACE_AT, NORMAL, ROTATIONS, UNMOVED, Matrix
from game.cube.moves import MOVES, SUFFIX, Move

Line = tuple[Move, ...]


def inverse(line: Line) -> Line:
    """The line that undoes it."""
    return tuple(move.inverse for move in reversed(line))


def image(line: Line, symmetry: Matrix) -> Line:
    """The line as a symmetry of space shows it (a reflection turns each move's sense round)."""
    return tuple(_move_image(move, symmetry) for move in line)


@cache
def _move_image(move: Move, symmetry: Matrix) -> Move:
    sign = geometry.determinant(symmetry)
    positive_end = geometry.apply(symmetry, UNMOVED[move.axis])
    axis = next(i for i in range(3) if positive_end[i])
    if positive_end[axis] == -1:
        sign = -sign
    flip = positive_end[axis]
    layers = frozenset(flip * layer for layer in move.layers)
    return Move(axis, layers, sign * move.quarters % 4)


class Tidied(NamedTuple):
    """Face turns named by their centres in the grip at the start, then one rotation."""

    turns: Line
    rotation: Matrix

    @property
    def text(self) -> str:
        """The face turns and the rotation, in notation."""
        return " ".join(m.name for m in self.turns + rotation_line(self.rotation))


def tidy(line: Iterable[Move], grip: Matrix = UNMOVED) -> Tidied:
    """The same effect as face turns of centres, merged per axis, and what remains of the rotation.

    grip: where the centres lie before the line, as the rotation that took them there from home.
    The turns are named by centres; the rotation returned includes `grip`.
    """
    groups: list[dict[str, int]] = []
    for move in line:
        back = geometry.transpose(grip)
        for layer in (1, -1):
            turn = move.quarters if layer in move.layers else 0
            if 0 in move.layers:
                turn -= move.quarters
            if turn % 4:
                held = geometry.scale(layer, UNMOVED[move.axis])
                centre = FACE_AT[geometry.apply(back, held)]
                _merge(groups, centre, layer * turn)
        if 0 in move.layers:
            grip = geometry.compose(grip, move.matrix)
    turns = tuple(MOVES[f + SUFFIX[q]] for group in groups for f, q in group.items())
    return Tidied(turns, grip)


def _merge(groups: list[dict[str, int]], face: str, clockwise: int) -> None:
    """Add a turn, clockwise as seen from its face, to the last group if that is of its axis."""
    if not groups or _axis(next(iter(groups[-1]))) != _axis(face):
        groups.append({})
    group = groups[-1]
    group[face] = (group.get(face, 0) + clockwise) % 4
    if not group[face]:
        del group[face]
    if not group:
        groups.pop()


@cache
def _axis(face: str) -> int:
    return next(i for i in range(3) if NORMAL[face][i])


def rest(begun: Line, line: Line) -> Line | None:
    """What is left of a line when its beginning is made; None where `begun` is no beginning of it.

    Both tidied. Turns of one axis that follow each other may have been made in either order.
    """
    left = tidy((*inverse(begun), *line)).turns
    return left if len(left) == len(line) - len(begun) else None


def obtm(line: Iterable[Move]) -> int:
    """Outer block turns: face turns that remain after tidying (WCA 12a5; a slice counts 2)."""
    return len(tidy(line).turns)


def etm(line: Iterable[Move]) -> int:
    """Execution turns: every move as made, rotations included (WCA 12a6; a slice counts 1)."""
    return sum(1 for _ in line)


@cache
def _rotation_lines() -> dict[Matrix, Line]:
    """A shortest line of x, y, z moves for each of the 24 rotations; quarters before half turns."""
    moves = [MOVES[letter + suffix] for suffix in ("", "'", "2") for letter in "yxz"]
    lines: dict[Matrix, Line] = {UNMOVED: ()}
    queue: list[Matrix] = [UNMOVED]
    for matrix in queue:
        for move in moves:
            turned = geometry.compose(matrix, move.matrix)
            if turned not in lines:
                lines[turned] = (*lines[matrix], move)
                queue.append(turned)
    assert len(lines) == len(ROTATIONS)
    return lines


def rotation_line(rotation: Matrix) -> Line:
    """The rotation as at most two moves x, y, z."""
    return _rotation_lines()[rotation]


def held(turns: Iterable[Move], grip: Matrix) -> Line:
    """Face turns named by centres, renamed as the hands make them in a grip (for `tidy`'s grip)."""
    return image(tuple(turns), grip)
