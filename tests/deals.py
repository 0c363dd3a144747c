"""Cubes with the cross done and some pairs not, to search in."""

from __future__ import annotations

import random
from collections.abc import Iterable
from functools import cache

from game.cube import pair
from game.cube.cube import CORNERS, EDGES, PIECE_OF, Cube, cube_of
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS
from game.errors import PositionError


@cache
def one_pair_unsolved(slot: str, seed: int = 1) -> tuple[Cube, ...]:
    """All 149 states of one slot's pair, the cross and the other three slots solved.

    The corner has 5 places it can have, the edge 5, turned 3 and 2 ways: 150, of which one is
    solved. The other pieces of the top layer lie anyhow.
    """
    chance = random.Random(seed)
    kept = _solved(other for other in SLOTS if other != slot)
    taken = {PIECE_OF[place] for place in kept.values()}
    home = SLOT[slot].home
    corners = [i for piece in CORNERS if piece not in taken for i in piece]
    edges = [i for piece in EDGES if piece not in taken for i in piece]
    return tuple(
        _completed(kept | {home.corner: corner, home.edge: edge}, chance)
        for corner in corners
        for edge in edges
        if (corner, edge) != home
    )


def pairs_unsolved(pairs: int, count: int, seed: int) -> list[Cube]:
    """Random cubes with the cross done, so many pairs of random slots unsolved, the others kept."""
    chance = random.Random(seed)
    dealt: list[Cube] = []
    while len(dealt) < count:
        slots = chance.sample(SLOTS, pairs)
        cube = _completed(_solved(slot for slot in SLOTS if slot not in slots), chance)
        if not any(pair.is_pair_solved(cube, slot) for slot in slots):
            dealt.append(cube)
    return dealt


def _solved(slots: Iterable[str]) -> dict[int, int]:
    """Stickers of the cross and of some slots, each at home."""
    return {i: i for i in (*CROSS_EDGES, *(i for slot in slots for i in SLOT[slot].home))}


def _completed(places: dict[int, int], chance: random.Random) -> Cube:
    """A random cube with these stickers (home -> place) where they are."""
    fixed = {}
    for home, place in places.items():
        piece, target = PIECE_OF[home], PIECE_OF[place]
        fixed[piece[0]] = target[(target.index(place) - piece.index(home)) % len(target)]
    taken = {PIECE_OF[place] for place in fixed.values()}
    while True:
        full = dict(fixed)
        for pieces in (CORNERS, EDGES):
            left = [piece for piece in pieces if piece not in taken]
            chance.shuffle(left)
            homes = (piece[0] for piece in pieces if piece[0] not in fixed)
            full |= {home: chance.choice(piece) for home, piece in zip(homes, left, strict=True)}
        try:
            return cube_of(full)
        except PositionError:  # a twist, a flip or an exchange too many: five in six are
            continue
