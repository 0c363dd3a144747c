"""The large tables, built and searched in a process of its own, whose memory is measured."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

PEAK = """
import resource, sys
from pathlib import Path
from game.cube.cube import SOLVED
from game.cube.moves import parse_line
from game.cube.pair import SLOTS
from game.engine.searching import build_large
from game.search.cache import load_all_tables
from game.search.shortest import search
folder = Path(sys.argv[1])
assert build_large(folder, lambda growing: None, lambda: None, lambda: False)
tables = load_all_tables(folder)
search(SOLVED.turn(parse_line(sys.argv[2])), SLOTS, tables=tables, first=True)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""
"""Builds what is missing, or waits for who does, and searches; tells the most memory that it ever
had, in kilobytes."""


def peak(folder: Path, setup: str) -> int:
    """Bytes of memory for the tables of a folder, built if need be, and the search of a setup."""
    command = [sys.executable, "-c", PEAK, str(folder), setup]
    return 1024 * int(subprocess.run(command, capture_output=True, check=True, text=True).stdout)
