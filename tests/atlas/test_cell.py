"""The 168 placements, each under one name."""

from __future__ import annotations

from collections import Counter

import pytest

from game.atlas import CELLS, SHEETS, TOP_TURNS, Cell, Group, cell_of, named
from game.cube.cube import PIECE_OF
from game.cube.geometry import sticker
from game.cube.moves import parse_line, permutation
from game.cube.pair import SLOT, PairPlace, in_top, placement, placements, slot_at
from game.cube.words import corner_words, edge_words


def test_every_placement_has_one_entry() -> None:
    """The cells are the 168 placements that counting gives, each once."""
    assert len(CELLS) == 168
    assert {placement(cell.place, "FR") for cell in CELLS} == set(placements())


def test_the_groups_have_24_6_6_6_and_the_rest() -> None:
    """42 have no piece in another slot: 24 + 6 + 6 + 6 (counting); 126 have."""
    counts = Counter(cell.group for cell in CELLS)
    assert [counts[group] for group in list(Group)[:4]] == [24, 6, 6, 6]
    assert len(SHEETS[0].cells) == 42
    astray = counts[Group.EDGE_ASTRAY], counts[Group.CORNER_ASTRAY], counts[Group.BOTH_ASTRAY]
    # 6 corners by 3 slots by 2; 9 corners by 2 above and 2 at home; 9 by 3 slots by 2
    assert astray == (36, 36, 54)


def test_the_states_of_a_pair_are_the_turns_of_the_entries() -> None:
    """Turned by the top, the cells make each of the 384 states once (cross done)."""
    states = [cell.turned(turn) for cell in CELLS for turn in cell.turns]
    assert len(states) == len(set(states)) == 384
    assert all(cell_of(cell.turned(t)) == (cell, t) for cell in CELLS for t in cell.turns)


def test_150_states_have_no_piece_astray() -> None:
    """Corner above or in its slot, edge likewise: 15 times 10 states."""
    assert sum(len(cell.turns) for cell in SHEETS[0].cells) == 150


def test_the_first_sheet_is_six_rows_of_ten_columns() -> None:
    """Rows a to f, columns 0 to 9; four columns are one cell where only the edge is above."""
    names = [[cell.columns for cell in CELLS if cell.row.letter == row] for row in "abcdef"]
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
                cell = named(f"{row.letter}{column}")
                assert str(column) in cell.columns
                assert cell.sheet is sheet
                assert named(cell.name) is cell
                assert repr(cell) == f"named('{cell.name}')"
    with pytest.raises(KeyError):
        named("q0")


def test_a_low_corner_is_turned_to_its_column() -> None:
    """In rows d to f the digit tells at which side the edge lies."""
    turned = [named("d2").turned(named("d2").turn_to(column)).edge for column in "0123"]
    assert turned == [sticker("U", *at) for at in ((2, 1), (1, 2), (0, 1), (1, 0))]


def test_a_turn_of_the_top_is_that_turn() -> None:
    """The turn after so many quarters is what U does to the stickers, so many times."""
    cell = named("b6")
    for turn, name in enumerate(TOP_TURNS[1:], 1):
        (move,) = parse_line(name)
        moved = PairPlace(*(permutation(move)[place] for place in cell.place))
        assert cell.turned(turn) == moved
    assert cell.turned(4) == cell.turned(0) == cell.place


def listed_right(cell: Cell) -> bool:
    """Whether a cell is listed as its module says."""
    if in_top(cell.place.corner):
        home = PIECE_OF[sticker("U", 2, 2)]
        return cell.place.corner in home
    return slot_at(cell.place.corner) != ""


def test_a_high_corner_is_listed_above_its_slot() -> None:
    """Cells with the corner in the top layer show it above FR."""
    assert all(map(listed_right, CELLS))


def test_only_the_solved_one_is_solved() -> None:
    """One cell is the pair at home: d8."""
    assert [cell.name for cell in CELLS if cell.is_solved] == ["d8"]
    assert named("d8").place == SLOT["FR"].home


def test_trapped_slots_are_those_that_hold_a_piece() -> None:
    """The first sheet traps nothing, the second one slot, the third up to two."""
    assert {cell.trapped for cell in SHEETS[0].cells} == {()}
    assert {len(cell.trapped) for cell in SHEETS[1].cells} == {1}
    assert named("n8").trapped == ("FL", "BR")
