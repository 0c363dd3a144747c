"""The tables in files, so that they are built once.

    pair-tables.bin           the small tables: the cross with the corner of FR, with its edge
    cross-pair.bin            the near sets of a part, one after the other
    corners-three-edges.bin   the same of the other part

The small ones take half a second and are built whenever they are missing. The near sets take half
a minute on two cores, at most 0.6 GB of memory meanwhile, and 194 MB; they are built only when they
are asked for.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from game.errors import CacheError
from game.search.coordinates import CROSSES, PLACES
from game.search.files import TableFile, make_room, only_writer
from game.search.growth import Growing, near_sets
from game.search.near import PARTS, Bits, NearTables, Part
from game.search.tables import PairTables, Tables, build_tables
from game.search.workers import Cancelled

VERSION = 1
"""To be raised whenever places, pieces or the layout are numbered in another way."""
ENOUGH = 1 << 24
"""Nodes after which a search without near sets had better wait until they are built.

Searches of two pairs end before (at most 7 million nodes in a sample), most of three do not.
"""
_SHAPE = (2, CROSSES, PLACES)


def pair_file(folder: Path) -> TableFile:
    """Where the small tables are kept."""
    return TableFile(folder / "pair-tables.bin", VERSION, 2 * CROSSES * PLACES)


def near_file(folder: Path, part: Part) -> TableFile:
    """Where the near sets of a part are kept."""
    return TableFile(folder / f"{part.name}.bin", VERSION, part.octets * len(part.turns))


# -- the small tables ----------------------------------------------------------------------------


def load_tables(folder: Path | None) -> Tables:
    """The small tables, from their file in the folder, or built and written there.

    The folder is created when needed. When it cannot be written, and when it is None, the tables
    are built and kept in memory only. Raises nothing.
    """
    if folder is None:
        return build_tables()
    file = pair_file(folder)
    try:
        corner, edge = file.read().reshape(_SHAPE)
        return PairTables(corner, edge)
    except CacheError:
        tables = build_tables()
    with contextlib.suppress(CacheError):
        make_room(folder, file.size)
        with only_writer(folder):
            file.write([tables.corner, tables.edge])
    return tables


# -- the near sets -------------------------------------------------------------------------------


def load_all_tables(folder: Path, parts: Sequence[Part] = PARTS) -> Tables:
    """The small tables, and beside them the near sets whose files are whole. Raises nothing."""
    sets = {}
    for part in parts:
        with contextlib.suppress(CacheError):
            sets[part] = _near_sets_of(folder, part)
    small = load_tables(folder)
    return NearTables(small, sets) if sets else small


def has_near_sets(tables: Tables) -> bool:
    """Whether tables hold the near sets of all parts."""
    return isinstance(tables, NearTables) and len(tables.sets) == len(PARTS)


def _near_sets_of(folder: Path, part: Part) -> dict[int, Bits]:
    """Raises CacheError."""
    content = near_file(folder, part).read()
    return dict(zip(part.turns, content.reshape(len(part.turns), -1), strict=True))


def missing(folder: Path, parts: Sequence[Part] = PARTS) -> tuple[Part, ...]:
    """The parts whose near sets have no file that is whole."""
    return tuple(part for part in parts if fault(near_file(folder, part)))


def build_near_sets(
    folder: Path,
    progress: Callable[[Growing], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    parts: Sequence[Part] = PARTS,
) -> bool:
    """Builds and writes the near sets that are missing; whether all are there in the end.

    They are not if `cancelled` said so; parts that were finished stay. progress and cancelled are
    called in the caller's thread, every 0.2 s or less; `Growing.done` tells of all that is missing.
    Raises CacheFull before the work begins when the disk has no room, CacheBusy while another
    process builds, and CacheError.
    """
    make_room(folder, 0)
    with only_writer(folder):
        lacking = missing(folder, parts)
        files = [near_file(folder, part) for part in lacking]
        make_room(folder, sum(file.size for file in files))
        work = sum(part.work for part in lacking)
        finished = 0.0
        try:
            for part, file in zip(lacking, files, strict=True):
                told = partial(_tell, progress, finished / work, part.work / work)
                file.write(bits for _, bits in near_sets(part, told, cancelled))
                finished += part.work
        except Cancelled:
            return False
    return True


def _tell(
    progress: Callable[[Growing], None] | None, before: float, share: float, growing: Growing
) -> None:
    """Tells how much is done of the work on all parts."""
    if progress is not None:
        progress(replace(growing, done=before + share * growing.done))


# -- all files -----------------------------------------------------------------------------------


def table_files(folder: Path) -> tuple[TableFile, ...]:
    """Every file that tables are kept in."""
    return (pair_file(folder), *(near_file(folder, part) for part in PARTS))


def fault(file: TableFile) -> str:
    """What is wrong with a file, or nothing if it is whole. Reads all of it."""
    if not file.path.exists():
        return "not there"
    try:
        file.read()
    except CacheError:
        return "damaged, or of another version"
    return ""
