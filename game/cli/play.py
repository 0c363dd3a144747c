"""`pairwright` alone: the game. It needs a terminal for its input and both outputs."""

from __future__ import annotations

import gc
import os
import sys
from typing import TYPE_CHECKING

from game.cli.exits import Exit
from game.folders import Folders

if TYPE_CHECKING:
    import argparse

    from game.friends.contest import Contest

COLOUR_SYSTEMS = ("auto", "standard", "256", "truecolor", "windows")
"""What Rich's Console takes; any other value of the variable is as none."""


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Play until the player leaves."""
    return play(folders)


def play(folders: Folders, contest: Contest | None = None) -> int:
    """Play until the player leaves, a contest first if one is given; refuse without a terminal."""
    # The picture is written to standard error, where Textual writes it.
    streams = (sys.stdin, sys.stdout, sys.stderr)
    if not all(stream is not None and stream.isatty() for stream in streams):
        print(
            "pairwright: the game needs a terminal; the commands par, check and where do not",
            file=sys.stderr,
        )
        return Exit.CANNOT
    if os.environ.get("TEXTUAL_COLOR_SYSTEM") not in COLOUR_SYSTEMS:
        os.environ.pop("TEXTUAL_COLOR_SYSTEM", None)  # Textual would end with a traceback
    gc.disable()  # until the first picture stands: start-up only makes what stays
    from game.screens.launch import run as run_app  # noqa: PLC0415 - Textual only for the game

    return run_app(folders, contest=contest)
