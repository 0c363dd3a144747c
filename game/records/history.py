"""Reading all attempts in one pass, whole or slim, without holding them all.

Each row is checked by itself: one that cannot be read is left out and told to `skip`.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator

from game.errors import RecordsError
from game.records.record import (
    MAX_EVENTS_TEXT,
    MAX_NUMBER,
    MAX_TEXT,
    Record,
    Trial,
    parse_began,
    parse_events,
)

FACTS = (
    "position",
    "puzzle",
    "outcome",
    "turns",
    "executed",
    "par",
    "at_hand",
    "shown",
    "hint",
    "called",
    "far_side",
    "seeing_ms",
    "first_side_ms",
    "doing_ms",
    "mode",
    "run",
    "player",
    "version",
)
"""Fields of a Record that are columns of the same name."""

WHOLE = f"""
    SELECT {", ".join(FACTS)}, began, offset_minutes,
        substr(events, 1, {MAX_EVENTS_TEXT + 1}) AS events
    FROM attempt LEFT JOIN attempt_events USING (number)
"""
"""Attempts with their events; what comes after says which."""

_NUMBERS = ("turns", "executed", "par", "seeing_ms", "doing_ms")
_MAY_LACK = ("par", "seeing_ms", "doing_ms")
_SLIM = f"""
    SELECT position, outcome = 'solved' AS solved, shown OR hint AS helped,
        {", ".join(_NUMBERS)},
        CAST(julianday(began) - 2440587.5 + offset_minutes / 1440.0 AS INTEGER) AS day
    FROM attempt
"""
_READABLE = " AND ".join(
    [
        "length(position) <= " + str(MAX_TEXT["position"]),
        "typeof(position) = 'text'",
        "day IS NOT NULL",
        *(
            f"(typeof({name}) = 'integer' AND {name} BETWEEN 0 AND {MAX_NUMBER}"
            + (f" OR {name} IS NULL)" if name in _MAY_LACK else ")")
            for name in _NUMBERS
        ),
    ]
)
_SLIM_READABLE = f"{_SLIM} WHERE {_READABLE} ORDER BY number"


def record_of(row: sqlite3.Row) -> Record:
    """A row of `WHOLE` as a Record. Raises RecordsError for one that cannot be."""
    facts = {name: row[name] for name in FACTS}
    for name in ("shown", "hint", "at_hand"):
        facts[name] = None if facts[name] is None else bool(facts[name])
    began = parse_began(row["began"], row["offset_minutes"])
    return Record(**facts, events=parse_events(row["events"]), began=began)


def whole(connection: sqlite3.Connection, skip: Callable[[], None]) -> Iterator[Record]:
    """Every attempt, the oldest first."""
    for row in connection.execute(f"{WHOLE} ORDER BY number"):
        try:
            yield record_of(row)
        except RecordsError:
            skip()


def trials(connection: sqlite3.Connection) -> Iterator[Trial]:
    """What counting needs of every attempt, the oldest first; unreadable rows are left out."""
    cursor = connection.cursor()
    cursor.row_factory = None
    return map(Trial._make, cursor.execute(_SLIM_READABLE))
