"""Pairwright: play corner-edge pairs of the 3x3x3 cube against the exact shortest solution."""

__version__ = "0.1.0"
