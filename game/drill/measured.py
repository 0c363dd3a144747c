"""The measured difficulty (`game.packs.difficulty`) that items start from: claims that tests prove.

They are kept here since measuring anew takes seconds of searching. Pieces hidden from view are
left out: they depend on the slot, and are counted where an item is made.
"""

from __future__ import annotations

CELLS: dict[str, float] = {
    "a0": 7.3, "a1": 7.2, "a2": 6.4, "a3": 6.0, "a4": 7.2,
    "a5": 7.3, "a6": 6.0, "a7": 6.4, "a8": 8.3, "a9": 6.4,
    "b0": 7.0, "b1": 3.3, "b2": 6.7, "b3": 6.9, "b4": 7.1,
    "b5": 7.2, "b6": 6.7, "b7": 3.8, "b8": 7.2, "b9": 7.4,
    "c0": 7.2, "c1": 7.1, "c2": 3.8, "c3": 6.7, "c4": 3.3,
    "c5": 7.0, "c6": 6.9, "c7": 6.7, "c8": 7.2, "c9": 7.4,
    "d0": 7.1, "d4": 7.1, "d9": 9.0,
    "e0": 7.3, "e4": 6.6, "e8": 8.6, "e9": 8.3,
    "f0": 6.6, "f4": 7.3, "f8": 8.6, "f9": 8.3,
}  # fmt: skip
"""Of each cell of the atlas without a piece in another slot: the mean over the turns of the top,
the other slots kept."""

GROUPS: dict[str, float] = {"edge astray": 6.9, "corner astray": 7.2, "both astray": 7.5}
"""Of a group of cells: the mean over all of them as listed, the slots that hold a piece open."""

MANY: dict[str, dict[str, float]] = {
    "three": {"none free": 15.0, "one free": 16.2, "more free": 14.0},
    "four": {"none free": 19.3, "one free": 19.0, "more free": 18.7},
}
"""Of three pairs and of four, by how many are free: the mean over `MANY_DEALS` deals of an item."""
MANY_DEALS = 6
