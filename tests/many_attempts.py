"""A database of as many attempts as wanted, of all placements and slots, over many days."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from game.cube import pair
from game.cube.pair import SLOTS
from game.play.position import Position, position_of
from game.records.database import connect, transaction
from game.records.history import FACTS
from game.records.record import Events, began_text, events_text
from tests.deals import one_pair_unsolved, pairs_unsolved

FIRST_DAY = datetime(2024, 1, 1, 18, 0, tzinfo=UTC)
DAYS = 600
WEAK = 0.6
"""How much worse the player is where only the pair of BL is in play."""


def positions(chance: random.Random, count: int) -> tuple[Position, ...]:
    """Positions with the cross done: one pair above or in its slot, then strays and more pairs."""
    single = [position_of(cube) for slot in SLOTS for cube in one_pair_unsolved(slot)]
    found = {position.text: position for position in single[:count]}
    for number in range(20 * count):
        if len(found) >= count:
            break
        pairs = 1 + number % 4
        (cube,) = pairs_unsolved(max(2, pairs), 1, seed=number)
        slots = [slot for slot in SLOTS if not pair.is_pair_solved(cube, slot)]
        solve = chance.sample(slots, min(pairs, len(slots)))
        position = position_of(cube, solve)
        found[position.text] = position
    return tuple(found.values())


def rows(
    chance: random.Random, count: int, different: int, first: datetime
) -> Iterator[dict[str, Any]]:
    """Columns of attempts, and their events; the player grows better and faster."""
    played = positions(chance, different)
    for number in range(count):
        position = chance.choice(played)
        grown = number / max(1, count - 1)
        par = 3 + len(position.pairs) * 3 + chance.randint(0, 2)
        weak = WEAK * (position.pairs == ("BL",))
        turns = par + int(chance.expovariate(1 / (2.2 - 1.8 * grown + weak)))
        seeing = int(chance.lognormvariate(8.6 - grown + weak, 0.5))
        pace = chance.uniform(350, 700) * (1 - 0.5 * grown)
        day = grown * DAYS
        if int(day) % 3 == 1:  # no day of play
            day -= 1
        began = first + timedelta(days=int(day), seconds=number % 3600)
        solved = chance.random() < 0.9
        utc, offset = began_text(began)
        yield {
            "position": position.text,
            "puzzle": f"many/{number % different}",
            "outcome": "solved" if solved else chance.choice(("gave up", "abandoned")),
            "turns": turns,
            "executed": turns,
            "par": par,
            "at_hand": None,
            "shown": chance.random() < 0.05,
            "hint": False,
            "called": "",
            "far_side": "always",
            "seeing_ms": seeing,
            "first_side_ms": seeing,
            "doing_ms": int(pace * (turns - 1)) if solved else None,
            "mode": "casual",
            "run": "",
            "player": "",
            "inspection": None,
            "version": "0",
            "began": utc,
            "offset_minutes": offset,
            "events": events_text(_events(chance, seeing, pace, turns)),
        }


def _events(chance: random.Random, seeing: int, pace: float, turns: int) -> Events:
    names = chance.choices(("R", "U", "R'", "U'", "F", "L'"), k=turns)
    return tuple((seeing + int(pace * at), name) for at, name in enumerate(names))


def write(
    path: Path, count: int, different: int = 3000, seed: int = 2026, first: datetime = FIRST_DAY
) -> None:
    """Write a database of so many attempts at so many different positions over `DAYS` days."""
    columns = (*FACTS, "began", "offset_minutes")
    insert = (
        f"INSERT INTO attempt ({', '.join(columns)}) VALUES ({', '.join(f':{c}' for c in columns)})"
    )
    with closing(connect(path)) as connection, transaction(connection):
        for row in rows(random.Random(seed), count, different, first):
            _add(connection, insert, row)


def _add(connection: sqlite3.Connection, insert: str, row: dict[str, Any]) -> None:
    number = connection.execute(insert, row).lastrowid
    connection.execute("INSERT INTO attempt_events VALUES (?, ?)", (number, row["events"]))
