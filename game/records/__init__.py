"""Records: every attempt with everything done in it, kept in one SQLite file.

record      what is kept of an attempt, what a position's attempts come to, and their bounds
runs        what several attempts together are part of
history     reading all attempts in one pass
schema      the tables, version by version
database    opening the file: locked, later, damaged, unwritable
store       adding, bests, the attempt in hand
journal     what one game writes, held until it is in the file
"""

from game.records.journal import Journal, records_to_play
from game.records.record import (
    CLAIMED,
    Best,
    Events,
    InHand,
    Record,
    Sums,
    Tried,
)
from game.records.runs import Brief, KeptRun
from game.records.store import Records, open_records

__all__ = [
    "CLAIMED",
    "Best",
    "Brief",
    "Events",
    "InHand",
    "Journal",
    "KeptRun",
    "Record",
    "Records",
    "Sums",
    "Tried",
    "open_records",
    "records_to_play",
]
