"""How hard a position is to solve in par, measured: every part can be computed, none is felt.

    difficulty  =  par  +  misleading / 2  +  hidden / 4  -  log13(solutions)

par          turns that must be found; the unit in which the other parts are weighed.
misleading   how much longer the habit is than par. The *habit* is a simulated player who does
             one pair after another, in the better order; first takes each piece that lies below
             the top layer out of its slot, by a side turn, a turn of the top and the side turn
             back, then solves the pair by the top and the two sides of its slot, on the shortest
             way there is from there, the easiest on the hands. Where par is five and the hand
             expects seven, the player is led astray; the longer way still solves, so each turn
             counts half of one that must be found.
hidden       pieces of the pairs in play that show fewer than two stickers on the three faces
             seen (top, front, and the slot's own side). One sticker does not tell which piece it
             is; it must be read off the far side, or inferred: a look, put at a quarter of a turn.
solutions    shortest solutions; any of them will do. On a cube each turn more makes about 13
             times as many lines (the ratio of the last counts of OEIS A080601), so thirteen
             solutions are as good as a line one turn shorter.

The parts say nothing about how easy the solution is on the hands: thinking is what counts here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import permutations, product
from math import log

from game.cube import geometry, pair, symmetry
from game.cube.cube import PIECE_OF, Cube
from game.cube.geometry import STICKERS
from game.cube.line import Line
from game.cube.moves import MOVES, permutation
from game.cube.pair import SLOT
from game.play.position import Position
from game.search.outcome import Outcome, Solved

Find = Callable[[Cube, tuple[str, ...], str], Outcome]
"""A search: cube, slots to solve, faces that may turn -> all the shortest solutions."""

LINES_A_TURN = 13
"""Lines of one turn more for each line of so many turns: 7618438 / 574908 (OEIS A080601)."""
SLACK = 0.5
"""How much easier than the hardest before it a level of a growing pack may be."""


@dataclass(frozen=True)
class Difficulty:
    """The parts of a position's difficulty, and their sum.

    habit: turns that the habit takes, None where it leads nowhere; hidden: pieces; solutions:
    shortest ones that are known.
    """

    par: int
    habit: int | None
    hidden: int
    solutions: int

    @property
    def misleading(self) -> int:
        """How many turns longer than par the habit is."""
        return 0 if self.habit is None else self.habit - self.par

    @property
    def value(self) -> float:
        """The difficulty, in turns."""
        fewer = log(self.solutions, LINES_A_TURN)
        return self.par + self.misleading / 2 + self.hidden / 4 - fewer


def measure(position: Position, solved: Solved, find: Find) -> Difficulty:
    """The difficulty of a position whose shortest solutions have been found."""
    return Difficulty(
        par=solved.par,
        habit=habit(position, find),
        hidden=hidden(position),
        solutions=len(solved.solutions),
    )


# -- hidden pieces -------------------------------------------------------------------------------


def hidden(position: Position) -> int:
    """How many pieces of the pairs in play show fewer than two stickers on the faces seen."""
    seen = "UF" + next((slot[1] for slot in position.pairs), "R")
    where = position.cube.upright.where
    pieces = (PIECE_OF[where[home]] for slot in position.pairs for home in SLOT[slot].home)
    return sum(sum(STICKERS[i].face in seen for i in piece) < 2 for piece in pieces)


# -- the habit -----------------------------------------------------------------------------------


def habit(position: Position, find: Find) -> int | None:
    """Turns that the habit takes; None without a cross, or where the faces stop it on its way."""
    cube = position.cube
    if not pair.is_cross_solved(cube):
        return None
    ways = (_in_order(cube, order, position, find) for order in permutations(position.pairs))
    return min((turns for turns in ways if turns is not None), default=None)


def _in_order(cube: Cube, order: Sequence[str], position: Position, find: Find) -> int | None:
    """Turns to solve the pairs one after another."""
    turns = 0
    done = position.kept
    for slot in order:
        way = _one_pair(cube, slot, done, position.faces, find)
        if way is None:
            return None
        turns, cube, done = turns + way[0], way[1], (*done, slot)
    return turns


def _one_pair(
    cube: Cube, slot: str, done: Iterable[str], faces: str, find: Find
) -> tuple[int, Cube] | None:
    """Turns to free a pair and then to solve it, and the cube after them; None for no way.

    It is done with the cube turned so that the slot is FR: so all the searches of all habits are
    by the same faces, and what a search prepares for a set of faces it prepares once.
    """
    turn = symmetry.to_slot(slot)
    back = geometry.transpose(turn)
    kept = tuple(symmetry.slot_image(name, back) for name in done)
    way = _front_right(cube.image(back), kept, symmetry.faces_image(faces, back), find)
    return None if way is None else (way[0], way[1].image(turn))


def _front_right(
    cube: Cube, done: tuple[str, ...], faces: str, find: Find
) -> tuple[int, Cube] | None:
    if pair.is_pair_solved(cube, "FR"):
        return 0, cube
    at_hand = "".join(face for face in faces if face in "FRU")
    best: tuple[int, Cube] | None = None
    for line in _freeing(cube, "FR", faces) if at_hand else ():
        freed = cube.turn(line)
        outcome = find(freed, (*done, "FR"), at_hand)
        if isinstance(outcome, Solved):
            turns = len(line) + outcome.par
            if best is None or turns < best[0]:
                best = turns, freed.turn(outcome.solutions[0])
    return best


def _freeing(cube: Cube, slot: str, faces: str) -> Iterable[Line]:
    """Lines that take the pair's pieces out of the slots they lie in; empty if none lies in one.

    Taking out works on one slot and leaves cross and other slots as they are.
    """
    trapped = {pair.slot_at(place) for place in pair.pair_place(cube, slot)} - {""}
    for order in permutations(sorted(trapped)):
        for parts in product(*(_taking_out(name, faces) for name in order)):
            line = tuple(move for part in parts for move in part)
            if all(pair.in_top(place) for place in pair.pair_place(cube.turn(line), slot)):
                yield line


def _taking_out(slot: str, faces: str) -> list[Line]:
    """A side turn that lifts the slot, a turn of the top, and the side turn back: R U R' ..."""
    edge = SLOT[slot].home.edge
    sides = [MOVES[face + way] for face in slot if face in faces for way in ("", "'")]
    lifts = [side for side in sides if pair.in_top(permutation(side)[edge])]
    tops = [MOVES["U" + way] for way in ("", "'", "2") if "U" in faces]
    return [(lift, top, lift.inverse) for lift in lifts for top in tops]


def grows(difficulties: Sequence[float]) -> list[int]:
    """Places (0-based) where a sequence does not grow.

    That is where one is easier by more than `SLACK` than the hardest before it, and the last
    place, when the last is not harder than the first.
    """
    found = [
        place
        for place in range(1, len(difficulties))
        if difficulties[place] < max(difficulties[:place]) - SLACK
    ]
    last = len(difficulties) - 1
    if last > 0 and last not in found and difficulties[last] <= difficulties[0]:
        found.append(last)
    return found
