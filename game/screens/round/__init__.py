"""Positions played against the clock: of a run, a match or a contest."""
