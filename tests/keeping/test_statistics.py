"""Attempts put together by kind, slot, side and day; pauses found by replaying."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from game.cube import pair
from game.cube.cube import SOLVED
from game.cube.moves import parse_line
from game.cube.pair import SLOTS, PairPlace, placements
from game.errors import RecordsError
from game.keeping.statistics import (
    ASTRAY,
    BOTH_ABOVE,
    BOTH_IN,
    CORNER_IN,
    EDGE_IN,
    KINDS,
    doing,
    kind,
    over,
    pace,
    pauses,
    recent_pauses,
    seeing,
    series,
    sides_of,
    statistics,
    statistics_of,
)
from game.play.position import position_after, position_of
from game.records import Records, Sums
from tests.deals import one_pair_unsolved, pairs_unsolved
from tests.many_attempts import write
from tests.records.samples import SAMPLE

ONE = Sums(2, 1, 1, 3, 0, 1, 4000, 1, 2000, 6)


def test_kinds_are_the_groups_of_the_placements() -> None:
    """24, 6, 6 and 6 placements, and the other 126 astray (common practice, no source)."""
    kinds = [kind(PairPlace(*placement), "FR") for placement in placements()]
    assert [kinds.count(k) for k in KINDS] == [24, 6, 6, 6, 126]


def test_kinds_tell_which_piece_lies_above() -> None:
    """In a kind's words: above and in slot are where the pieces are."""
    for corner, edge in placements()[:42]:
        told = kind(PairPlace(corner, edge), "FR")
        above = [name for name, place in zip(("corner", "edge"), (corner, edge), strict=True)
                 if pair.in_top(place)]  # fmt: skip
        words = {2: BOTH_ABOVE, 0: BOTH_IN}
        single = {"edge": CORNER_IN, "corner": EDGE_IN}
        assert told == words.get(len(above)) or told == single[above[0]]


@pytest.mark.parametrize("slot", SLOTS)
def test_every_position_of_one_pair_counts_once(slot: str) -> None:
    """All 149 states of a slot's pair are added to that slot, its two sides and nowhere else."""
    texts = {position_of(cube).text for cube in one_pair_unsolved(slot)}
    found = statistics(dict.fromkeys(texts, ONE), {})
    assert {key[1] for key in found.placements} == {slot}
    assert sum(sums.tried for sums in found.placements.values()) == 2 * len(texts)
    assert set(found.sides) == set(sides_of(slot))
    assert all(sums.tried == 2 * len(texts) for sums in found.sides.values())
    assert found.several == {}


def test_positions_of_several_pairs_count_by_their_number() -> None:
    """Two, three and four pairs are told apart and belong to no slot."""
    texts = [position_of(cube).text for n in (2, 3, 4) for cube in pairs_unsolved(n, 3, seed=n)]
    found = statistics(dict.fromkeys(texts, ONE), {})
    assert {count: sums.tried for count, sums in found.several.items()} == {2: 6, 3: 6, 4: 6}
    assert found.placements == {}


def test_a_piece_in_another_slot_is_astray() -> None:
    """With the corner of FR in BL the pair is astray, whatever the edge does."""
    cubes = (cube for cube in pairs_unsolved(4, 40, seed=5))
    places = [pair.pair_place(cube, "FR") for cube in cubes]
    low = [place for place in places if pair.slot_at(place.corner) == "BL"]
    assert low
    assert {kind(place, "FR") for place in low} == {ASTRAY}


def test_what_is_no_position_counts_only_as_a_whole() -> None:
    """A cross that is not done, or a text that is no position, is of no slot."""
    crossless = position_of(SOLVED.turn(parse_line("F R"))).text
    found = statistics({crossless: ONE, "nonsense": ONE}, {(1, 5): ONE, (1, None): ONE})
    assert (found.placements, found.several, found.sides) == ({}, {}, {})
    assert found.whole == ONE.plus(ONE)


def test_nothing_at_all() -> None:
    """Without attempts everything is empty and no measure has a value."""
    found = statistics({}, {})
    assert found.days == ()
    assert [measure(found.whole) for measure in (over, seeing, doing, pace)] == [None] * 4


def test_measures() -> None:
    """Means of what was added up: turns over par, seconds, turns a second."""
    sums = Sums(9, 4, 4, 6, 1, 2, 5000, 4, 8000, 24)
    assert (over(sums), seeing(sums), doing(sums), pace(sums)) == (1.5, 2.5, 2.0, 3.0)


