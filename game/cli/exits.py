"""The exit codes, the same for every command."""

from __future__ import annotations

from enum import IntEnum

from game import mishap


class Exit(IntEnum):
    """How a command ended."""

    DONE = 0
    FAULT = 1
    CANNOT = 2
    MISHAP = mishap.STATUS
    STOPPED = 130


MEANING = {
    "0": 'done: what was asked is told, "no solution" included',
    "1": "a fault in what was asked: turns, slots, faces, packs, codes, options",
    "2": "cannot run here: no terminal to play in, something not installed, no room to write",
    "70": "something went wrong that nobody foresaw: the file that is named tells what",
    "130": "stopped by Ctrl-C; what was proven up to then has been told",
    "128+n": "the game was ended by signal n",
}
"""Every exit code that is used, in words."""
