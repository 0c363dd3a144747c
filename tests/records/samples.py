"""A record to start from."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

from game.records import Record

SAMPLE = Record(
    position="....mscw/......qsihfp/FR+FL+BL+BR/FBRLUD/focus",
    puzzle="sideways/follow-the-corner",
    events=((900, "y"), (1500, "R"), (1800, "U"), (2000, "undo"), (2200, "U"), (2500, "R'")),
    outcome="solved",
    turns=3,
    executed=4,
    par=3,
    at_hand=True,
    began=datetime(2026, 11, 25, 10, 15, tzinfo=timezone(timedelta(hours=1))),
    version="0.1.0",
    seeing_ms=1500,
    first_side_ms=1500,
    doing_ms=1000,
)
