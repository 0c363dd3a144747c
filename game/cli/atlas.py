"""`pairwright atlas`: every placement of a pair, with its par at each turn of the top."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from game.cli.exits import Exit
from game.cli.progress import progress_line
from game.folders import Folders

if TYPE_CHECKING:
    from game.atlas import Pars, Spot

NAME = "atlas"
HELP = "tell every placement of a pair, with its par"
DESCRIPTION = """\
Tell all 168 placements of the pair of a slot, for each turn of the top layer: par, the least of
them, and how many shortest solutions there are at the turns with the least. The first 42 have no
piece in another slot. Slots are kept unless they are named by --open; one that holds a piece of the
pair is open in any case. Ctrl-C stops the search; what is proven so far is told."""


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    parser.add_argument("--slot", metavar="SLOT", default="FR", help="the pair's slot, like FR")
    parser.add_argument(
        "--open", metavar="SLOTS", default="", help="slots that need not be solved, like FL,BL"
    )
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="answer with one JSON object")
    form.add_argument("--markdown", action="store_true", help="answer with Markdown tables")


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Search what is not known of the placements, then print them."""
    from game.atlas import Pars, spots  # noqa: PLC0415 - the rules only for this command
    from game.cli import atlas_text  # noqa: PLC0415
    from game.cube.colours import colour_scheme  # noqa: PLC0415
    from game.cube.pair import parse_slots  # noqa: PLC0415
    from game.settings import load_settings  # noqa: PLC0415

    wanted = tuple(spots(arguments.slot, parse_slots(arguments.open)))
    settings, told = load_settings(folders.settings)
    if told:
        print(told, file=sys.stderr)
    pars = Pars()
    stopped = _search(pars, wanted, folders.cache)
    form = "json" if arguments.json else "markdown" if arguments.markdown else "text"
    colours = colour_scheme(settings.cross, settings.front)
    print(atlas_text.FORMS[form](wanted, pars, colours))
    if stopped and form != "json":
        print("\nStopped: what is not told is not proven.")
    return Exit.STOPPED if stopped else Exit.DONE


def _search(pars: Pars, wanted: Iterable[Spot], cache: Path) -> bool:
    """Find the pars of all these; whether Ctrl-C stopped that."""
    from game.search.cache import load_tables  # noqa: PLC0415 - NumPy when it is needed
    from game.search.shortest import search  # noqa: PLC0415

    models = tuple(pars.missing(wanted))
    with progress_line() as watch:
        tables = load_tables(cache)
        for number, model in enumerate(models):
            watch.tell(f"{number} of {len(models)} positions are searched")
            position = model.position
            found = search(position.cube, position.solve, tables=tables, cancelled=watch.cancelled)
            pars.learn(model, found)
            if watch.stopped:
                break
    return watch.stopped
