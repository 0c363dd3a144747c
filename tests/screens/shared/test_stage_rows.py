from __future__ import annotations

import pytest
from hypothesis import given

from game.cube.line import Line, inverse
from game.cube.moves import parse_line
from game.play.position import position_after
from game.play.stages import Stages, joined_after, stages
from game.screens.shared.stage_rows import named_joined, signs_of, stage_table
from tests import strategies


def solving(line: str) -> Stages:
    """The stages of a line, from the position that it solves."""
    return stages(position_after(inverse(parse_line(line))), parse_line(line))


def test_signs_of_a_line() -> None:
    """Freed, lined up, joined while it lasts, slotted: each under the turn that leads there."""
    assert signs_of(solving("R U2 R' F' U' F")) == ["▴", "", "=", "&", "&", "▾"]
    assert signs_of(solving("R B U2 B' R'")) == ["=", "&", "&", "&", "▾"]


def test_a_join_that_breaks_is_shown_while_it_lasts() -> None:
    """Between its breaking and its joining again there is no sign but that of being lined up."""
    position = position_after(inverse(parse_line("R B U2 B' R'")))
    signs = signs_of(stages(position, parse_line("R B B' B U2 B' R'")))
    assert signs == ["", "&", "=", "&", "&", "&", "▾"]


def test_the_start_has_no_sign() -> None:
    """What holds before the first turn stands under no turn."""
    assert signs_of(solving("R U' R'")) == ["&", "&", "▾"]
    assert signs_of(solving("")) == []


@given(strategies.lines(5), strategies.lines(10))
def test_signs_stand_where_a_pair_is_joined(setup: Line, line: Line) -> None:
    """Where a turn leaves a pair joined, and nowhere else, stands its sign or that of slotting."""
    position = position_after(setup)
    signs = signs_of(stages(position, line))
    joined = joined_after(position, line)
    assert [sign in ("&", "▾") for sign in signs] == [bool(slots) for slots in joined]


def test_the_table() -> None:
    """A row for each line under one heading; a dash where there is no such turn."""
    lines = ("yours", solving("R U2 R' F' U' F")), ("nearest", solving("R U' R'"))
    assert stage_table(lines) == [
        "turn    freed lined up joined slotted",
        "yours       1        3      4       6",
        "nearest     -        -      0       3",
    ]


def test_the_table_of_several_pairs_names_their_slots() -> None:
    """Each line is a heading over its pairs, in the order in which they are slotted."""
    lines = [(name, solving("L U L' R U R'")) for name in ("yours", "nearest")]
    rows = stage_table(lines)
    assert [row.split()[0] for row in rows] == ["yours", "BL", "FR", "nearest", "BL", "FR"]
    assert rows[0] == "yours   freed lined up joined slotted"


def test_the_table_fits_beside_the_cube() -> None:
    """It leaves room for a scroll bar in the forty columns beside the cube."""
    rows = stage_table([("nearest", solving("F2 B2 D R2 L2 U' R L U L U R D'"))])
    assert len(rows) == 5
    assert max(map(len, rows)) <= 38


@pytest.mark.parametrize(
    ("row", "width", "named"),
    [
        ("&", 20, "& joined"),
        ("  &", 10, "  & joined"),
        ("  &", 9, "  &"),
        ("& &  ▾", 20, "& &  ▾"),
        ("&        &", 40, "& joined &"),
        ("&       &", 40, "&       & joined"),
        ("=  &", 40, "=  & joined"),
        ("", 40, ""),
    ],
)
def test_the_sign_is_named_once_where_there_is_room(row: str, width: int, named: str) -> None:
    """The word stands beside the first sign whose neighbour, and the edge, leave it room."""
    assert named_joined(row, width) == named
