"""Timed runs: rules, clock arithmetic, pace and results, without a clock of their own.

terms       what a run is played on
"""

from game.runs.terms import DASH, HOURGLASS, Terms

__all__ = ["DASH", "HOURGLASS", "Terms"]
