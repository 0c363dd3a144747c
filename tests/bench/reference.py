"""Par by plain breadth-first search from both ends over Python sets; nothing of `game.search`."""

from __future__ import annotations

from collections.abc import Iterable

from game.cube.cube import Cube
from game.cube.moves import FACE_MOVES, permutation
from game.cube.pair import CROSS_EDGES, SLOT

_TURNS = [bytes(permutation(turn)) + bytes(202) for turn in FACE_MOVES]


def par_from_both_ends(cube: Cube, slots: Iterable[str]) -> int:
    """The least turns that solve the cross and these slots, with all six faces.

    Always the smaller of the two outermost levels is taken one turn on.
    """
    homes = bytes([*CROSS_EDGES, *(home for slot in slots for home in SLOT[slot].home)])
    ends = [{bytes(cube.upright.where[home] for home in homes)}, {homes}]
    seen = [set(ends[0]), set(ends[1])]
    par = 0
    while not ends[0] & ends[1]:
        near = 0 if len(ends[0]) <= len(ends[1]) else 1
        found = {state.translate(turn) for state in ends[near] for turn in _TURNS}
        ends[near] = found - seen[near]
        seen[near] |= ends[near]
        par += 1
    return par
