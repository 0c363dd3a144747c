"""The packs that come with the program: every claim proven, every idea held, each pack growing."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from itertools import product

import pytest

from game.cube.colours import COLOURS, HOME_COLOURS, colour_scheme
from game.cube.geometry import OPPOSITE
from game.cube.line import obtm
from game.cube.moves import line_text, parse_line
from game.cube.pair import SLOTS
from game.packs import Pack, Puzzle, load_packs, pack_folder, puzzles
from game.packs.checking import Report, check_pack
from game.packs.difficulty import Find
from game.packs.opening import opening
from game.prose import numeral
from game.search.outcome import Solved
from game.search.pair_by_pair import PairByPair, pair_by_pair
from game.search.shortest import search
from game.search.tables import Tables
from tests.levels.conditions import CONDITIONS

PACKS, ERRORS = load_packs(pack_folder())
ALL = [puzzle for pack in PACKS for puzzle in puzzles(pack)]
OPPOSITE_COLOURS = {HOME_COLOURS[face]: HOME_COLOURS[other] for face, other in OPPOSITE.items()}
each_pack = pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.id)
LARGE = ("14-three-at-once", "15-four-at-once", "16-cross-and-all")
"""Packs whose harder levels take the large tables, which take a minute to build."""
each_proven = pytest.mark.parametrize(
    "pack",
    [pytest.param(pack, marks=[pytest.mark.slow] * (pack.id in LARGE)) for pack in PACKS],
    ids=lambda pack: pack.id,
)
EASY = 8
"""Turns of the levels of these packs that are proven each time."""
SAMPLE = [p for p in ALL if p.pack.id in LARGE and p.par <= EASY]
BY_PAIRS = re.compile(r"pair by pair it takes (\w+) at best", re.IGNORECASE)
"""What a note says of the best total pair by pair."""


@pytest.fixture(scope="session")
def reports(find: Find, request: pytest.FixtureRequest) -> Callable[[Pack], Report]:
    """Gives the report of a pack, worked out once."""

    def made(pack: Pack) -> Report:
        large = pack.id in LARGE
        return check_pack(pack, request.getfixturevalue("find_large") if large else find)

    return cache(made)


@pytest.fixture
def report(pack: Pack, reports: Callable[[Pack], Report]) -> Report:
    """The report of the pack that a test is about."""
    return reports(pack)


def test_all_packs_are_read() -> None:
    """No pack of ours has a fault."""
    assert [str(error) for error in ERRORS] == []


def test_there_are_enough() -> None:
    """At least twelve packs and a hundred and twenty levels come with the program."""
    assert len(PACKS) >= 12
    assert sum(len(pack.levels) for pack in PACKS) >= 120


def test_names_are_told_apart() -> None:
    """Titles of packs are all different, and so are names and ids of levels."""
    levels = [level for pack in PACKS for level in pack.levels]
    for names in (
        [pack.title for pack in PACKS],
        [level.name for level in levels],
        [level.id for level in levels],
    ):
        assert sorted(names) == sorted(set(names))


@each_proven
def test_claims_are_proven(report: Report) -> None:
    """The search finds every claimed par, for twins as well, and every shortest solution."""
    assert [str(fault) for fault in report.faults] == []
    assert all(isinstance(row.outcome, Solved) and row.outcome.complete for row in report.rows)


@pytest.mark.parametrize("puzzle", SAMPLE, ids=lambda puzzle: puzzle.level.id)
def test_a_sample_is_proven(puzzle: Puzzle, tables: Tables) -> None:
    """Of the packs of many pairs, the claims of par that the small tables can prove soon."""
    position = puzzle.position
    found = search(position.cube, position.solve, position.faces, tables=tables, first=True)
    assert isinstance(found, Solved)
    assert found.par == puzzle.par


def test_totals_pair_by_pair(tables: Tables) -> None:
    """What a note says of the best total pair by pair is true."""
    notes = ((puzzle, BY_PAIRS.search(puzzle.level.note)) for puzzle in ALL)
    told = [(puzzle.position, match[1]) for puzzle, match in notes if match]
    assert len(told) >= 4
    for position, total in told:
        found = pair_by_pair(position.cube, position.solve, tables=tables)
        assert isinstance(found, PairByPair)
        assert numeral(found.total) == total


@each_proven
def test_the_check_warns_of_nothing(report: Report) -> None:
    """A pack grows in measured difficulty, and its texts stay true in other colours and slots."""
    assert [str(warning) for warning in report.warnings] == []


@each_pack
def test_all_four_slots_are_met(pack: Pack) -> None:
    """Each pack has levels of every slot, twins left aside: nobody need turn the cube round."""
    met = {slot for level in pack.levels for slot in level.position.pairs}
    assert met == set(SLOTS)


@each_pack
def test_levels_hold_to_the_packs_idea(pack: Pack) -> None:
    """The geometric condition of the pack holds for every puzzle of it, twins as well."""
    holds = CONDITIONS[pack.id]
    broken = [
        puzzle.key
        for puzzle in puzzles(pack)
        if not all(holds(puzzle.position, slot) for slot in puzzle.position.pairs)
    ]
    assert broken == []


def test_every_condition_is_one_of_a_pack() -> None:
    """No condition is left of a pack that is gone."""
    assert set(CONDITIONS) == {pack.id for pack in PACKS}


def test_conditions_tell_packs_apart() -> None:
    """Each condition fails for a puzzle of some other pack: it says something."""
    for id_, holds in CONDITIONS.items():
        others = (puzzle.position for puzzle in ALL if puzzle.pack.id != id_)
        assert not all(holds(position, slot) for position in others for slot in position.pairs), id_


def test_notes_can_be_said_in_all_colours() -> None:
    """Every note is filled in, without a brace left, for every puzzle and all 24 colour schemes."""
    schemes = [
        colour_scheme(cross, front)
        for cross, front in product(COLOURS, COLOURS)
        if front not in (cross, OPPOSITE_COLOURS[cross])
    ]
    assert len(schemes) == 24
    for puzzle in ALL:
        assert not any(set("{}") & set(puzzle.note(scheme)) for scheme in schemes), puzzle.key


def test_lines_of_notes_solve() -> None:
    """A line in a note that is as long as par solves the level."""
    levels = [level for pack in PACKS for level in pack.levels]
    lines = [
        (level, parse_line(text))
        for level in levels
        for text in re.findall(r"\{turns ([^}]*)\}", level.note)
    ]
    whole = [(level, line) for level, line in lines if obtm(line) == level.par]
    assert len(whole) > 20
    for level, line in whole:
        assert level.position.is_goal(level.position.cube.turn(line)), level.id


def test_the_first_minutes(find: Find) -> None:
    """Three turns, the left twin of that, one of four, then the hook (common practice), unique."""
    first, twin, next_, hook = opening(PACKS)
    assert (first.par, first.twin) == (3, "")
    assert (twin.level, twin.twin) == (first.level, "left-right")
    assert (next_.par, next_.twin) == (4, "")
    found = find(hook.position.cube, hook.position.solve, hook.position.faces)
    assert isinstance(found, Solved)
    assert [line_text(line) for line in found.solutions] == ["R B U2 B' R'"]