def test_strength_grows_with_wins_at_par() -> None:
    """Days at par raise the rating, days over par lower it, and a day settles it."""
    won, lost = Sums(5, 5, 5, 0, 5), Sums(5, 5, 5, 5, 0)
    up = [day.strength.rating for day in statistics({}, {(1, 6): won, (2, 6): won}).days]
    down = [day.strength.rating for day in statistics({}, {(1, 6): lost, (2, 6): lost}).days]
    assert 1500 < up[0] < up[1]
    assert 1500 > down[0] > down[1]
    (day,) = statistics({}, {(1, 6): won}).days
    assert day.strength.deviation < 350


def test_days_come_in_order() -> None:
    """Whatever the order of the sums, days are in theirs, all pars of a day together."""
    days = statistics({}, {(9, 4): ONE, (2, 5): ONE, (9, None): ONE}).days
    assert [(day.day, day.sums.tried) for day in days] == [(2, 2), (9, 4)]


def test_series_are_means_of_their_steps() -> None:
    """More days than steps share them; a step without a value has none."""
    days = statistics({}, {(n, None): ONE for n in range(5)}).days
    assert series(days, 9, lambda day: day.day) == (0, 1, 2, 3, 4)
    assert series(days, 2, lambda day: day.day) == (0.5, 3)
    assert series(days, 2, lambda day: None if day.day < 2 else 1.0) == (None, 1.0)
    assert series((), 5, lambda day: 1.0) == ()


TWO = position_after(parse_line("L' U L R U R'"))
SOLUTION = "R U' R' L' U' L"


def timed(line: str, *ms: int) -> tuple[tuple[int, str], ...]:
    return tuple(zip(ms, line.split(), strict=True))


def test_a_pause_lies_between_two_pairs() -> None:
    """From the turn that solves the first pair to the next turn; after the last there is none."""
    assert TWO.pairs == ("FR", "FL")
    assert pauses(TWO, timed(SOLUTION, 1000, 1300, 1500, 2700, 2900, 3000)) == (1200,)


def test_rotations_and_undoing_end_no_pause() -> None:
    """Looking round and taking a turn back belong to the pause, and no pair counts twice."""
    line = "R U' R' y undo y' L' undo L' U' L"
    times = (1000, 1300, 1500, 1600, 1700, 1800, 1900, 2000, 2400, 2900, 3000)
    assert pauses(TWO, timed(line, *times)) == (400,)


def test_one_pair_has_no_pause() -> None:
    """Where only one pair is in play there is nothing between."""
    assert pauses(position_after(parse_line("R U R'")), timed("R U' R'", 1, 2, 3)) == ()


def test_recent_pauses_are_of_fair_attempts_at_several_pairs() -> None:
    """Helped and unsolved attempts, single pairs and events that do not fit are passed over."""
    events = timed(SOLUTION, 1000, 1300, 1500, 2700, 2900, 3000)
    good = replace(SAMPLE, position=TWO.text, events=events)
    others = (
        replace(good, shown=True),
        replace(good, hint=True),
        replace(good, outcome="gave up"),
        replace(good, events=((5, "R"), (1, "R"))),
        replace(good, position="nonsense"),
        SAMPLE,
    )
    assert recent_pauses((*others, good)) == (1200,)


def test_kinds_do_not_depend_on_the_slot() -> None:
    """Seen from its slot a pair is of the kind that it is anywhere."""
    for cube in pairs_unsolved(4, 60, seed=8):
        for slot in SLOTS:
            place = pair.pair_place(cube, slot)
            seen = PairPlace(*pair.placement(place, slot))
            assert kind(place, slot) == kind(seen, "FR")


def test_the_statistics_of_a_file_are_those_of_its_sums(tmp_path: Path) -> None:
    """Adding up side by side finds what adding up in turn does; a file that is none is a fault."""
    path = tmp_path / "records.db"
    write(path, 500)
    with closing(Records(path)) as records:
        expected = statistics(records.sums_by_position(), records.sums_by_day())
    assert statistics_of(path) == expected
    assert expected.whole.tried == 500
    assert statistics_of(tmp_path / "none.db") == statistics({}, {})
    path.write_text("no database " * 1000)
    with pytest.raises(RecordsError):
        statistics_of(path)
