"""What is played, from a seed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.pair import SLOTS
from game.deal.deal import HANDS, Kind
from game.deal.selection import (
    MAX_PROGRAMME_TEXT,
    FromDay,
    FromDeal,
    FromPack,
    first_positions,
    parse_selection,
)
from game.errors import SelectionError
from game.friends.day import day
from game.packs import load_pack, pack_folder, puzzles

PACK = load_pack(pack_folder() / "00-first-turns.toml")

kinds = st.builds(
    Kind,
    pairs=st.integers(1, 2),
    open=st.integers(0, 2),
    view=st.sampled_from(["focus", "full"]),
    slots=st.sampled_from([SLOTS, ("FR", "BR"), ("FL", "BL")]),
    faces=st.sampled_from(["FBRLUD", HANDS]),
)


def test_a_pack_comes_whole_and_again() -> None:
    """Every puzzle of the pack once, in an order of the seed's, and then once more in another."""
    selection = FromPack(PACK)
    all_ = sorted(puzzle.position.text for puzzle in puzzles(PACK))
    played = [position.text for position in islice(selection.positions("seed"), 2 * len(all_))]
    first, second = played[: len(all_)], played[len(all_) :]
    assert sorted(first) == sorted(second) == all_
    assert first != second
    assert [p.text for p in first_positions(selection, "other", len(all_))] != first


@given(kinds, st.text(max_size=8))
def test_a_deal_is_of_its_kind(kind: Kind, seed: str) -> None:
    """A seed gives the same positions every time, each of the kind, hardly two of them alike."""
    positions = first_positions(FromDeal(kind), seed, 4)
    assert positions == first_positions(FromDeal(kind), seed, 4)
    assert {len(p.pairs) for p in positions} == {kind.pairs}
    assert len({p.text for p in positions}) > 1


@given(kinds)
def test_a_deals_text_says_all_of_it(kind: Kind) -> None:
    """A selection is read back from its text, which is short and can be shown."""
    text = FromDeal(kind).text
    assert parse_selection(text, (), date.fromisoformat) == FromDeal(kind)
    assert len(text) <= MAX_PROGRAMME_TEXT
    assert text.isprintable()


def test_a_packs_text_names_it() -> None:
    """A pack is found among those that are there."""
    assert parse_selection("pack/00-first-turns", (PACK,), date.fromisoformat) == FromPack(PACK)


def test_a_days_five() -> None:
    """The five of a date come in their order whatever the seed, and are found by their text."""
    selection = FromDay(date(2026, 11, 25))
    assert first_positions(selection, "seed", 9) == day(date(2026, 11, 25)).positions
    assert first_positions(selection, "other", 9) == first_positions(selection, "seed", 9)
    assert selection.most == len(first_positions(selection, "", 9))
    assert parse_selection("day/2026-11-25", (), date.fromisoformat) == selection


def test_words() -> None:
    """A deal is called by what is not as usual in it."""
    assert FromDeal(Kind()).words == "one pair"
    kind = Kind(1, 2, slots=("FR", "BR"), faces=HANDS)
    assert FromDeal(kind).words == "one pair at FR or BR, two slots open, faces at the hands"
    assert FromDeal(Kind(2, faces="FRLU")).words == "two pairs, turning F, R, L and U only"
    assert FromPack(PACK).words == "First Turns"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "pack",
        "pack/",
        "pack/nowhere",
        "deal",
        "deal/1/0/FR",
        "deal/0/0/FR/FBRLUD/focus",
        "deal/9/0/FR/FBRLUD/focus",
        "deal/²/0/FR/FBRLUD/focus",
        "deal/1/0/ZZ/FBRLUD/focus",
        "deal/1/0/FR/RU\n/focus",
        "deal/1/0/FR/FBRLUD/dim",
        "deal/1/0/FR+FL+BL+BR/FBRLUD/focus" + " " * 100,
        "x" * 10_000,
        "day/2026-02-30",
        "day/1999-01-01",
        "day/20261125",
    ],
)
def test_texts_that_are_none(text: str) -> None:
    """Whatever is no selection is refused in one line."""
    with pytest.raises(SelectionError) as caught:
        parse_selection(text, (PACK,), date.fromisoformat)
    assert "\n" not in str(caught.value)


def test_nothing_to_play() -> None:
    """A pack without levels, and a deal of faces that move no pair, are refused."""
    with pytest.raises(SelectionError, match="no levels"):
        FromPack(replace(PACK, levels=()))
    with pytest.raises(SelectionError, match="nothing can be dealt"):
        first_positions(FromDeal(Kind(faces="R")), "seed", 1)


@given(st.text(max_size=60))
def test_no_text_crashes(text: str) -> None:
    """Any text at all is a selection, or is refused."""
    for whole in (text, f"deal/{text}", f"pack/{text}", f"day/{text}"):
        try:
            assert parse_selection(whole, (PACK,), date.fromisoformat).text == whole
        except SelectionError:
            continue
