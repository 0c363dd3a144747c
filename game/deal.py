"""Random positions of a stated kind: a seed always deals the same one, see `game.dice`.

The cross is done. Every state of the pieces that are not kept is as likely as any other, among
those that turning can reach and in which no pair in play is solved.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from game.cube import pair
from game.cube.cube import CORNERS, EDGES, PIECE_OF, Cube, cube_of
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS
from game.dice import Dice
from game.errors import PositionError
from game.position import Position, position_of


@dataclass(frozen=True)
class Kind:
    """A kind of position: so many pairs in play, so many slots left open, the others kept.

    Raises PositionError unless at least one pair is in play and all slots are no more than four.
    """

    pairs: int = 1
    open: int = 0
    view: str = "focus"

    def __post_init__(self) -> None:
        if self.pairs < 1 or self.open < 0 or self.pairs + self.open > len(SLOTS):
            raise PositionError(
                f"{self.pairs} pairs in play and {self.open} slots open; there are {len(SLOTS)}"
                " slots, and at least one pair is in play"
            )


def deal(kind: Kind, seed: str) -> Position:
    """The position of a kind that belongs to a seed; the slots in play are dealt too."""
    dice = Dice(seed)
    slots = dice.shuffled(SLOTS)
    return deal_at(slots[: kind.pairs], slots[kind.pairs :][: kind.open], dice, kind.view)


def deal_at(
    slots: Iterable[str], open_: Iterable[str], dice: Dice, view: str = "focus"
) -> Position:
    """A position with the pairs of these slots in play and others left open."""
    in_play, left_open = set(slots), set(open_)
    kept = [slot for slot in SLOTS if slot not in in_play | left_open]
    while True:
        cube = _scattered(kept, dice)
        if not any(pair.is_pair_solved(cube, slot) for slot in in_play):
            return position_of(cube, [s for s in SLOTS if s not in left_open], view=view)


def _scattered(kept: Iterable[str], dice: Dice) -> Cube:
    """A cube with the cross and the kept pairs at home and all other pieces anywhere.

    The last two edges are exchanged, the last corner twisted and the last edge flipped where the
    cube could not be reached otherwise: so each cube that can comes from equally many throws.
    """
    homes = [*CROSS_EDGES, *(home for slot in kept for home in SLOT[slot].home)]
    at_home = {PIECE_OF[home] for home in homes}
    places = {piece[0]: piece[0] for piece in at_home}
    free = [[piece for piece in kind if piece not in at_home] for kind in (CORNERS, EDGES)]
    dealt = [dice.shuffled(pieces) for pieces in free]
    swaps = sum(_exchanges(pieces, order) for pieces, order in zip(free, dealt, strict=True))
    if swaps % 2:
        dealt[1][-2:] = dealt[1][:-3:-1]
    for pieces, order in zip(free, dealt, strict=True):
        ways = len(pieces[0])
        turns = [dice.below(ways) for _ in pieces[1:]]
        turns.append(-sum(turns) % ways)
        for piece, place, turn in zip(pieces, order, turns, strict=True):
            places[piece[0]] = place[turn]
    return cube_of(places)


def _exchanges(pieces: list[tuple[int, ...]], order: list[tuple[int, ...]]) -> int:
    """How many pairs stand in `order` the other way round than in `pieces`."""
    at = [pieces.index(piece) for piece in order]
    return sum(a > b for i, a in enumerate(at) for b in at[i + 1 :])
