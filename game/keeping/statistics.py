"""What all attempts come to: by kind of placement and slot, by side, by day.

The records add the attempts up; here the sums are put together. Measures are means of *fair*
attempts: solved, no hint and no solution seen before.

A position of one pair counts by where the pair lies (`KINDS`) and by its slot; one of several by
how many there are; one whose cross is not done only as a whole.

Strength is a Glicko-2 rating: every attempt is a game between the player and the position, won at
par without help, and a day is a rating period. What a position is worth follows from its par.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass
from functools import cache, reduce
from itertools import islice, repeat
from pathlib import Path

from game.cube import pair
from game.cube.moves import MOVES
from game.cube.pair import PairPlace, in_top, slot_at
from game.drill.rating import Rating, rated
from game.errors import ForbiddenTurn, PositionError
from game.play.attempt import replayed
from game.play.position import Position, glance, parse_position
from game.records import Records
from game.records.record import Events, Record, Sums

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
AVERAGE_RATING, AVERAGE_PAR, A_TURN, OPPONENT_DEVIATION = 1500.0, 6, 100.0, 150.0
"""A position of par 6 is worth 1500; each turn more or less moves that by 100, as in the drill."""
MOST_REPLAYED, MOST_LOOKED_AT = 100, 2000
"""Pauses are found by replaying: of so many attempts, among so many of the last."""


@dataclass(frozen=True)
class Day:
    """A day on which something was tried: its number, counted from 1 January 1970.

    strength: of the player after it.
    """

    day: int
    sums: Sums
    strength: Rating


@dataclass(frozen=True)
class Statistics:
    """placements: (kind, slot) -> sums; several: number of pairs -> sums; sides: side -> sums.

    What was never tried is not there. days: in order.
    """

    whole: Sums
    placements: Mapping[tuple[str, str], Sums]
    several: Mapping[int, Sums]
    sides: Mapping[str, Sums]
    days: tuple[Day, ...]


def statistics(
    by_position: Mapping[str, Sums], by_day: Mapping[tuple[int, int | None], Sums]
) -> Statistics:
    """What attempts come to. by_position: text -> sums; by_day: day and par -> sums."""
    placements: defaultdict[tuple[str, str], Sums] = defaultdict(Sums)
    several: defaultdict[int, Sums] = defaultdict(Sums)
    sides: defaultdict[str, Sums] = defaultdict(Sums)
    for text, sums in by_position.items():
        places = _places(text)
        if len(places) > 1:
            several[len(places)] = several[len(places)].plus(sums)
        for slot, place in places.items() if len(places) == 1 else ():
            key = kind(place, slot), slot
            placements[key] = placements[key].plus(sums)
            for side in sides_of(slot):
                sides[side] = sides[side].plus(sums)
    days = _days(by_day)
    return Statistics(_together(day.sums for day in days), placements, several, sides, days)


def statistics_of(path: Path) -> Statistics:
    """What the attempts in a file come to. Its two sums are added up side by side.

    Raises RecordsError.
    """
    with ThreadPoolExecutor(1) as beside, closing(Records(path)) as records:
        if records.is_empty:  # before there are two: a damaged file is moved aside, and told, once
            return statistics({}, {})
        by_day = beside.submit(_sums_by_day, path)
        return statistics(records.sums_by_position(), by_day.result())


def _sums_by_day(path: Path) -> dict[tuple[int, int | None], Sums]:
    """With a connection of its own, which belongs to its thread."""
    with closing(Records(path)) as records:
        return records.sums_by_day()


def _days(by_day: Mapping[tuple[int, int | None], Sums]) -> tuple[Day, ...]:
    """Each day played, with the strength after it: a day is a rating period."""
    pars: defaultdict[int, list[tuple[int | None, Sums]]] = defaultdict(list)
    for (day, par), sums in by_day.items():
        pars[day].append((par, sums))
    found = []
    strength = Rating()
    for day in sorted(pars):
        strength = rated(strength, _games(pars[day]))
        found.append(Day(day, _together(sums for _, sums in pars[day]), strength))
    return tuple(found)


def _games(pars: Iterable[tuple[int | None, Sums]]) -> Iterator[tuple[Rating, float]]:
    """A day's attempts as games against their positions: won at par without help."""
    for par, sums in pars:
        if par is not None:
            opponent = Rating(AVERAGE_RATING + A_TURN * (par - AVERAGE_PAR), OPPONENT_DEVIATION)
            yield from repeat((opponent, 1.0), sums.at_par)
            yield from repeat((opponent, 0.0), sums.tried - sums.at_par)


def _together(all_sums: Iterable[Sums]) -> Sums:
    return reduce(Sums.plus, all_sums, Sums())


# -- measures ------------------------------------------------------------------------------------


def over(sums: Sums) -> float | None:
    """Mean turns over par."""
    return sums.over / sums.with_par if sums.with_par else None


def seeing(sums: Sums) -> float | None:
    """Mean seconds of seeing."""
    return sums.seeing_ms / sums.seen / 1000 if sums.seen else None


def doing(sums: Sums) -> float | None:
    """Mean seconds of doing."""
    return sums.doing_ms / sums.done / 1000 if sums.done else None


def pace(sums: Sums) -> float | None:
    """Turns a second: all execution turns by all doing time."""
    return 1000 * sums.executed / sums.doing_ms if sums.doing_ms else None


def series(
    days: Sequence[Day], most: int, measure: Callable[[Day], float | None]
) -> tuple[float | None, ...]:
    """A measure in the course of the days played, in at most so many steps.

    Days that share a step give the mean of theirs; None where no day of the step has one.
    """
    count = min(most, len(days))
    steps = (days[len(days) * i // count : len(days) * (i + 1) // count] for i in range(count))
    found = ([value for day in step if (value := measure(day)) is not None] for step in steps)
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


def recent_pauses(newest_first: Iterable[Record]) -> tuple[int, ...]:
    """The pauses of the last `MOST_REPLAYED` fair attempts at several pairs."""
    found: list[int] = []
    replays = 0
    for record in islice(newest_first, MOST_LOOKED_AT):
        if not record.is_solved or record.is_helped or len(_places(record.position)) < 2:
            continue
        try:
            found += pauses(parse_position(record.position), record.events)
        except (PositionError, ForbiddenTurn):
            continue
        replays += 1
        if replays == MOST_REPLAYED:
            break
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
