"""Reading all attempts in one pass: whole, one after another, or added up.

A row that cannot be read is left out, of the sums what cannot be added up.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from typing import Any

from game.errors import RecordsError
from game.modes import MATCH
from game.records.record import (
    AWAY_MS,
    MAX_EVENTS_TEXT,
    MAX_NUMBER,
    MAX_TEXT,
    Record,
    Sums,
    Tried,
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
    "inspection",
)
"""Fields of a Record that are columns of the same name."""

WHOLE = f"""
    SELECT {", ".join(FACTS)}, began, offset_minutes,
        substr(events, 1, {MAX_EVENTS_TEXT + 1}) AS events
    FROM attempt LEFT JOIN attempt_events USING (number)
"""
"""Attempts with their events; what comes after says which."""

FAIR = "outcome = 'solved' AND NOT shown AND NOT hint AND typeof(turns) = 'integer'"
"""What counts: solved without help."""
OWN = f"mode <> '{MATCH}'"
"""What is added up: a match has attempts of others too."""
_WITHIN = f"BETWEEN 0 AND {MAX_NUMBER}"
_POSITION = f"typeof(position) = 'text' AND length(position) <= {MAX_TEXT['position']}"
_DAY = "CAST(julianday(began) - 2440587.5 + offset_minutes / 1440.0 AS INTEGER)"
_PAR = f"CASE WHEN typeof(par) = 'integer' AND par {_WITHIN} THEN par END"
_KEYS = {"position": "position", "day": f"{_DAY} AS day, {_PAR} AS par"}
_GROUPED = {"position": "+position", "day": "1, 2"}
"""The plus keeps SQLite from going through the index, which visits the rows in no good order."""


def _tried(by: str) -> str:
    groups = _GROUPED[by].lstrip("+")  # the index alone tells how many there are
    return (
        f"SELECT {_KEYS[by]}, count(*) FROM attempt WHERE {_POSITION} AND {OWN} GROUP BY {groups}"
    )


def _fair(by: str) -> str:
    """The sums of `Sums` after `tried`: counting and adding pass over what is NULL.

    `BETWEEN` holds for numbers alone, and the cast keeps what is beyond all bounds an integer.
    """
    totals = ("over", "over = 0", "seeing", "doing", "CASE WHEN doing THEN executed END")
    over, at_par, seeing, doing, executed = (f"CAST(total({x}) AS INTEGER)" for x in totals)
    return f"""
        SELECT {_KEYS[by]}, count(*), count(over), {over}, {at_par},
            count(seeing), {seeing}, count(doing), {doing}, {executed}
        FROM (
            SELECT *, CASE WHEN par {_WITHIN} THEN max(0, turns - par) END AS over,
                CASE WHEN seeing_ms BETWEEN 1 AND {AWAY_MS} THEN seeing_ms END AS seeing,
                CASE WHEN doing_ms BETWEEN 1 AND {AWAY_MS} THEN doing_ms END AS doing
            FROM attempt WHERE {_POSITION} AND {OWN} AND {FAIR}
        )
        GROUP BY {_GROUPED[by]}
    """


_TRIED = f"""
    SELECT number, puzzle, position, {FAIR} AND par {_WITHIN} AND turns <= par,
        CASE WHEN outcome = 'solved' AND seeing_ms {_WITHIN} AND doing_ms {_WITHIN}
            THEN CAST(seeing_ms + doing_ms AS INTEGER) END
    FROM attempt
    WHERE number > ? AND mode = ? AND {_POSITION}
        AND typeof(puzzle) = 'text' AND length(puzzle) <= {MAX_TEXT["puzzle"]}
    ORDER BY number
"""


def record_of(row: sqlite3.Row) -> Record:
    """A row of `WHOLE` as a Record. Raises RecordsError for one that cannot be."""
    facts = {name: row[name] for name in FACTS}
    for name in ("shown", "hint", "at_hand"):
        facts[name] = None if facts[name] is None else bool(facts[name])
    began = parse_began(row["began"], row["offset_minutes"])
    return Record(**facts, events=parse_events(row["events"]), began=began)


def whole(
    connection: sqlite3.Connection, skip: Callable[[], None], *, newest_first: bool
) -> Iterator[Record]:
    """Every attempt, the oldest or the newest first."""
    order = "DESC" if newest_first else "ASC"
    for row in connection.execute(f"{WHOLE} ORDER BY number {order}"):
        try:
            yield record_of(row)
        except RecordsError:
            skip()


def tries(connection: sqlite3.Connection, mode: str, after: int) -> tuple[Tried, ...]:
    """What rating needs of the attempts of a mode with greater numbers, the oldest first."""
    cursor = connection.cursor()
    cursor.row_factory = None
    rows = cursor.execute(_TRIED, (after, mode))
    return tuple(
        Tried(number, puzzle, text, None if won is None else bool(won), ms)
        for number, puzzle, text, won, ms in rows
    )


def sums_by_position(connection: sqlite3.Connection) -> dict[str, Sums]:
    """The attempts at each position, added up."""
    return {key[0]: sums for key, sums in _added(connection, "position", 1)}


def sums_by_day(connection: sqlite3.Connection) -> dict[tuple[int, int | None], Sums]:
    """The attempts of each day at positions of each par, added up; a par of None: not known.

    A day is one of the player's calendar, counted from 1 January 1970.
    """
    found = _added(connection, "day", 2)
    return {(key[0], key[1]): sums for key, sums in found if key[0] is not None}


def _added(
    connection: sqlite3.Connection, by: str, keys: int
) -> Iterator[tuple[tuple[Any, ...], Sums]]:
    """The sums for each key of so many columns."""
    cursor = connection.cursor()
    cursor.row_factory = None  # plain tuples are made faster than rows
    fair = {row[:keys]: row[keys:] for row in cursor.execute(_fair(by))}
    for *key, tried in cursor.execute(_tried(by)):
        yield tuple(key), Sums(tried, *fair.get(tuple(key), ()))
