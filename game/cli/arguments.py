"""The commands, and the parser of their arguments."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import NoReturn, Protocol

from game import __version__
from game.cli import (
    atlas,
    card,
    check,
    export,
    help,
    invite,
    join,
    par,
    play,
    standings,
    tables,
    where,
)
from game.cli.exits import MEANING, Exit
from game.errors import printable

COMMANDS = (par, atlas, invite, join, card, standings, check, export, tables, where, help)
"""Those beside the game, as the help lists them: each a module with its name, help and
description, and how to define and run it."""
MAX_TOLD = 200
"""Characters of a fault in the arguments that are told."""


class _Written(Protocol):
    """What argparse writes its messages to."""

    def write(self, text: str, /) -> object:
        """Take a text."""


class _Parser(argparse.ArgumentParser):
    """Tells a fault in one line and ends with this program's exit code for it."""

    def _print_message(self, message: str, file: _Written | None = None) -> None:
        """As argparse does it, but an output that cannot be written to is a fault."""
        if file is not None and file is sys.stdout:
            file.write(message)
        else:
            super()._print_message(message, file)

    def error(self, message: str) -> NoReturn:
        told = printable(message, MAX_TOLD)
        self.exit(Exit.FAULT, f"{self.prog}: {told} ({self.prog} --help tells more)\n")


def parser() -> argparse.ArgumentParser:
    """The parser: it gives the function `run` and what that takes. Raises SystemExit."""
    whole = _Parser(
        prog="pairwright",
        description="Bring corner-edge pairs of the 3x3x3 cube into their slots, against the "
        "exact shortest solution. Without a command the game starts.",
        epilog=_exit_codes(),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    _add_common(whole, None)
    whole.set_defaults(run=play.run)
    commands = whole.add_subparsers(title="commands", metavar="COMMAND")
    for command in COMMANDS:
        below = commands.add_parser(
            command.NAME,
            help=command.HELP,
            description=command.DESCRIPTION,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )
        # Without a default of its own, it leaves the value given before the command alone.
        _add_common(below, argparse.SUPPRESS)
        command.define(below)
        below.set_defaults(run=command.run)
    return whole


def data_dir(given: Sequence[str]) -> str | None:
    """The folder that the arguments name, however they go on."""
    alone = argparse.ArgumentParser(add_help=False, allow_abbrev=False, exit_on_error=False)
    _add_data_dir(alone, None)
    with suppress(argparse.ArgumentError):
        found: str | None = alone.parse_known_args(given)[0].data_dir
        return found
    return None


def _add_common(parser: argparse.ArgumentParser, default: str | None) -> None:
    _add_data_dir(parser, default)
    parser.add_argument("--version", action="version", version=f"pairwright {__version__}")


def _add_data_dir(parser: argparse.ArgumentParser, default: str | None) -> None:
    parser.add_argument(
        "--data-dir",
        metavar="DIR",
        default=default,
        help="keep records, settings and tables in this folder",
    )


def _exit_codes() -> str:
    return "\n".join(["exit codes:", *(f"  {code:<7}{told}" for code, told in MEANING.items())])
