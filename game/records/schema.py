"""The tables of the database of attempts, version by version.

`MIGRATIONS[n]` takes a database of version n to n + 1; the version is SQLite's `user_version`, and
`application_id` says whose file it is. A migration that has been released is never changed: a new
one is added, and what an earlier version did not keep stays NULL.

Bounds are checked when rows are read, not by constraints: one bad row must not make the whole
file a damaged one.
"""

from __future__ import annotations

APPLICATION = 0x70617277
"""The `application_id` of our databases ("parw")."""

_FIRST = (
    """
    CREATE TABLE attempt (
        number INTEGER PRIMARY KEY,
        position TEXT NOT NULL,          -- its canonical text
        puzzle TEXT NOT NULL,            -- pack/level, or empty
        outcome TEXT NOT NULL,           -- solved, gave up, abandoned
        turns INTEGER NOT NULL,          -- outer block turns
        executed INTEGER NOT NULL,       -- execution turns
        par INTEGER,
        at_hand INTEGER,                 -- 0, 1, or NULL when unknown
        shown INTEGER NOT NULL,
        hint INTEGER NOT NULL,
        called TEXT NOT NULL,            -- right, wrong, or empty
        far_side TEXT NOT NULL,          -- always, asked, never
        seeing_ms INTEGER,
        first_side_ms INTEGER,
        doing_ms INTEGER,
        mode TEXT NOT NULL,
        run TEXT NOT NULL,
        player TEXT NOT NULL,
        began TEXT NOT NULL,             -- ISO 8601 in UTC
        offset_minutes INTEGER NOT NULL, -- of the player's clock from UTC
        version TEXT NOT NULL            -- of the program
    )
    """,
    "CREATE INDEX attempt_position ON attempt (position)",
    # Apart from the attempts, so that adding up bests need not read past them.
    """
    CREATE TABLE attempt_events (
        number INTEGER PRIMARY KEY REFERENCES attempt (number),
        events TEXT NOT NULL             -- JSON: [[milliseconds, done], ...]
    )
    """,
    """
    CREATE TABLE shown (
        position TEXT PRIMARY KEY,       -- its solutions have been seen
        at TEXT NOT NULL
    )
    """,
    """
    CREATE TABLE in_hand (
        position TEXT PRIMARY KEY,
        puzzle TEXT NOT NULL,
        events TEXT NOT NULL,
        elapsed_ms INTEGER NOT NULL,
        at TEXT NOT NULL
    )
    """,
)

_RUNS = (
    """
    CREATE TABLE run (
        number INTEGER PRIMARY KEY,
        mode TEXT NOT NULL,              -- as in its attempts: dash, match, ...
        kind TEXT NOT NULL,              -- runs of one kind can be compared
        text TEXT NOT NULL,              -- what else its mode knows of it
        began TEXT NOT NULL,             -- ISO 8601 in UTC
        offset_minutes INTEGER NOT NULL, -- of the player's clock from UTC
        ended TEXT                       -- like began; NULL while it goes on
    )
    """,
    "CREATE INDEX attempt_run ON attempt (run) WHERE run <> ''",
    # So that counting the attempts at each position without those of others needs the index alone.
    "DROP INDEX attempt_position",
    "CREATE INDEX attempt_position ON attempt (position, mode)",
    # Seconds that the rule of inspection added; NULL where nothing was inspected.
    "ALTER TABLE attempt ADD COLUMN inspection INTEGER",
)

MIGRATIONS: tuple[tuple[str, ...], ...] = (_FIRST, _RUNS)
