"""Records: every attempt with everything done in it, kept in one SQLite file.

record      what is kept of an attempt, what a position's attempts come to, and their bounds
history     reading all attempts in one pass
schema      the tables, version by version
database    opening the file: locked, later, damaged, unwritable
store       adding, bests, the attempt in hand
"""

from game.records.record import CASUAL, DRILL, Best, Events, InHand, Record, Sums, Tried
from game.records.store import Records, open_records, records_to_play

__all__ = [
    "CASUAL",
    "DRILL",
    "Best",
    "Events",
    "InHand",
    "Record",
    "Records",
    "Sums",
    "Tried",
    "open_records",
    "records_to_play",
]
