"""What all attempts come to: by kind of placement and slot, by side, by day.

Measures are of *fair* attempts: solved, no hint and no solution seen before. Times are medians,
which one long absence does not move; turns over par is a mean, for it is mostly nought.

A position of one pair counts by where the pair lies (`KINDS`) and by its slot; one of several by
how many there are; one whose cross is not done only as a whole.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from statistics import median
from typing import TypeVar

from game.attempt import replayed
from game.cube import pair
from game.cube.moves import MOVES
from game.cube.pair import PairPlace, in_top, slot_at
from game.errors import PositionError
from game.position import Position, glance
from game.records.record import Events, Trial

BOTH_ABOVE, EDGE_IN, CORNER_IN, BOTH_IN, ASTRAY = (
    "both above",
    "edge in slot",
    "corner in slot",
    "both in slot",
    "one astray",
)
KINDS = (BOTH_ABOVE, EDGE_IN, CORNER_IN, BOTH_IN, ASTRAY)
"""Where a pair can lie: 24, 6, 6 and 6 placements, and the 126 with a piece in another slot."""
SIDES = ("left", "right", "front", "back")

_Key = TypeVar("_Key")


@dataclass(frozen=True)
class Sum:
    """What some attempts come to; None where none of them tells.

    tried: attempts; fair: those solved without help. over: mean turns over par. seeing_ms,
    doing_ms: median milliseconds. pace: turns a second, all executed turns by all doing time.
    """

    tried: int = 0
    fair: int = 0
    at_par: int = 0
    over: float | None = None
    seeing_ms: float | None = None
    doing_ms: float | None = None
    pace: float | None = None


@dataclass(frozen=True)
class Day:
    """A day on which something was tried: its number, counted from 1 January 1970."""

    day: int
    sum: Sum


@dataclass(frozen=True)
class Statistics:
    """placements: (kind, slot) -> sum; several: number of pairs -> sum; sides: side -> sum.

    What was never tried is not there. days: in order.
    """

    whole: Sum
    placements: Mapping[tuple[str, str], Sum]
    several: Mapping[int, Sum]
    sides: Mapping[str, Sum]
    days: tuple[Day, ...]


def statistics(trials: Iterable[Trial]) -> Statistics:
    """What these attempts come to; holds their few facts in memory."""
    by_position: defaultdict[str, list[Trial]] = defaultdict(list)
    by_day: defaultdict[int, list[Trial]] = defaultdict(list)
    for trial in trials:
        by_position[trial.position].append(trial)
        by_day[trial.day].append(trial)
    placements: defaultdict[tuple[str, str], list[Trial]] = defaultdict(list)
    several: defaultdict[int, list[Trial]] = defaultdict(list)
    sides: defaultdict[str, list[Trial]] = defaultdict(list)
    for text, tried in by_position.items():
        places = _places(text)
        if len(places) > 1:
            several[len(places)] += tried
        for slot, place in places.items() if len(places) == 1 else ():
            placements[kind(place, slot), slot] += tried
            for side in sides_of(slot):
                sides[side] += tried
    return Statistics(
        whole=summed([trial for tried in by_day.values() for trial in tried]),
        placements=_all_summed(placements),
        several=_all_summed(several),
        sides=_all_summed(sides),
        days=tuple(Day(day, summed(by_day[day])) for day in sorted(by_day)),
    )


def summed(trials: Sequence[Trial]) -> Sum:
    """What these attempts come to."""
    fair = [trial for trial in trials if trial.solved and not trial.helped]
    over = [max(0, t.turns - t.par) for t in fair if t.par is not None]
    timed = [(t.executed, t.doing_ms) for t in fair if t.doing_ms]
    doing = sum(ms for _, ms in timed)
    return Sum(
        tried=len(trials),
        fair=len(fair),
        at_par=over.count(0),
        over=sum(over) / len(over) if over else None,
        seeing_ms=_median([t.seeing_ms for t in fair if t.seeing_ms is not None]),
        doing_ms=_median([t.doing_ms for t in fair if t.doing_ms is not None]),
        pace=1000 * sum(turns for turns, _ in timed) / doing if doing else None,
    )


def series(
    days: Sequence[Day], most: int, measure: Callable[[Sum], float | None]
) -> tuple[float | None, ...]:
    """A measure in the course of the days played, in at most so many steps.

    Days that share a step give the mean of theirs; None where no day of the step has one.
    """
    count = min(most, len(days))
    steps = (days[len(days) * i // count : len(days) * (i + 1) // count] for i in range(count))
    found = ([value for day in step if (value := measure(day.sum)) is not None] for step in steps)
    return tuple(sum(values) / len(values) if values else None for values in found)


def pauses(position: Position, events: Events) -> tuple[int, ...]:
    """Milliseconds between the turn that solved a pair and the next turn, for each but the last.

    A pair counts once more are solved than ever before in the attempt; rotations, undoing and
    looking end no pause. Raises PositionError or ForbiddenTurn for events that do not fit.
    """
    found = []
    most, since = 0, None
    for attempt in replayed(position, events):
        ms, what = attempt.events[-1]
        if since is not None and what in MOVES and what[0] not in "xyz":
            found.append(ms - since)
            since = None
        solved = sum(pair.is_pair_solved(attempt.cube, slot) for slot in position.pairs)
        if solved > most:
            most, since = solved, ms
    return tuple(found)


@cache
def kind(place: PairPlace, slot: str) -> str:
    """Which of `KINDS` a pair of this slot is that lies there."""
    if any(slot_at(sticker) not in ("", slot) for sticker in place):
        return ASTRAY
    above = in_top(place.corner), in_top(place.edge)
    return {
        (True, True): BOTH_ABOVE,
        (True, False): EDGE_IN,
        (False, True): CORNER_IN,
        (False, False): BOTH_IN,
    }[above]


def sides_of(slot: str) -> tuple[str, str]:
    """Front or back, left or right."""
    return ("front" if "F" in slot else "back", "left" if "L" in slot else "right")


def _places(text: str) -> Mapping[str, PairPlace]:
    """The pairs in play of a position whose cross is done; none for any other text."""
    try:
        seen = glance(text)
    except PositionError:
        return {}
    return seen.places if seen.has_cross else {}


def _all_summed(found: Mapping[_Key, list[Trial]]) -> dict[_Key, Sum]:
    return {key: summed(trials) for key, trials in found.items()}


def _median(numbers: list[int]) -> float | None:
    return median(numbers) if numbers else None
