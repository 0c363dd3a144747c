"""Sets of places as masks, one bit for each of the 24, and what moves of places make of them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from game.search.coordinates import PLACES

Masks = NDArray[np.uint32]
"""Many sets of places, of any shape."""

EVERY = (1 << PLACES) - 1
"""The mask of all places."""
_HALF = PLACES // 2
_LOWER = (1 << _HALF) - 1


def mask_move(move: NDArray[np.integer]) -> Masks:
    """Shape (2, 4096): what a move of places makes of the lower and the upper twelve bits.

    move: shape (24,), the place to which each goes.
    """
    bits = (np.arange(1 << _HALF)[:, None] >> np.arange(_HALF)) & 1
    images = (1 << move.astype(np.int64)).reshape(2, _HALF)
    return (images @ bits.T).astype(np.uint32)


def moved(masks: Masks, move: Masks) -> Masks:
    """The masks after a move, as `mask_move` gives it."""
    lower, upper = move
    after: Masks = lower.take(masks & _LOWER, mode="clip")
    after |= upper.take(masks >> _HALF, mode="clip")
    return after


def unpacked(masks: Masks) -> NDArray[np.uint8]:
    """The 24 bits of each mask, shape (..., 24)."""
    octets = masks.astype("<u4", copy=False)[..., None].view(np.uint8)
    return np.unpackbits(octets, axis=-1, count=PLACES, bitorder="little")


_ONES = unpacked(np.arange(1 << 16, dtype=np.uint32)).sum(axis=1, dtype=np.uint8)


def count_of(masks: Masks) -> int:
    """How many places all the masks have together; the masks lie in one piece of memory."""
    return int(_ONES.take(masks.reshape(-1).view(np.uint16)).sum(dtype=np.int64))
