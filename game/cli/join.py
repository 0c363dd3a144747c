"""`pairwright join`: the game, opened at the contest of an invite."""

from __future__ import annotations

import argparse
import os
import sys
from itertools import islice
from pathlib import Path
from typing import BinaryIO

from game.cli import play
from game.cli.received import received
from game.errors import CodeError
from game.folders import Folders

NAME = "join"
HELP = "play the contest of an invite"
DESCRIPTION = """\
Open the game at the contest of an invite. CODE is the invite as it was sent, with other text round
it or without; or the name of a file that holds it; or - to read it from the standard input."""

MAX_PIECES = 30
"""Pieces of text that are read at most, two million characters."""
TERMINAL = "/dev/tty"


def define(parser: argparse.ArgumentParser) -> None:
    """The invite."""
    parser.add_argument(
        "code", metavar="CODE", nargs="+", help="an invite, a file that holds one, or -"
    )


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Read the invite, then play. Raises CodeError for text that holds none."""
    from game.friends.codes import read_invite  # noqa: PLC0415 - only here

    contest = read_invite(_text(arguments.code))
    if arguments.code == ["-"]:
        _back_to_the_terminal()
    return play.play(folders, contest)


def _text(words: list[str]) -> str:
    """The text that the words are, or lead to."""
    if words == ["-"]:
        if sys.stdin is None:
            raise CodeError("there is no standard input to read an invite from")
        return _beginning(sys.stdin.buffer)
    if len(words) == 1 and (path := _file(words[0])) is not None:
        with path.open("rb") as file:
            return _beginning(file)
    return " ".join(words)


def _beginning(stream: BinaryIO) -> str:
    return "".join(islice(received(stream), MAX_PIECES))


def _file(name: str) -> Path | None:
    """The file of that name, if there is one."""
    try:
        path = Path(name)
        return path if path.is_file() else None
    except (OSError, ValueError):  # too long for a name, or with a character that none has
        return None


def _back_to_the_terminal() -> None:
    """Once the standard input is read, keys come from the terminal itself, where there is one."""
    if sys.stdin.isatty():
        return
    try:
        terminal = os.open(TERMINAL, os.O_RDONLY)
    except OSError:
        return  # the game says that it needs one
    os.dup2(terminal, sys.stdin.fileno())
    os.close(terminal)
