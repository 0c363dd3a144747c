"""Exact facts about a line of turns from a position: when each pair is joined.

A pair *joins* at the first turn after which its pieces stay side by side, as in their solved
slot, to the end of the line. Turns are counted from 1; 0 means that they were joined at the start.
"""

from __future__ import annotations

from game.cube import pair
from game.cube.line import Line
from game.position import Position


def joined_after(position: Position, line: Line) -> tuple[tuple[str, ...], ...]:
    """For each move of the line, the slots in play whose pair is joined after it."""
    found = []
    cube = position.cube
    for move in line:
        cube = cube.turn((move,))
        found.append(tuple(slot for slot in position.pairs if pair.is_joined(cube, slot)))
    return tuple(found)


def joined_at(position: Position, line: Line, slot: str) -> int | None:
    """The turn at which the slot's pair joins for good; None when it ends apart."""
    joined = [pair.is_joined(position.cube, slot)]
    joined += [slot in slots for slots in joined_after(position, line)]
    if not joined[-1]:
        return None
    turn = len(line)
    while turn > 0 and joined[turn - 1]:
        turn -= 1
    return turn
