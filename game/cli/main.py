"""Starts the game or runs one command; every error becomes one line, never a traceback."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from datetime import datetime
from typing import TextIO

from game import mishap
from game.cli import play
from game.cli.exits import Exit
from game.errors import CacheError, PairwrightError
from game.folders import folders


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
    given = _given(argv)
    match given:  # what starts the game as a rule waits for no parser and no command's module
        case []:
            return play.play(folders())
        case ["--data-dir", folder] if not folder.startswith("-"):
            return play.play(folders(folder))
    from game.cli.arguments import parser  # noqa: PLC0415

    try:
        arguments = parser().parse_args(given)
    except SystemExit as ending:  # argparse has told help, version or a fault
        return int(ending.code or 0)
    status: int = arguments.run(arguments, folders(arguments.data_dir))
    return status


def _given(argv: Sequence[str] | None) -> list[str]:
    return list(sys.argv[1:] if argv is None else argv)


def _mishap(argv: Sequence[str] | None, error: Exception) -> Exit:
    """Tell in a file what nobody foresaw, and in one line where the file is."""
    from game.cli.arguments import COMMANDS, data_dir  # noqa: PLC0415 - likewise

    given = _given(argv)
    command = next((name for name in given if name in {part.NAME for part in COMMANDS}), "")
    path = None
    with suppress(PairwrightError):  # the folder that was named cannot be one
        place = folders(data_dir(given))
        path = mishap.keep(
            place.mishaps, error, datetime.now().astimezone(), facts={"command": command}
        )
    print(f"pairwright: {mishap.words_of_command(path)}", file=sys.stderr)
    return Exit.MISHAP


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
