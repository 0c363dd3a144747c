"""Random positions of a stated kind: a seed always deals the same one, see `game.deal.dice`.

The cross is done. Every state of the pieces that are not kept is as likely as any other, among
those that the faces which may turn can reach and in which no pair in play is solved: so each can
be solved with these faces alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from game.cube import pair
from game.cube.cube import CORNERS, EDGES, PIECE_OF, Cube, cube_of
from game.cube.geometry import FACES
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS
from game.deal.dice import Dice
from game.errors import PositionError
from game.play.position import VIEWS, Position, position_of
from game.search.reach import scattered

HANDS = "hands"
"""For faces: the top and both sides of the slots in play."""
MOST_THROWS = 1000
"""Cubes thrown at most until one comes in which no pair in play is solved."""


@dataclass(frozen=True)
class Kind:
    """A kind of position: so many pairs in play, so many slots left open, the others kept.

    slots: those that may be in play; faces: those that may turn, or `HANDS`. Raises PositionError
    unless at least one pair is in play, so many slots are there, and all are no more than four;
    and for an unknown slot, face or view.
    """

    pairs: int = 1
    open: int = 0
    view: str = "focus"
    slots: tuple[str, ...] = SLOTS
    faces: str = FACES

    def __post_init__(self) -> None:
        if self.pairs < 1 or self.open < 0 or self.pairs + self.open > len(SLOTS):
            raise PositionError(
                f"{self.pairs} pairs in play and {self.open} slots open; there are {len(SLOTS)}"
                " slots, and at least one pair is in play"
            )
        if pair.parse_slots(" ".join(self.slots)) != self.slots:
            raise PositionError(f"slots are named once, in the order {', '.join(SLOTS)}")
        if self.faces != HANDS and pair.parse_faces(self.faces) != self.faces:
            raise PositionError(f"faces are named once, in the order {FACES}")
        if self.pairs > len(self.playable):
            words = " and ".join(self.playable) or "no slot"
            raise PositionError(f"{self.pairs} pairs in play, but only {words} can be")
        if self.view not in VIEWS:
            raise PositionError(f"a view is {' or '.join(VIEWS)}")

    @property
    def playable(self) -> tuple[str, ...]:
        """Those of the slots that a face which may turn lies beside."""
        if self.faces == HANDS:
            return self.slots
        return tuple(slot for slot in self.slots if set(slot) & set(self.faces))

    def faces_for(self, slots: Iterable[str]) -> str:
        """The faces that may turn when these slots are in play."""
        if self.faces != HANDS:
            return self.faces
        return "".join(face for face in FACES if face in "U" + "".join(slots))


def deal(kind: Kind, seed: str) -> Position:
    """The position of a kind that belongs to a seed; the slots in play are dealt too.

    Raises PositionError when the faces of the kind cannot move the pairs.
    """
    dice = Dice(seed)
    shuffled = dice.shuffled(SLOTS)
    in_play = [slot for slot in shuffled if slot in kind.playable][: kind.pairs]
    left_open = [slot for slot in shuffled if slot not in in_play][: kind.open]
    return deal_at(in_play, left_open, dice, kind.view, kind.faces_for(in_play))


def deal_at(
    slots: Iterable[str],
    open_: Iterable[str],
    dice: Dice,
    view: str = "focus",
    faces: str = FACES,
) -> Position:
    """A position with the pairs of these slots in play and others left open.

    Raises PositionError when turning these faces cannot move one of the pairs and leave the cross
    and all that is kept as it was.
    """
    in_play, left_open = set(slots), set(open_)
    kept = [slot for slot in SLOTS if slot not in in_play | left_open]
    for _ in range(MOST_THROWS):
        cube = _scattered(kept, dice) if faces == FACES else _turned(kept, faces, dice)
        if not any(pair.is_pair_solved(cube, slot) for slot in in_play):
            return position_of(cube, [s for s in SLOTS if s not in left_open], faces, view)
    raise PositionError(f"turning {' '.join(faces)} alone leaves a pair solved")


def _turned(kept: Iterable[str], faces: str, dice: Dice) -> Cube:
    """A cube that these faces can make, with the cross and the kept pairs at home."""
    homes = (*CROSS_EDGES, *(home for slot in kept for home in SLOT[slot].home))
    return scattered(faces, homes, dice.pick)


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
