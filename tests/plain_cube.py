"""Facts about pairs read off the stickers' places, one by one: another way than the program's."""

from __future__ import annotations

from game.cube.cube import PIECE_OF, Cube
from game.cube.geometry import STICKERS
from game.cube.pair import SLOT


def touches(cube: Cube, slot: str) -> bool:
    """Whether on two faces a sticker of the corner lies right beside one of its own colour."""
    home = SLOT[slot].home
    where = cube.upright.where
    beside = 0
    for c in PIECE_OF[home.corner]:
        for e in PIECE_OF[home.edge]:
            if STICKERS[c].face == STICKERS[e].face:
                here, there = STICKERS[where[c]], STICKERS[where[e]]
                apart = sum(abs(a - b) for a, b in zip(here.place, there.place, strict=True))
                beside += here.normal == there.normal and apart == 1
    return beside == 2


def is_home(cube: Cube, slot: str) -> bool:
    """Whether every sticker of corner and edge is at home."""
    where = cube.upright.where
    return all(where[i] == i for home in SLOT[slot].home for i in PIECE_OF[home])


def is_stuck(cube: Cube, slot: str) -> bool:
    """Whether the corner or the edge lies below the top layer and not as at home."""
    where = cube.upright.where
    pieces = [PIECE_OF[home] for home in SLOT[slot].home]
    return any(
        STICKERS[where[piece[0]]].place[1] < 1 and any(where[i] != i for i in piece)
        for piece in pieces
    )


def is_top(cube: Cube, slot: str) -> bool:
    """Whether the corner or the edge lies in the top layer."""
    where = cube.upright.where
    return any(STICKERS[where[home]].place[1] == 1 for home in SLOT[slot].home)
