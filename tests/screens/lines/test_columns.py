"""Lines beside each other as text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from game.screens.lines.columns import LABEL_WIDTH, LEAST_WIDTH, MOST_WIDTH, PlayerLine, grid
from tests.screens.several import HOOK, LONG, OTHER, START, entry

THREE = (entry("Ada", HOOK, called=True), entry("Bo", LONG, late=2), entry("Cem", solved=False))


def rows(*entries: PlayerLine, par: int | None = 5, columns: int = 78) -> list[list[str]]:
    """The words of each row."""
    shown = grid(entries, par, columns, marked=0)
    return [
        row.split() for row in [*shown.head().plain.split("\n"), *shown.body().plain.split("\n")]
    ]


def test_results_stand_under_the_names() -> None:
    """Turns with what they are over par, both times, and whether a call was right."""
    assert rows(*THREE)[:5] == [
        ["Ada", "Bo", "Cem"],
        ["turns", "5", "par", "7", "+2", "DNF"],
        ["seeing", "3.41", "3.41+2"],
        ["doing", "2.10", "2.10"],
        ["called", "rightly"],
    ]


def test_a_wrong_call() -> None:
    """Whoever called a line over par was wrong; while par is not known nobody is right or wrong."""
    called = (entry("Ada", HOOK, called=True), entry("Bo", LONG, called=True))
    assert rows(*called)[4] == ["called", "rightly", "wrongly"]
    assert rows(*called, par=None)[1] == ["turns", "5", "7"]
    assert rows(*called, par=None)[4] == ["called", "yes", "yes"]


def test_no_call_no_row() -> None:
    """Where nobody called there is no row of calls."""
    assert not any("called" in row for row in rows(entry("Ada"), entry("Bo")))


def test_moves_stand_turn_by_turn_with_their_stages() -> None:
    """Each move is in the row of its number, and the sign of its stage beside it."""
    table = rows(entry("Ada", HOOK), entry("Bo", LONG), PlayerLine(START, "shortest", OTHER))
    assert table[-7:] == [
        ["1", "R", "=", "R", "y"],
        ["2", "B", "&", "U'", "F", "="],
        ["3", "U2", "&", "R'", "R", "&"],
        ["4", "B'", "&", "U2", "=", "U2", "&"],
        ["5", "R'", "▾", "R", "&", "R'", "&"],
        ["6", "U", "&", "F'", "▾"],
        ["7", "R'", "▾"],
    ]


@pytest.mark.parametrize(("columns", "seen"), [(78, 8), (58, 6), (118, 9), (20, 1)])
def test_as_many_as_fit(columns: int, seen: int) -> None:
    """Eight players fit at 80 columns and six at 60, whatever else is reached by going there."""
    entries = (*map(entry, "ABCDEFGH"), PlayerLine(START, "shortest", HOOK))
    assert len(grid(entries, 5, columns, marked=0).seen) == seen


@given(
    st.lists(st.text(max_size=50).map(lambda name: name or "A"), min_size=1, max_size=9),
    st.integers(20, 200),
    st.data(),
)
def test_the_marked_one_is_in_view(names: list[str], columns: int, data: st.DataObject) -> None:
    """Wherever the view was, the marked column is in it, and it moves no further than it must."""
    entries = tuple(entry(name) for name in names)
    marked = data.draw(st.integers(0, len(names) - 1))
    first = data.draw(st.integers(0, len(names) - 1))
    shown = grid(entries, 5, columns, marked=marked, first=first, picked=[marked])
    assert marked in shown.seen and len(shown.seen) == shown.shown
    if first <= marked < first + shown.shown <= len(names):
        assert shown.first == first
    assert LEAST_WIDTH <= shown.width <= MOST_WIDTH
    assert LABEL_WIDTH + shown.width * shown.shown <= max(columns, LABEL_WIDTH + LEAST_WIDTH)


@given(st.lists(st.text(st.characters(codec="utf-8"), min_size=1), min_size=1, max_size=8))
def test_columns_stay_in_place(names: list[str]) -> None:
    """Whatever the names are, each row is as wide as the others, and nothing in it is unseen."""
    entries = tuple(entry(name) for name in names)
    shown = grid(entries, 5, 78, marked=0, picked=[0])
    every = [*shown.head().plain.split("\n"), *shown.body().plain.split("\n")]
    assert all(row.isprintable() for row in every)
    assert {cell_len(row) for row in every} == {LABEL_WIDTH + shown.width * shown.shown}


def test_where_a_click_goes() -> None:
    """A column of the table is that of a line, or of none."""
    shown = grid(THREE, 5, 78, marked=0)
    width = shown.width
    assert [shown.at(x) for x in (0, LABEL_WIDTH - 1, LABEL_WIDTH, LABEL_WIDTH + width)] == [
        None, None, 0, 1,
    ]  # fmt: skip
    assert shown.at(LABEL_WIDTH + 3 * width) is None


def test_moves_stand_evenly_in_the_time_of_doing() -> None:
    """The first move comes when seeing ends, the last when doing does."""
    assert entry("Ada", HOOK, 341, 210).moments == (3410, 3935, 4460, 4985, 5510)
    assert entry("Ada", HOOK[:1], 341, 0).moments == (3410,)
    assert PlayerLine(START, "shortest", HOOK).moments == ()
    assert entry("Ada", HOOK[:2], solved=False).moments == ()
