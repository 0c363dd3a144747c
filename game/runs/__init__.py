"""Timed runs: rules, clock arithmetic, pace and results, without a clock of their own.

terms       what a run is played on
run         a run so far: its sums, its end, what ranks it
pace        how it stands beside the best of its kind
inspection  the rule of inspection before a start
times       hundredths of a second: cut, rounded, written
"""

from game.runs.pace import best, is_record, pace_words
from game.runs.run import Done, Run, parse_run, run_text
from game.runs.terms import RunTerms

__all__ = [
    "Done",
    "Run",
    "RunTerms",
    "best",
    "is_record",
    "pace_words",
    "parse_run",
    "run_text",
]
