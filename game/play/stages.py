"""The stages of a line of turns from a position: exact facts, each computed from the cube.

A line is looked at move by move; moves are counted from 1, and 0 is the position at the start. A
piece is *trapped* while it lies below the top layer in a wrong place: another slot, the cross, or
its own slot the wrong way round. For each pair in play:

    freed      the first turn after which neither piece is trapped; 0 when neither is at the start
    joined     the first turn after which the pair stays joined to the end
    lined up   the position before that turn
    slotted    the first turn after which the pair stays solved to the end

*Freed* is the first such turn and not the last: a joined pair often passes below the top layer on
its way home, and a free piece is often hidden there while the top turns. Of the 510 shortest lines
of one slot with the others kept, the last turn is later than the join in 230, where it says no
more than *slotted* does. The first is later than the join in 18: there the pair joins while one of
its pieces is still trapped.

A join that ends before *joined* breaks. A kept slot is *opened* by a turn of the top layer that
moves one of its pieces, and *closed* by the first turn after which its pair is solved again. A
pair is *moved* when another is slotted before it and it lies at another placement then than it did
at the start, or when the last pair before that was slotted.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from game.cube import line as lines
from game.cube import pair
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.pair import SLOT, PairPlace, Placement, in_top
from game.play.position import Position

STAGES = ("freed", "lined up", "joined", "slotted")
"""In the order in which a line usually comes to them."""


class PairStages(NamedTuple):
    """The stages of one pair in play, each None when the line does not come to it.

    joins, breaks: every turn after which the pair is joined, or no longer is, and was not or was
    before it; a join at the start is one at turn 0.
    """

    slot: str
    freed: int | None
    joins: tuple[int, ...]
    breaks: tuple[int, ...]
    slotted: int | None

    @property
    def joined(self) -> int | None:
        """The turn after which the pair stays joined to the end."""
        return self.joins[-1] if len(self.joins) > len(self.breaks) else None

    @property
    def lined_up(self) -> int | None:
        """The turn after which the pair is one turn from being joined; None where it starts so."""
        return self.joined - 1 if self.joined else None

    @property
    def turns(self) -> tuple[int | None, int | None, int | None, int | None]:
        """The turns of the stages, in the order of `STAGES`."""
        return (self.freed, self.lined_up, self.joined, self.slotted)


class Opening(NamedTuple):
    """A kept slot opened by a turn, and closed by a later one; None: not by the end."""

    slot: str
    opened: int
    closed: int | None


class Moved(NamedTuple):
    """A pair that lies elsewhere once another is slotted; joined: whether it is joined then."""

    slot: str
    by: str
    joined: bool


class Stages(NamedTuple):
    """What a line comes to. pairs: in the order in which they are slotted, those that are not last.

    openings: in the order in which they happen.
    """

    line: Line
    pairs: tuple[PairStages, ...]
    openings: tuple[Opening, ...]
    moved: tuple[Moved, ...]

    def of(self, slot: str) -> PairStages:
        """The stages of one of the pairs in play."""
        return next(stages for stages in self.pairs if stages.slot == slot)


@lru_cache(maxsize=16)
def stages(position: Position, line: Line) -> Stages:
    """The stages of a line as it is made, rotations, wide turns and all.

    Kept for a while, since the signs under a line and its words are asked for in turn.
    """
    cubes = cubes_along(position.cube, line)
    found = [pair_stages(cubes, slot) for slot in position.pairs]
    found.sort(key=lambda s: len(cubes) if s.slotted is None else s.slotted)
    openings = [o for slot in position.kept for o in _openings(cubes, line, slot)]
    openings.sort(key=lambda opening: opening.opened)
    return Stages(line, tuple(found), tuple(openings), tuple(_moved(cubes, found)))


def joined_after(position: Position, line: Line) -> tuple[tuple[str, ...], ...]:
    """For each move of the line, the slots in play whose pair is joined after it."""
    return tuple(
        tuple(slot for slot in position.pairs if pair.is_joined(cube, slot))
        for cube in cubes_along(position.cube, line)[1:]
    )


def cubes_along(cube: Cube, line: Line) -> list[Cube]:
    """The cube at the start and after each move."""
    cubes = [cube]
    for move in line:
        cubes.append(cubes[-1].turn((move,)))
    return cubes


def is_trapped(place: PairPlace, slot: str) -> bool:
    """Whether a piece of the slot's pair lies below the top layer in a wrong place."""
    homes = SLOT[slot].home
    return any(at != home and not in_top(at) for at, home in zip(place, homes, strict=True))


def pair_stages(cubes: Sequence[Cube], slot: str) -> PairStages:
    """The stages of one pair along the cubes at the start and after each move."""
    places = [pair.pair_place(cube, slot) for cube in cubes]
    joined = [pair.is_joined(cube, slot) for cube in cubes]
    free = (turn for turn, place in enumerate(places) if not is_trapped(place, slot))
    changes = [turn for turn, (was, now) in enumerate(pairwise([False, *joined])) if was != now]
    return PairStages(
        slot,
        freed=next(free, None),
        joins=tuple(changes[0::2]),
        breaks=tuple(changes[1::2]),
        slotted=_for_good([place == SLOT[slot].home for place in places]),
    )


def _for_good(holds: Sequence[bool]) -> int | None:
    """The first turn after which it holds to the end, or None."""
    if not holds[-1]:
        return None
    return max((turn for turn, held in enumerate(holds, 1) if not held), default=0)


def _openings(cubes: Sequence[Cube], line: Line, slot: str) -> list[Opening]:
    found: list[Opening] = []
    opened: int | None = None
    for turn, move in enumerate(line, 1):
        before, after = cubes[turn - 1], cubes[turn]
        if opened is None:
            turned = {face.name[0] for face in lines.tidy((move,), before.grip).turns}
            if "U" in turned and any(map(in_top, pair.pair_place(before, slot))):
                opened = turn
        elif pair.is_pair_solved(after, slot):
            found.append(Opening(slot, opened, turn))
            opened = None
    return found if opened is None else [*found, Opening(slot, opened, None)]


def _moved(cubes: Sequence[Cube], ordered: Sequence[PairStages]) -> list[Moved]:
    found = []
    since = 0
    for number, first in enumerate(ordered):
        if first.slotted is None:
            break
        then = cubes[first.slotted]
        for other in ordered[number + 1 :]:
            is_later = other.slotted != first.slotted
            if is_later and _placement(cubes[since], other.slot) != _placement(then, other.slot):
                found.append(Moved(other.slot, first.slot, pair.is_joined(then, other.slot)))
        since = first.slotted
    return found


def _placement(cube: Cube, slot: str) -> Placement:
    return pair.placement(pair.pair_place(cube, slot), slot)
