"""The 168 placements, each under one name."""

from __future__ import annotations

from collections import Counter

import pytest

from game.atlas import ENTRIES, SHEETS, TOP_TURNS, Entry, Group, entry_of, named
from game.cube.cube import PIECE_OF
from game.cube.geometry import sticker
from game.cube.moves import parse_line, permutation
from game.cube.pair import SLOT, PairPlace, in_top, placement, placements, slot_at
from game.cube.words import corner_words, edge_words


def test_every_placement_has_one_entry() -> None:
    """The entries are the 168 placements that counting gives, each once."""
    assert len(ENTRIES) == 168
    assert {placement(entry.place, "FR") for entry in ENTRIES} == set(placements())


def test_the_groups_have_24_6_6_6_and_the_rest() -> None:
    """42 have no piece in another slot: 24 + 6 + 6 + 6 (counting); 126 have."""
    counts = Counter(entry.group for entry in ENTRIES)
    assert [counts[group] for group in list(Group)[:4]] == [24, 6, 6, 6]
    assert len(SHEETS[0].entries) == 42
    astray = counts[Group.EDGE_ASTRAY], counts[Group.CORNER_ASTRAY], counts[Group.BOTH_ASTRAY]
    # 6 corners by 3 slots by 2; 9 corners by 2 above and 2 at home; 9 by 3 slots by 2
    assert astray == (36, 36, 54)


def test_the_states_of_a_pair_are_the_turns_of_the_entries() -> None:
    """Turned by the top, the entries make each of the 384 states once (cross done)."""
    states = [entry.turned(turn) for entry in ENTRIES for turn in entry.turns]
    assert len(states) == len(set(states)) == 384
    assert all(entry_of(entry.turned(t)) == (entry, t) for entry in ENTRIES for t in entry.turns)


def test_150_states_have_no_piece_astray() -> None:
    """Corner above or in its slot, edge likewise: 15 times 10 states."""
    assert sum(len(entry.turns) for entry in SHEETS[0].entries) == 150


def test_the_first_sheet_is_six_rows_of_ten_columns() -> None:
    """Rows a to f, columns 0 to 9; four columns are one entry where only the edge is above."""
    names = [[entry.columns for entry in ENTRIES if entry.row.letter == row] for row in "abcdef"]
    assert names[:3] == [list("0123456789")] * 3
    assert names[3:] == [["0123", "4567", "8", "9"]] * 3


def test_no_row_takes_the_letter_of_a_command() -> None:
    """Twenty-one rows, each with a letter of its own, and m q u w y are left."""
    letters = [row.letter for sheet in SHEETS for row in sheet.rows]
    assert sorted(letters) == sorted(set("abcdefghijklmnopqrstuvwxyz") - set("mquwy"))


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("a3", "corner above its slot, white up; edge in the top layer on the left, green up"),
        ("b1", "corner above its slot, white to the front; edge in the top layer on the right"),
        ("c4", "corner above its slot, white to the right; edge in the top layer at the front"),
        ("d8", "corner in its slot, white down; edge in its slot, green to the front"),
        ("f9", "corner in its slot, white to the right; edge in its slot, green to the right"),
        ("g0", "corner above its slot, white up; edge in slot FL, green to the front"),
        ("n0", "corner in slot FL, white down; edge in the top layer at the front, green up"),
        ("z9", "corner in slot BR, white to the right; edge in slot BR, green to the right"),
    ],
)
def test_a_name_means_this(name: str, words: str) -> None:
    """Row and column tell where both pieces are, in the order that the sheets promise."""
    place = named(name).place
    told = f"{corner_words(place.corner, 'FR')}; {edge_words(place.edge, 'FR')}"
    assert told.startswith(words)


def test_a_name_leads_to_its_entry() -> None:
    """Each row and column of a sheet is an entry's, and `repr` names it."""
    for sheet in SHEETS:
        for row in sheet.rows:
            for column in range(len(sheet.edges)):
                entry = named(f"{row.letter}{column}")
                assert str(column) in entry.columns
                assert entry.sheet is sheet
                assert named(entry.name) is entry
                assert repr(entry) == f"named('{entry.name}')"
    with pytest.raises(KeyError):
        named("q0")


def test_a_low_corner_is_turned_to_its_column() -> None:
    """In rows d to f the digit tells at which side the edge lies."""
    turned = [named("d2").turned(named("d2").turn_to(column)).edge for column in "0123"]
    assert turned == [sticker("U", *at) for at in ((2, 1), (1, 2), (0, 1), (1, 0))]


def test_a_turn_of_the_top_is_that_turn() -> None:
    """The turn after so many quarters is what U does to the stickers, so many times."""
    entry = named("b6")
    for turn, name in enumerate(TOP_TURNS[1:], 1):
        (move,) = parse_line(name)
        moved = PairPlace(*(permutation(move)[place] for place in entry.place))
        assert entry.turned(turn) == moved
    assert entry.turned(4) == entry.turned(0) == entry.place


def listed_right(entry: Entry) -> bool:
    """Whether an entry is listed as its module says."""
    if in_top(entry.place.corner):
        home = PIECE_OF[sticker("U", 2, 2)]
        return entry.place.corner in home
    return slot_at(entry.place.corner) != ""


def test_a_high_corner_is_listed_above_its_slot() -> None:
    """Entries with the corner in the top layer show it above FR."""
    assert all(map(listed_right, ENTRIES))


def test_only_the_solved_one_is_solved() -> None:
    """One entry is the pair at home: d8."""
    assert [entry.name for entry in ENTRIES if entry.is_solved] == ["d8"]
    assert named("d8").place == SLOT["FR"].home


def test_trapped_slots_are_those_that_hold_a_piece() -> None:
    """The first sheet traps nothing, the second one slot, the third up to two."""
    assert {entry.trapped for entry in SHEETS[0].entries} == {()}
    assert {len(entry.trapped) for entry in SHEETS[1].entries} == {1}
    assert named("n8").trapped == ("FL", "BR")
