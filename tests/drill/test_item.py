"""What a drill rates, and the positions of it."""

from __future__ import annotations

from collections import Counter
from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.atlas import Spot, cell_of, named
from game.cube import geometry, pair, symmetry
from game.cube.pair import SLOTS, PairPlace
from game.drill import STEP_WORDS, STEPS, Item, items, items_of, measured
from game.drill.rating import expected
from game.packs.difficulty import Find, measure
from game.search.outcome import Solved
from tests.plain_cube import is_home, is_stuck

any_item = st.sampled_from(list(items().values()))


def test_how_many_there_are() -> None:
    """41 cells at four slots, 3 groups at four; 6 pairs of slots and 4 ways to lie, twice.

    Then four times three slots and once all, with 3 ways to lie.
    """
    assert Counter(item.step for item in items().values()) == {
        "one": 41 * 4,
        "astray": 3 * 4,
        "two": 6 * 4,
        "workshop": 6 * 4,
        "three": 4 * 3,
        "four": 3,
    }
    assert list(STEP_WORDS) == list(STEPS)


@given(any_item)
def test_a_key_names_one_item(item: Item) -> None:
    """The key leads back to the item, and fits into a record."""
    assert items()[item.key] == item
    assert len(item.key) < 60


@given(any_item, st.text(max_size=6))
def test_a_position_is_of_its_item(item: Item, seed: str) -> None:
    """The slots in play, those kept and those open are the item's, and so is how the pairs lie."""
    position = item.deal(seed)
    assert position == item.deal(seed)
    assert position.pairs == item.slots
    assert pair.is_cross_solved(position.cube)
    assert all(is_home(position.cube, slot) for slot in position.kept)
    if item.step in ("three", "four"):
        stuck = [is_stuck(position.cube, slot) for slot in item.slots]
        free = {0: "none free", 1: "one free"}.get(stuck.count(False), "more free")
        assert (item.lies, position.open) == ((free,), ())
        return
    if item.step in ("two", "workshop"):
        assert len(position.open) == (2 if item.step == "workshop" else 0)
        stuck = [is_stuck(position.cube, slot) for slot in item.slots]
        assert stuck == [lie == "trapped" for lie in item.lies]
        return
    (slot,) = item.slots
    back = geometry.whole(geometry.transpose(symmetry.to_slot(slot)))
    place = PairPlace(*(back[i] for i in pair.pair_place(position.cube, slot)))
    cell, _ = cell_of(place)
    if item.step == "one":
        assert cell == named(item.lies[0])
        assert position.open == ()
    else:
        assert cell.group.value == item.lies[0]
        assert position.open


@pytest.mark.parametrize("slot", SLOTS)
def test_every_turn_of_the_top_comes(slot: str) -> None:
    """A cell with a piece above is dealt at all four turns of the top."""
    item = items()[f"one/{slot}/a3"]
    assert len({item.deal(str(seed)).text for seed in range(60)}) == 4


def test_twins_are_items_of_their_own() -> None:
    """The diagonal mirror makes 22 of the 41 (design): 19 have a twin of another name, 3 have none.

    Each twin is an item at the same slot.
    """
    names = {item.lies[0] for item in items_of("one") if item.slots == ("FR",)}
    twins = {name: Spot(named(name)).twin("diagonal") for name in names}
    assert len({frozenset((name, twin.cell.name)) for name, twin in twins.items()}) == 22
    assert {f"one/{twin.slot}/{twin.cell.name}" for twin in twins.values()} <= set(items())


def test_the_first_step_is_the_middle() -> None:
    """Single pairs start at 1500 on average; two pairs are harder than any single one."""
    starts = {step: [item.start.rating for item in items_of(step)] for step in STEPS}
    assert sum(starts["one"]) / len(starts["one"]) == pytest.approx(1500)
    assert max(starts["one"] + starts["astray"]) < min(starts["two"])


@pytest.mark.slow
@pytest.mark.parametrize("step", measured.MANY)
def test_many_pairs_start_as_measured(step: str, find_large: Find) -> None:
    """The start of items of three pairs and of four is the mean difficulty of a few deals."""
    for free, claimed in measured.MANY[step].items():
        item = next(item for item in items_of(step) if item.lies == (free,))
        found = []
        for number in range(measured.MANY_DEALS):
            position = item.deal(f"measured {number}")
            solved = find_large(position.cube, position.solve, position.faces)
            assert isinstance(solved, Solved)
            found.append(measure(position, solved, find_large).value)
        assert round(fmean(found), 1) == claimed


def test_a_turn_is_worth_a_hundred_points() -> None:
    """Who is sure to win half against one item wins 64 of 100 against one that is a turn easier."""
    even = items()["one/FR/a3"].start
    sure = type(even)(even.rating, 0.0)
    easier = type(even)(even.rating - 100, 0.0)
    assert expected(sure, sure) == 0.5
    assert expected(sure, easier) == pytest.approx(0.64, abs=0.005)
