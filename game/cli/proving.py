"""Proves packs while one looks on: a table row by row, warnings, and all faults at the end."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

from game.cli.exits import Exit
from game.cli.progress import ProgressLine, progress_line
from game.cli.searching import Searcher
from game.cube.cube import Cube
from game.errors import Fault, PackError
from game.folders import Folders
from game.packs import Pack, Puzzle, all_packs, load_pack, load_packs, pack_folder, puzzles
from game.packs.checking import CheckedPuzzle, report, rows
from game.packs.difficulty import Find
from game.prose import tallied
from game.search.outcome import Outcome

_COLUMNS = (("par", 5), ("shortest", 10), ("habit", 7), ("hidden", 8), ("difficulty", 12))


def prove(paths: Sequence[Path], folders: Folders) -> int:
    """Print a table for each pack in these files and folders, then every fault; the exit code.

    No paths: the packs that come with the program, and the player's own.
    """
    packs, errors = _loaded(paths) if paths else all_packs(pack_folder(), folders.packs)
    faults = [fault for error in errors for fault in error.faults]
    with progress_line() as watch:
        find = _finder(folders.cache, watch)
        for pack in packs:
            faults += _check(pack, find, watch)
            if watch.stopped:
                print("Stopped: what is not listed is not proven.")
                return Exit.STOPPED
    for fault in faults:
        print(fault, file=sys.stderr)
    if errors:
        unread = tallied(len(errors), "pack that cannot be read", "packs that cannot be read")
        print(f"The claims of {unread} are proven once the faults are mended.")
    levels = sum(len(pack.levels) for pack in packs)
    told = tallied(len(faults), "fault") if faults else "every claim is proven"
    print(f"{tallied(len(packs), 'pack')}, {tallied(levels, 'level')}: {told}")
    return Exit.FAULT if faults else Exit.DONE


def _loaded(paths: Iterable[Path]) -> tuple[tuple[Pack, ...], tuple[PackError, ...]]:
    """The packs in files and folders, and the errors of those that cannot be used."""
    packs: list[Pack] = []
    errors: list[PackError] = []
    for path in paths:
        if os.path.isdir(path):  # noqa: PTH112 - says no where `is_dir` raises: a name too long
            found, broken = load_packs(path)
            packs += found
            errors += broken
            continue
        try:
            packs.append(load_pack(path))
        except PackError as error:
            errors.append(error)
    return tuple(packs), tuple(errors)


def _finder(cache: Path, watch: ProgressLine) -> Find:
    """A search that Ctrl-C stops."""
    searcher = Searcher(cache)

    def find(cube: Cube, solve: tuple[str, ...], faces: str) -> Outcome:
        return searcher.search(cube, solve, faces, watch)

    return find


def _check(pack: Pack, find: Find, watch: ProgressLine) -> tuple[Fault, ...]:
    """Print a pack's table as the rows come, then its warnings; its faults."""
    names = [_name(puzzle) for puzzle in puzzles(pack)]
    wide = max(map(len, names), default=0)
    heading = "".join(f"{title:>{width}}" for title, width in _COLUMNS)
    print(f"{pack.id}: {pack.title}\n  {'level':<{wide}}{heading}")
    done: list[CheckedPuzzle] = []
    for row in rows(pack, find):
        watch.clear()
        if watch.stopped:
            return ()
        done.append(row)
        print(f"  {_name(row.puzzle):<{wide}}{_told(row)}", flush=True)
    found = report(pack, tuple(done))
    for warning in found.warnings:
        print(f"  warning: {warning}")
    print()
    return found.faults


def _name(puzzle: Puzzle) -> str:
    """A level or twin as its pack knows it."""
    return puzzle.key.split("/", 1)[1]


def _told(row: CheckedPuzzle) -> str:
    """What was found, in columns; a dash where nothing was."""
    measured = row.difficulty
    values = ["-"] * len(_COLUMNS)
    if measured is not None:
        habit = "-" if measured.habit is None else str(measured.habit)
        counts = (str(measured.solutions), habit, str(measured.hidden))
        values = [str(measured.par), *counts, f"{measured.value:.1f}"]
    told = (f"{value:>{width}}" for value, (_, width) in zip(values, _COLUMNS, strict=True))
    return "".join(told) + ("  FAULT" if row.fault else "")
