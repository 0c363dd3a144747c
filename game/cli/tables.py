"""`pairwright tables`: shows, builds, checks and removes the tables of the search."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from game.cli.exits import Exit
from game.cli.progress import BuildTeller, progress_line
from game.folders import Folders

if TYPE_CHECKING:
    from game.search.files import TableFile

NAME = "tables"
HELP = "show, build, check or remove the tables of the search"
DESCRIPTION = """\
The search looks up tables that it keeps in files. The small ones, 9 MB, are built by themselves.
The large ones, 194 MB, make three and four pairs quick; the first search that needs them builds
them, or you do:

    show      tell which files there are (also without a word)
    build     build the large tables that are missing, in about a minute
    check     read all files and tell which are whole
    remove    remove all files; the small tables come back when they are needed

Ctrl-C stops a build; a table that is finished stays."""


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    parser.add_argument(
        "action", nargs="?", choices=list(ACTIONS), default="show", help="what to do"
    )


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Do what was asked."""
    return ACTIONS[arguments.action](folders.cache)


def _show(cache: Path) -> int:
    from game.search.cache import table_files  # noqa: PLC0415 - NumPy when it is needed

    print(f"Tables in {cache}")
    for file in table_files(cache):
        print(_row(file, "there" if file.path.is_file() else "not there"))
    return Exit.DONE


def _build(cache: Path) -> int:
    from game.search.cache import build_near_sets, load_tables  # noqa: PLC0415

    with progress_line() as watch:
        load_tables(cache)
        finished = build_near_sets(cache, BuildTeller(watch).tell, watch.cancelled)
    if not finished:
        print("Stopped: a table that was finished stays.")
        return Exit.STOPPED
    return _show(cache)


def _check(cache: Path) -> int:
    from game.search.cache import fault, table_files  # noqa: PLC0415

    print(f"Tables in {cache}")
    faults = [(file, fault(file)) for file in table_files(cache)]
    for file, problem in faults:
        print(_row(file, problem or "whole"))
    damaged = any(problem and file.path.exists() for file, problem in faults)
    return Exit.FAULT if damaged else Exit.DONE


def _remove(cache: Path) -> int:
    from game.search.cache import table_files  # noqa: PLC0415
    from game.search.files import only_writer  # noqa: PLC0415

    removed = []
    if cache.is_dir():
        with only_writer(cache):
            removed = [file for file in table_files(cache) if file.remove()]
    print(f"{len(removed)} files removed from {cache}" if removed else f"No tables in {cache}")
    return Exit.DONE


ACTIONS = {"show": _show, "build": _build, "check": _check, "remove": _remove}


def _row(file: TableFile, state: str) -> str:
    return f"  {file.path.name:<24}{_megabytes(file.size):>7}  {state}"


def _megabytes(size: int) -> str:
    return f"{size / 1e6:.0f} MB"
