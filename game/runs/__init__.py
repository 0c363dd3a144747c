"""Timed runs: rules, clock arithmetic, pace and results, without a clock of their own.

terms       what a run is played on
inspection  the rule of inspection before a start
times       hundredths of a second: cut, rounded, written
"""

from game.runs.terms import DASH, HOURGLASS, Terms

__all__ = ["DASH", "HOURGLASS", "Terms"]
