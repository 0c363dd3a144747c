"""Reads the arguments and runs one command; every error becomes one line, never a traceback."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from datetime import datetime
from typing import NoReturn, Protocol, TextIO

from game import __version__, mishap
from game.cli import play
from game.cli.exits import MEANING, Exit
from game.errors import CacheError, PairwrightError, printable
from game.folders import folders

MAX_TOLD = 200
"""Characters of a fault in the arguments that are told."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run `pairwright` with these arguments, by default the process's own; the exit code."""
    if sys.stdout is None:
        sys.stdout = _closed_output()
    for stream in (sys.stdout, sys.stderr):
        _never_refuse(stream)
    try:
        status = _run(argv)
        sys.stdout.flush()
        return status
    except BrokenPipeError:  # whoever read the output wants no more of it
        _forget_output()
        return Exit.DONE
    except KeyboardInterrupt:
        return Exit.STOPPED
    except (PairwrightError, ModuleNotFoundError, MemoryError, OSError) as error:
        problem, code = _cause(error)
        print(f"pairwright: {problem}", file=sys.stderr)
        return code
    except Exception as error:
        return _mishap(argv, error)


def _run(argv: Sequence[str] | None) -> int:
    try:
        arguments = _game_alone(argv) or _parser().parse_args(argv)
    except SystemExit as ending:  # argparse has told help, version or a fault
        return int(ending.code or 0)
    status: int = arguments.run(arguments, folders(arguments.data_dir))
    return status


def _game_alone(argv: Sequence[str] | None) -> argparse.Namespace | None:
    """The arguments when they start the game; None when the parser of all commands must read them.

    The game starts the sooner because the modules of the commands are not imported for it.
    """
    with suppress(argparse.ArgumentError):
        found, others = _folder_parser().parse_known_args(argv)
        if not others:
            found.run = play.run
            return found
    return None


def _mishap(argv: Sequence[str] | None, error: Exception) -> Exit:
    """Tell in a file what nobody foresaw, and in one line where the file is."""
    from game.cli.commands import COMMANDS  # noqa: PLC0415 - the game does not need them

    given = list(sys.argv[1:] if argv is None else argv)
    command = next((name for name in given if name in {part.NAME for part in COMMANDS}), "")
    path = None
    with suppress(PairwrightError):  # the folder that was named cannot be one
        place = folders(_data_dir(given))
        path = mishap.keep(
            place.mishaps, error, datetime.now().astimezone(), facts={"command": command}
        )
    print(f"pairwright: {mishap.words_of_command(path)}", file=sys.stderr)
    return Exit.MISHAP


def _data_dir(given: Sequence[str]) -> str | None:
    """The folder that the arguments name, however they went on."""
    with suppress(argparse.ArgumentError):
        found: str | None = _folder_parser().parse_known_args(given)[0].data_dir
        return found
    return None


def _folder_parser() -> argparse.ArgumentParser:
    """A parser of the one argument that the game takes. Raises argparse.ArgumentError."""
    parser = argparse.ArgumentParser(add_help=False, allow_abbrev=False, exit_on_error=False)
    _add_data_dir(parser, None)
    return parser


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


def _parser() -> argparse.ArgumentParser:
    from game.cli.commands import COMMANDS  # noqa: PLC0415 - the game does not need them

    parser = _Parser(
        prog="pairwright",
        description="Bring corner-edge pairs of the 3x3x3 cube into their slots, against the "
        "exact shortest solution. Without a command the game starts.",
        epilog=_exit_codes(),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    _add_common(parser, None)
    parser.set_defaults(run=play.run)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
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
    return parser


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


def _cause(error: Exception) -> tuple[str, Exit]:
    """An error as one line, and the exit code that it means."""
    match error:
        case CacheError():
            return str(error), Exit.CANNOT
        case PairwrightError():
            return str(error), Exit.FAULT
        case ModuleNotFoundError():
            return f"{error.name} is not installed", Exit.CANNOT
        case OSError():
            _forget_output()
            return f"cannot read or write: {error.strerror or error}", Exit.CANNOT
        case _:
            return "not enough memory", Exit.CANNOT


def _never_refuse(stream: TextIO | None) -> None:
    """Have a character that the stream cannot encode written as an escape."""
    if stream is not None and hasattr(stream, "reconfigure"):
        stream.reconfigure(errors="backslashreplace")


def _closed_output() -> TextIO:
    """In place of a standard output that was closed: one that takes nothing, and so is a fault.

    It has the closed one's number, which otherwise the next file opened would have.
    """
    number = os.open(os.devnull, os.O_RDONLY)
    return open(number, "w", encoding="utf-8", closefd=False)


def _forget_output() -> None:
    """Send what is still to be written nowhere, so that the end of the process is quiet."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)
