"""Folders of packs: where the program's own is, every pack in one, and the player's beside it."""

from __future__ import annotations

import os
from pathlib import Path

from game.errors import Fault, PackError
from game.packs.level import Pack
from game.packs.reading import load_pack, shown_path

MAX_FILES = 500
"""Files of a folder that are read at most."""

CLASH = "a pack of the program has that name; give the file another"
RESERVED = ("atlas", "day", "deal", "one", "astray", "two", "three", "four", "workshop")
"""What else begins the names of puzzles in records: the atlas, days, deals, steps of
the drill."""

_GAME = Path(__file__).resolve().parents[1]


def pack_folder() -> Path:
    """The folder of the packs that come with the program.

    An installed program has them inside its own package, which is looked at first, so that a
    foreign folder of that name beside it is never taken; a checkout has them beside the package.
    """
    inside = _GAME / "levels"
    return inside if inside.is_dir() else _GAME.parent / "levels"


def all_packs(shipped: Path, own: Path) -> tuple[tuple[Pack, ...], tuple[PackError, ...]]:
    """The packs that come with the program, then the player's own; see `load_packs`.

    own: need not exist. A pack there with the name of a shipped one, or of something else that is
    played, is refused: records go by it.
    """
    packs, errors = load_packs(shipped)
    if not os.path.isdir(own):  # noqa: PTH112 - says no where `is_dir` raises
        return packs, errors
    taken = {path.name for path in shipped.glob("*.toml")} | {f"{name}.toml" for name in RESERVED}
    added, faults = load_packs(own, may_be_empty=True)
    clashes = tuple(
        PackError((Fault(shown_path(pack.path), "", "", CLASH),))
        for pack in added
        if pack.path.name in taken
    )
    kept = tuple(pack for pack in added if pack.path.name not in taken)
    return (*packs, *kept), (*errors, *faults, *clashes)


def load_packs(
    folder: Path, *, may_be_empty: bool = False
) -> tuple[tuple[Pack, ...], tuple[PackError, ...]]:
    """The packs of a folder in the order of their file names, and the errors of those with faults.

    Raises nothing: a broken pack, or a folder that cannot be read, is among the errors.
    """
    packs: list[Pack] = []
    errors: list[PackError] = []
    try:
        paths = sorted(path for path in folder.iterdir() if path.name.endswith(".toml"))
    except OSError as error:
        problem = f"cannot be read: {error.strerror or error}"
        return (), (PackError((Fault(shown_path(folder), "", "", problem),)),)
    if not paths and not may_be_empty:
        errors.append(PackError((Fault(shown_path(folder), "", "", "no packs in this folder"),)))
    if len(paths) > MAX_FILES:
        problem = f"{len(paths)} packs; only the first {MAX_FILES} are read"
        errors.append(PackError((Fault(shown_path(folder), "", "", problem),)))
    for path in paths[:MAX_FILES]:
        try:
            packs.append(load_pack(path))
        except PackError as error:
            errors.append(error)
    return tuple(packs), tuple(errors)
