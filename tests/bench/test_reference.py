"""The table's references find what the search finds."""

from __future__ import annotations

from game.cube.cube import SOLVED
from game.cube.moves import parse_line
from game.cube.pair import SLOTS
from game.search.outcome import Solved
from game.search.shortest import search
from game.search.tables import Tables
from tests.bench.reference import par_from_both_ends
from tests.bench.table import HEADINGS, Row, widths, written
from tests.deals import one_pair_unsolved


def test_plain_search_from_both_ends_agrees(tables: Tables) -> None:
    """On some states of one pair, and on a solved cube, both find the same par."""
    for cube in [SOLVED.turn(parse_line("U x")), *one_pair_unsolved("FL")[::25]]:
        ours = search(cube, SLOTS, tables=tables)
        assert isinstance(ours, Solved)
        assert par_from_both_ends(cube, SLOTS) == ours.par


def test_a_row_as_it_is_written() -> None:
    """Median and worst in the unit that suits them, numbers to the right."""
    row = Row("something", [0.002, 0.004, 1.5], "fast", 0.25, "a plain way").cells()
    assert written(HEADINGS, widths([HEADINGS, row])) == (
        "what       runs  median   worst  goal  ratio  to"
    )
    assert written(row, widths([HEADINGS, row])) == (
        "something     3  4.0 ms  1.50 s  fast   0.25  a plain way"
    )
