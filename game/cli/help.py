"""`pairwright help`: the pages of the manual."""

from __future__ import annotations

import argparse
import sys

from game.cli.exits import Exit
from game.folders import Folders
from game.manual import INDEX, page

NAME = "help"
HELP = "show a page of the manual"
DESCRIPTION = "Show a page of the manual; without a subject, the list of pages."
MOST_COLUMNS = 100
"""Columns of a page at most: longer lines are hard to read."""


def define(parser: argparse.ArgumentParser) -> None:
    """The subject."""
    parser.add_argument("subject", nargs="?", default=INDEX, metavar="SUBJECT")


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Print the page: laid out in a terminal, as it is written elsewhere."""
    text = page(arguments.subject)
    if not sys.stdout.isatty():
        print(text, end="")
        return Exit.DONE
    from rich.console import Console  # noqa: PLC0415 - only to lay out
    from rich.markdown import Markdown  # noqa: PLC0415 - likewise

    console = Console()
    console.print(Markdown(text, hyperlinks=False), width=min(console.width, MOST_COLUMNS))
    return Exit.DONE
