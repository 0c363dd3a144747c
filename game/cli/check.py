"""`pairwright check`: its arguments."""

from __future__ import annotations

import argparse
from pathlib import Path

from game.folders import Folders

NAME = "check"
HELP = "prove the packs of levels"
DESCRIPTION = """\
Prove every claim of par in packs of levels: files, or folders of them; by default the packs that
come with the program and your own. A table tells for each level and twin

    par         proven by the search
    shortest    how many shortest solutions there are
    habit       turns that one pair after another takes, by the top and the slot's sides alone
    hidden      pieces of the pairs in play that show fewer than two stickers
    difficulty  par + (habit - par) / 2 + hidden / 4 - log13(shortest)

Warnings tell where a pack does not grow. All faults are told at the end; the claims of a pack that
cannot be read are proven once that is mended."""


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    parser.add_argument(
        "paths", nargs="*", type=Path, metavar="PATH", help="a pack, or a folder of packs"
    )


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Check every pack, then tell all faults."""
    from game.cli.proving import prove  # noqa: PLC0415 - packs and rules only for this command

    return prove(arguments.paths, folders)
