"""The measured difficulty (`game.difficulty`) that items start from: claims, proven by the tests.

They are kept here since measuring anew takes seconds of searching. Pieces hidden from view are
left out: they depend on the slot, and are counted where an item is made.
"""

from __future__ import annotations

ENTRIES: dict[str, float] = {
    "a0": 7.6, "a1": 7.0, "a2": 6.7, "a3": 6.0, "a4": 7.0,
    "a5": 7.6, "a6": 6.0, "a7": 6.7, "a8": 8.2, "a9": 5.7,
    "b0": 6.4, "b1": 3.6, "b2": 7.0, "b3": 6.5, "b4": 7.1,
    "b5": 6.7, "b6": 7.0, "b7": 3.0, "b8": 8.0, "b9": 8.3,
    "c0": 6.7, "c1": 7.1, "c2": 3.0, "c3": 7.0, "c4": 3.6,
    "c5": 6.4, "c6": 6.5, "c7": 7.0, "c8": 8.0, "c9": 8.3,
    "d0": 6.6, "d4": 8.0, "d9": 9.0,
    "e0": 8.0, "e4": 6.4, "e8": 8.6, "e9": 8.3,
    "f0": 8.0, "f4": 5.6, "f8": 8.6, "f9": 8.3,
}  # fmt: skip
"""Of each entry of the atlas without a piece in another slot, as listed, the other slots kept."""

GROUPS: dict[str, float] = {"edge astray": 6.9, "corner astray": 7.2, "both astray": 7.5}
"""The mean of the entries of a group, as listed, the slots with a piece of the pair open."""
