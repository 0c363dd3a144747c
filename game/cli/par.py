"""`pairwright par`: the exact par of a setup, and its shortest solutions."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, BinaryIO

from game.cli.exits import Exit
from game.cube import pair
from game.cube.geometry import FACES
from game.cube.moves import MAX_TEXT
from game.errors import NotationError, PairwrightError, printable
from game.folders import Folders

if TYPE_CHECKING:
    from game.cli.answer import Asker

NAME = "par"
HELP = "tell the exact par of a setup and its shortest solutions"
DESCRIPTION = """\
Tell the exact par of the position that SETUP makes of a solved cube, and every shortest solution,
the easiest on the hands first. SETUP is one argument in double quotes, so that the shell leaves
the primes alone:

    pairwright par "R U R' U'"

Three and four pairs take large tables, which are built at the first such setup: a minute, once,
and 194 MB (see: pairwright tables --help). --first ends at the first solution of par.

--pairs tells also how many turns it takes at least to solve one pair after another, each on a
shortest way that leaves the solved ones solved in the end: the best of all orders and such ways.

With - in place of SETUP, one setup is read from each line of standard input (an empty line is the
setup of no turns) and answered by one line of JSON, in the same order. Ctrl-C stops a search; what
is proven so far is told."""

MAX_BYTES = 4 * MAX_TEXT
"""Bytes of an input line that are read at most; the rest of a longer one is thrown away."""


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    parser.add_argument(
        "--open", metavar="SLOTS", default="", help="slots that need not be solved, like FR,BL"
    )
    parser.add_argument(
        "--faces", metavar="FACES", default=FACES, help="the faces that may turn, like RU"
    )
    parser.add_argument("--first", action="store_true", help="one shortest solution is enough")
    parser.add_argument(
        "--pairs", action="store_true", help="tell the best total pair by pair, too"
    )
    parser.add_argument("--json", action="store_true", help="answer with one JSON object")
    parser.add_argument("setup", nargs="+", metavar="SETUP", help='turns, or "-"')


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Answer one setup, or each line of standard input."""
    from game.cli.answer import Asker  # noqa: PLC0415 - only for this command

    if len(arguments.setup) > 1:
        count = len(arguments.setup)
        raise PairwrightError(
            f"{count} arguments where one SETUP is expected; put all its turns into one pair of "
            """double quotes, as in: pairwright par "R U R' U'\""""
        )
    setup: str = arguments.setup[0]
    asker = Asker(
        folders.cache,
        pair.parse_slots(arguments.open),
        pair.parse_faces(arguments.faces),
        arguments.first,
        arguments.pairs,
    )
    if setup == "-":
        return _answer_lines(asker)
    if arguments.json:
        return _answer_line(asker, setup)
    return _tell(asker, setup, folders)


def _tell(asker: Asker, setup: str, folders: Folders) -> int:
    """The cube, then the answer in words."""
    from game.cli import paint  # noqa: PLC0415 - only to draw
    from game.cli.answer import answer_words  # noqa: PLC0415 - only for this command
    from game.settings import load_settings  # noqa: PLC0415

    position = asker.position(setup)
    settings, told = load_settings(folders.settings)
    if told:
        print(told, file=sys.stderr)
    depth = paint.depth_of(sys.stdout, os.environ, settings.colours)
    picture = paint.picture_of(position, settings, depth, paint.columns())
    print(paint.painted(picture), flush=True)
    answer = asker.answer(setup)
    print(answer_words(answer))
    return Exit.STOPPED if answer.stopped else Exit.DONE


def _answer_lines(asker: Asker) -> int:
    """A line of JSON for each line of standard input."""
    from game.cli.answer import error_json  # noqa: PLC0415 - only for this command

    if sys.stdin is None:
        print("pairwright par: no standard input to read", file=sys.stderr)
        return Exit.CANNOT
    status: int = Exit.DONE
    for line in _lines(sys.stdin.buffer):
        if isinstance(line, str):
            answered = _answer_line(asker, line)
        else:
            print(error_json(*line), flush=True)
            answered = Exit.FAULT
        if answered == Exit.STOPPED:
            return answered
        status = max(status, answered)
    return status


def _answer_line(asker: Asker, setup: str) -> int:
    from game.cli.answer import answer_json, error_json  # noqa: PLC0415 - likewise

    try:
        answer = asker.answer(setup)
    except PairwrightError as error:
        print(error_json(setup, error), flush=True)
        return Exit.FAULT
    print(answer_json(answer), flush=True)
    return Exit.STOPPED if answer.stopped else Exit.DONE


def _lines(stream: BinaryIO) -> Iterator[str | tuple[str, PairwrightError]]:
    """The lines without their ends; for one that cannot be read, its start and what is wrong."""
    while raw := stream.readline(MAX_BYTES + 1):
        if len(raw) > MAX_BYTES and not raw.endswith(b"\n"):
            rest = raw
            while rest and not rest.endswith(b"\n"):
                rest = stream.readline(MAX_BYTES)
            start = printable(raw.decode(errors="replace"), MAX_TEXT)
            yield start, PairwrightError(f"a line of more than {MAX_BYTES} bytes")
            continue
        try:
            yield raw.decode().removeprefix("\ufeff").rstrip("\r\n")
        except UnicodeDecodeError as error:
            text = raw.decode(errors="backslashreplace").rstrip("\r\n")
            yield text, NotationError(text, error.start, 1, "not UTF-8 text")
