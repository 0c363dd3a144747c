"""Positions that are dealt: from a seed, from a pack or for a date, the same on every machine."""
