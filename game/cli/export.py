"""`pairwright export`: every attempt, for spreadsheets and programs."""

from __future__ import annotations

import argparse
import csv
import json
import sys
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from game.cli.exits import Exit
from game.errors import PairwrightError
from game.folders import Folders

if TYPE_CHECKING:
    from game.records import Record

NAME = "export"
HELP = "write every attempt as CSV or JSON"
DESCRIPTION = """\
Write every attempt ever made, the oldest first, to FILE or to standard output. Nothing is
overwritten unless --overwrite is given.

JSON is one list of objects. In CSV a text that begins with = + - @ or ' gets a ' in front, so that
no spreadsheet takes it for a formula; taking one ' away gives the text back."""

COLUMNS = (
    "began",
    "position",
    "puzzle",
    "mode",
    "run",
    "player",
    "outcome",
    "turns",
    "executed",
    "par",
    "over",
    "at_hand",
    "shown",
    "hint",
    "called",
    "far_side",
    "seeing_ms",
    "first_side_ms",
    "doing_ms",
    "version",
    "events",
)
"""Fields of a Record in the order in which they are written; `began` as ISO 8601 with offset."""
RISKY = ("=", "+", "-", "@", "'", "\t", "\r")


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    form = parser.add_mutually_exclusive_group(required=True)
    form.add_argument("--csv", action="store_true", help="comma-separated values, a header first")
    form.add_argument("--json", action="store_true", help="a list of objects, an attempt a line")
    parser.add_argument("--overwrite", action="store_true", help="replace FILE if it is there")
    parser.add_argument("file", nargs="?", metavar="FILE", help="by default standard output")


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Write them all, one at a time."""
    from game.records import Records  # noqa: PLC0415 - SQLite when it is needed

    write = write_csv if arguments.csv else write_json
    with closing(Records(folders.records)) as records:
        attempts = records.all_attempts()
        if arguments.file is None:
            write(attempts, sys.stdout)
        else:
            with _written(Path(arguments.file), overwrite=arguments.overwrite) as stream:
                write(attempts, stream)
        if records.skipped:
            count = (
                f"{records.skipped} damaged attempts"
                if records.skipped > 1
                else "1 damaged attempt"
            )
            print(f"pairwright export: left out {count}", file=sys.stderr)
    return Exit.DONE


def write_csv(attempts: Iterable[Record], stream: TextIO) -> None:
    """The attempts as CSV (RFC 4180 save that lines end as the stream ends them)."""
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(COLUMNS)
    for attempt in attempts:
        writer.writerow(map(_csv_cell, facts(attempt).values()))


def write_json(attempts: Iterable[Record], stream: TextIO) -> None:
    """The attempts as one JSON list, a line each."""
    begun = False
    for attempt in attempts:
        stream.write(",\n" if begun else "[\n")
        stream.write(json.dumps(facts(attempt), ensure_ascii=False))
        begun = True
    stream.write("\n]\n" if begun else "[]\n")


def facts(attempt: Record) -> dict[str, Any]:
    """Column -> value; events as pairs of milliseconds and what was done."""
    found = {name: getattr(attempt, name) for name in COLUMNS}
    return found | {"began": attempt.began.isoformat(timespec="milliseconds")}


def _csv_cell(value: Any) -> Any:
    """The value in a cell: truth as 1 and 0, events as JSON, no text that could be a formula."""
    if isinstance(value, bool):
        return int(value)
    if isinstance(value, tuple):
        return json.dumps(value, separators=(",", ":"), ensure_ascii=False)
    if isinstance(value, str) and value.startswith(RISKY):
        return f"'{value}"
    return value


@contextmanager
def _written(path: Path, *, overwrite: bool) -> Iterator[TextIO]:
    """A new file to write to, which is there whole at the end or not at all.

    Raises PairwrightError when there is one already and it is not to be overwritten.
    """
    path = path.resolve()
    if path.exists():
        if not path.is_file():
            raise PairwrightError(f"{path} is no file that could be replaced")
        if not overwrite:
            raise PairwrightError(f"{path} is there already; --overwrite replaces it")
    part = path.with_name(f"{path.name}.part")
    try:
        with part.open("x", encoding="utf-8", newline="") as stream:
            yield stream
        part.replace(path)
    except FileExistsError:
        raise PairwrightError(f"{part} is there already, left by an export; remove it") from None
    except BaseException:
        part.unlink(missing_ok=True)
        raise
