"""Level packs: TOML files of positions, each with a claim of its par.

A pack is written by hand, so reading one finds every fault at once and says where it is; nothing
in it is executed, and all sizes are bounded. `level` holds the values, `reading` makes them of one
file, `folder` finds the packs that come with the program.
"""

from __future__ import annotations

from game.packs.folder import all_packs, load_packs, pack_folder
from game.packs.level import Level, Pack, Puzzle, puzzles
from game.packs.reading import load_pack

__all__ = [
    "Level",
    "Pack",
    "Puzzle",
    "all_packs",
    "load_pack",
    "load_packs",
    "pack_folder",
    "puzzles",
]
