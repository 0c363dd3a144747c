"""What is to be played, stepped through as rows."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.deal.deal import HANDS, Kind
from game.deal.selection import FromDay, FromDeal, FromPack, first_positions
from game.packs import load_packs, pack_folder
from game.screens.shared.selection_rows import A_PACK, THE_DAY, Chosen, chosen_for

PACKS, _ = load_packs(pack_folder())
TODAY = date(2026, 11, 25)
USUAL = Chosen(PACKS, TODAY)

steps = st.lists(
    st.tuples(st.sampled_from(["source", "pack", "pairs", "slots", "open", "faces"]),
              st.sampled_from([1, -1])),
    max_size=30,
)  # fmt: skip


def stepped(chosen: Chosen, *keys: str, step: int = 1) -> Chosen:
    for key in keys:
        chosen = chosen.stepped(key, step)
    return chosen


def test_each_source() -> None:
    """A deal, a pack, the day's five, and round again; each has the rows that it needs."""
    deal, pack, day, again = (stepped(USUAL, *["source"] * n) for n in range(4))
    assert deal.selection == FromDeal(Kind())
    assert [row.key for row in deal.rows()] == ["source", "pairs", "slots", "open", "faces"]
    assert pack.selection == FromPack(PACKS[0])
    assert [row.key for row in pack.rows()] == ["source", "pack"]
    assert pack.rows()[1].value == PACKS[0].title
    assert day.selection == FromDay(TODAY)
    assert [row.key for row in day.rows()] == ["source"]
    assert again == USUAL


def test_without_packs_there_is_none_to_choose() -> None:
    """Where no pack can be read, the others are left."""
    assert stepped(Chosen((), TODAY), "source").source == THE_DAY


def test_hands_and_faces() -> None:
    """The right hand's slots are FR and BR; the faces can be those at the hands."""
    chosen = stepped(USUAL, "slots", "faces")
    assert chosen.selection == FromDeal(Kind(slots=("FR", "BR"), faces=HANDS))


def test_more_pairs_leave_fewer_slots_open() -> None:
    """Three slots open give way when a second pair comes into play."""
    chosen = stepped(USUAL, "open", "open", "open")
    assert chosen.selection == FromDeal(Kind(1, 3))
    assert stepped(chosen, "pairs").selection == FromDeal(Kind(2, 2))


@pytest.mark.parametrize(("row", "step"), [("pairs", 1), ("slots", -1), ("faces", -1)])
def test_what_no_deal_fits_is_passed_over(row: str, step: int) -> None:
    """R and U move the slots at the right alone: with two pairs, only what fits is offered."""
    chosen = replace(USUAL, pairs=2, slots="right hand", faces="R and U")
    for _ in range(9):
        chosen = chosen.stepped(row, step)
        assert chosen.selection.text


@given(steps)
def test_every_way_through_the_rows_can_be_played(way: list[tuple[str, int]]) -> None:
    """Whatever keys are pressed, something can be played, and is found by its selection."""
    chosen = USUAL
    for key, step in way:
        chosen = chosen.stepped(key, step)
    selection = chosen.selection
    assert chosen_for(selection, USUAL).selection == selection
    if chosen.source != THE_DAY:
        assert len(first_positions(selection, "seed", 2)) == 2


def test_a_programme_that_no_rows_give() -> None:
    """A deal at two slots across is no choice here; what was chosen stays."""
    across = FromDeal(Kind(slots=("FR", "BL")))
    assert chosen_for(across, replace(USUAL, source=A_PACK)).source == A_PACK
