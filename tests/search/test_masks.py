"""Masks of places, held against sets."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.search.coordinates import CORNER_MOVES, EDGE_MOVES
from game.search.masks import EVERY, count_of, mask_move, moved, unpacked

place_sets = st.sets(st.integers(0, 23))


def mask(places: set[int]) -> int:
    return sum(1 << place for place in places)


@given(st.lists(place_sets, min_size=1), st.permutations(range(24)))
def test_moving_a_mask_moves_every_place(sets: list[set[int]], move: list[int]) -> None:
    """A mask after a move holds exactly where its places went."""
    masks = np.array([mask(places) for places in sets], dtype=np.uint32)
    after = moved(masks, mask_move(np.array(move)))
    assert after.tolist() == [mask({move[place] for place in places}) for places in sets]


@pytest.mark.parametrize("turn", range(18))
def test_a_turn_keeps_the_mask_of_all_places(turn: int) -> None:
    """A turn of the cube only exchanges places."""
    every = np.array([EVERY], dtype=np.uint32)
    for moves in (CORNER_MOVES, EDGE_MOVES):
        assert moved(every, mask_move(moves[:, turn])).tolist() == [EVERY]


@given(st.lists(place_sets, min_size=1))
def test_bits_and_their_number(sets: list[set[int]]) -> None:
    """Unpacked, a mask has a one for each of its places, and all are counted."""
    masks = np.array([mask(places) for places in sets], dtype=np.uint32)
    bits = unpacked(masks)
    assert [set(np.flatnonzero(row).tolist()) for row in bits] == sets
    assert count_of(masks) == sum(map(len, sets))
