"""`pairwright standings`: the ranking of every contest that a saved chat tells of."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from game.cli.exits import Exit
from game.cli.progress import progress_line
from game.cli.received import received
from game.errors import CodeError, PairwrightError, printable
from game.folders import Folders

if TYPE_CHECKING:
    from game.friends.standings import Standings
    from game.play.position import Position

NAME = "standings"
HELP = "rank the cards in a saved chat"
DESCRIPTION = """\
Find every invite and card in FILE, or in standard input, whatever else stands there; replay each
card turn by turn; and rank them. Several FILEs are read as one text. A card that does not solve
what it claims is listed with the reason, as is one whose invite is not there. The cards of a day's
five need no invite.

The ranking itself needs no par. To show turns over par, and whose calls were right, par is searched
once for each position; Ctrl-C leaves out what is not found yet, --no-par all of it."""


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    parser.add_argument("--no-par", action="store_true", help="rank only, without searching par")
    parser.add_argument("--json", action="store_true", help="answer with one JSON object")
    parser.add_argument("files", nargs="*", metavar="FILE", help='a text; "-" is standard input')


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Tell the standings of every contest found."""
    from game.cli import ranking  # noqa: PLC0415
    from game.friends.chat import Chat  # noqa: PLC0415 - the rules only for this command
    from game.friends.codes import find  # noqa: PLC0415

    found = find(_pieces(arguments.files or ["-"]))
    chat = Chat().more(found)
    if not chat.kinds and not found.faults:
        raise CodeError("no invite and no card in this text")
    told = ranking.ranked(chat, found)
    pars: dict[str, int] = {}
    stopped = False
    if not arguments.no_par:
        pars, stopped = _searched(told.all_standings, folders.cache)
    if arguments.json:
        print(ranking.as_json(told, pars))
    else:
        print(ranking.as_words(told, pars, is_one_text=len(arguments.files) < 2))
    return Exit.STOPPED if stopped else Exit.DONE


def _searched(all_standings: Iterable[Standings], cache: Path) -> tuple[dict[str, int], bool]:
    """Par by a position's text, where someone played it; whether Ctrl-C stopped that."""
    wanted: dict[str, Position] = {
        position.text: position
        for one in all_standings
        if one.rows
        for position in one.contest.positions
    }
    if not wanted:
        return {}, False
    from game.cli.searching import Searcher  # noqa: PLC0415 - to search only
    from game.search.outcome import Solved  # noqa: PLC0415 - NumPy when it is needed

    pars = {}
    searcher = Searcher(cache, first=True)
    with progress_line() as watch:
        for number, (text, position) in enumerate(wanted.items()):
            watch.tell(f"{number} of {len(wanted)} positions are searched")
            outcome = searcher.search(position.cube, position.solve, position.faces, watch)
            if isinstance(outcome, Solved):
                pars[text] = outcome.par
            if watch.stopped:
                break
    return pars, watch.stopped


def _pieces(files: Iterable[str]) -> Iterator[str]:
    """The text of these files, a piece at a time. Raises PairwrightError for one not there."""
    for name in files:
        if name == "-":
            if sys.stdin is None:
                raise PairwrightError("no standard input to read")
            if sys.stdin.isatty():
                print("Paste the chat, then press Ctrl-D on a line of its own.", file=sys.stderr)
            yield from received(sys.stdin.buffer)
        else:
            try:
                with Path(name).open("rb") as stream:
                    yield from received(stream)
            except (OSError, ValueError) as error:
                why = getattr(error, "strerror", None) or "no name of a file"
                raise PairwrightError(f"{printable(name, 200)}: {why}") from None
        yield "\n"
