"""Exact facts about a line of turns from a position: its stages, joins, openings.

A line is looked at turn by turn; turns are counted from 1, and 0 is the position at the start.
A piece is *trapped* while it lies below the top layer in a wrong place (another slot, or its own
the wrong way round). For each pair in play:

    freed      the last turn, up to the join, that leaves neither piece trapped where one was
               before; 0 when neither was trapped before the join
    joined     the first turn after which the pair stays joined to the end
    lined up   the position before that turn
    slotted    the first turn after which the pair stays solved to the end

A join that breaks again is one that ends before *joined*. A kept slot is *opened* at a turn of the
top layer that moves one of its pieces, and *closed* at the first turn after which its pair is
solved again. A pair is *carried* when another is slotted before it and leaves it at another
placement than at the start.
"""

from __future__ import annotations
from dataclasses import dataclass
from itertools import pairwise

from game.cube import line as lines
from game.cube import pair
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.pair import SLOT, PairPlace, in_top
from game.position import Position


@dataclass(frozen=True)
class PairStages:
    """The stages of one pair in play; None for what the line does not reach."""

    slot: str
    freed: int
    joined: int | None
    slotted: int | None
    broken: tuple[int, ...]
    """Turns after which a join of before is no more."""

    @property
    def lined_up(self) -> int | None:
        """The turn after which the pair is one turn from joined; None when it starts joined."""
        return self.joined - 1 if self.joined else None


@dataclass(frozen=True)
class Opening:
    """A kept slot opened at a turn, and closed at a later one (None: not by the end)."""

    slot: str
    opened: int
    closed: int | None


@dataclass(frozen=True)
class Carried:
    """A pair that another pair's solution took elsewhere; whether it was joined then."""

    slot: str
    by: str
    joined: bool


@dataclass(frozen=True)
class Stages:
    """All facts about a line: its pairs in the order in which they are slotted, its openings."""

    turns: Line
    pairs: tuple[PairStages, ...]
    openings: tuple[Opening, ...]
    carried: tuple[Carried, ...]


def joined_after(position: Position, line: Line) -> tuple[tuple[str, ...], ...]:
    """For each move of the line, the slots in play whose pair is joined after it."""
    return tuple(
        tuple(slot for slot in position.pairs if pair.is_joined(cube, slot))
        for cube in _cubes(position, line)[1:]
    )


def joined_at(position: Position, line: Line, slot: str) -> int | None:
    """The turn at which the slot's pair joins for good; None when it ends apart."""
    return _lasting([pair.is_joined(cube, slot) for cube in _cubes(position, line)])


def stages(position: Position, line: Line) -> Stages:
    """The stages of a line, tidied first: its turns are those that count against par."""
    turns = lines.tidy(line).turns
    cubes = _cubes(position, turns)
    found = [_pair_stages(cubes, slot) for slot in position.pairs]
    found.sort(key=lambda p: len(turns) + 1 if p.slotted is None else p.slotted)
    openings = [o for slot in position.kept for o in _openings(cubes, turns, slot)]
    openings.sort(key=lambda opening: opening.opened)
    return Stages(turns, tuple(found), tuple(openings), _carried(cubes, found))


def _cubes(position: Position, line: Line) -> list[Cube]:
    """The cube at the start and after each move."""
    cubes = [position.cube]
    for move in line:
        cubes.append(cubes[-1].turn((move,)))
    return cubes


def _lasting(holds: list[bool]) -> int | None:
    """The first index from which on it holds to the end, or None."""
    start = len(holds)
    while start > 0 and holds[start - 1]:
        start -= 1
    return start if start < len(holds) else None


def is_trapped(place: PairPlace, slot: str) -> bool:
    """Whether a piece of the slot's pair lies below the top layer in a wrong place."""
    return any(
        here != home and not in_top(here) for here, home in zip(place, SLOT[slot].home, strict=True)
    )


def _pair_stages(cubes: list[Cube], slot: str) -> PairStages:
    places = [pair.pair_place(cube, slot) for cube in cubes]
    joins = [pair.is_joined(cube, slot) for cube in cubes]
    joined = _lasting(joins)
    end = len(cubes) - 1 if joined is None else joined
    trapped = [is_trapped(place, slot) for place in places[: end + 1]]
    freed = max((t for t in range(1, end + 1) if trapped[t - 1] and not trapped[t]), default=0)
    broken = tuple(t for t in range(1, len(joins)) if joins[t - 1] and not joins[t])
    slotted = _lasting([place == SLOT[slot].home for place in places])
    return PairStages(slot, freed, joined, slotted, broken)


def _openings(cubes: list[Cube], turns: Line, slot: str) -> list[Opening]:
    found: list[Opening] = []
    opened: int | None = None
    for turn, move in enumerate(turns, 1):
        before = pair.pair_place(cubes[turn - 1], slot)
        if opened is None and move.name[0] == "U" and any(map(in_top, before)):
            opened = turn
        elif opened is not None and pair.is_pair_solved(cubes[turn], slot):
            found.append(Opening(slot, opened, turn))
            opened = None
    if opened is not None:
        found.append(Opening(slot, opened, None))
    return found


def _carried(cubes: list[Cube], ordered: list[PairStages]) -> tuple[Carried, ...]:
    found = []
    for first, second in pairwise(ordered):
        if first.slotted is None:
            continue
        start, then = (
            pair.placement(pair.pair_place(cubes[turn], second.slot), second.slot)
            for turn in (0, first.slotted)
        )
        if start != then:
            joined = pair.is_joined(cubes[first.slotted], second.slot)
            found.append(Carried(second.slot, first.slot, joined))
    return tuple(found)
