"""Stages: every shortest line of every placement, and lines made to show each fact."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given

from game.cube import line as lines
from game.cube import symmetry
from game.cube.cube import Cube
from game.cube.line import Line, inverse, rotation_line
from game.cube.moves import MOVES, parse_line
from game.cube.pair import SLOTS
from game.play.position import Position, position_after, position_of
from game.play.stages import Moved, Opening, PairStages, Stages, cubes_along, joined_after, stages
from game.search.outcome import Solved
from game.search.shortest import search
from game.search.tables import Tables
from tests import strategies
from tests.deals import one_pair_unsolved
from tests.plain_cube import is_home, is_stuck, touches

SHORT = parse_line("R B U2 B' R'")
HOOK = position_after(inverse(SHORT))
Shortest = tuple[tuple[Position, Line], ...]


@pytest.fixture(scope="session")
def shortest(tables: Tables) -> Shortest:
    """Every shortest line of every state of the pair FR, the other three kept.

    These are the 41 unsolved placements without a piece in another slot, at each turn of the top.
    """
    found = []
    for cube in one_pair_unsolved("FR"):
        outcome = search(cube, SLOTS, tables=tables)
        assert isinstance(outcome, Solved)
        assert outcome.complete
        position = position_of(cube)
        found += [(position, solution) for solution in outcome.solutions]
    return tuple(found)


@pytest.mark.slow
def test_joins_before_the_end(shortest: Shortest) -> None:
    """All 510 shortest lines of one slot join one to six turns before their end (computed)."""
    before = Counter(
        len(line) - (stages(position, line).of("FR").joined or 0) for position, line in shortest
    )
    assert before == {1: 68, 2: 246, 3: 90, 4: 90, 5: 8, 6: 8}
    assert sum(before.values()) == 510


@pytest.mark.parametrize("slot", SLOTS)
def test_stages_of_every_shortest_line(shortest: Shortest, slot: str) -> None:
    """In each slot each stage is what its sentence says, and no shortest line breaks a join."""
    turn = symmetry.to_slot(slot)
    for start, way in shortest:
        position, line = start.image(turn), lines.image(way, turn)
        found = stages(position, line).of(slot)
        assert_true(position.cube, line, found)
        assert found.breaks == ()
        assert found.slotted is not None
        assert found.slotted <= len(line)


@pytest.mark.slow
def test_freed_and_joined(shortest: Shortest) -> None:
    """How *freed* falls among the shortest lines, the last such turn for comparison (computed)."""
    late, last_is_late = 0, 0
    for position, line in shortest:
        found = stages(position, line).of("FR")
        stuck = [is_stuck(cube, "FR") for cube in cubes_along(position.cube, line)]
        last = max((turn for turn, held in enumerate(stuck, 1) if held), default=0)
        assert found.joined is not None
        assert found.freed is not None
        late += found.freed > found.joined
        last_is_late += last > found.joined
    assert (late, last_is_late) == (18, 230)


@given(strategies.slots, strategies.lines(8), strategies.lines(8))
def test_stages_of_any_line(slot: str, setup: Line, line: Line) -> None:
    """Each stage of any line, in any grip, is what its sentence says."""
    position = position_after(setup)
    if slot in position.pairs:
        assert_true(position.cube, line, stages(position, line).of(slot))


def assert_true(cube: Cube, line: Line, found: PairStages) -> None:
    """Hold stages against the stickers' places, turn by turn."""
    slot = found.slot
    cubes = cubes_along(cube, line)
    joined = [touches(each, slot) for each in cubes]
    home = [is_home(each, slot) for each in cubes]
    stuck = [is_stuck(each, slot) for each in cubes]
    for turn, held in ((found.joined, joined), (found.slotted, home)):
        if turn is None:
            assert not held[-1]
        else:
            assert all(held[turn:])
            assert turn == 0 or not held[turn - 1]
    if found.freed is None:
        assert all(stuck)
    else:
        assert all(stuck[: found.freed])
        assert not stuck[found.freed]
    assert found.lined_up == (found.joined - 1 if found.joined else None)
    for turn, now in enumerate(joined):
        was = joined[turn - 1] if turn else False
        assert (turn in found.joins) == (now and not was)
        assert (turn in found.breaks) == (was and not now)


@given(strategies.lines(6), strategies.lines(8), strategies.rotations)
def test_a_grip_changes_no_stage(setup: Line, line: Line, grip: lines.Matrix) -> None:
    """Rotating the cube first moves every turn by one and changes nothing else."""
    position = position_after(setup)
    held = (*rotation_line(grip), *lines.image(line, grip))
    by = len(held) - len(line)

    def shifted(turns: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(turn + by if turn else 0 for turn in turns)

    for plain in stages(position, line).pairs:
        turned = stages(position, held).of(plain.slot)
        assert turned.joins == shifted(plain.joins)
        assert turned.breaks == shifted(plain.breaks)


# -- kept slots, and other pairs -----------------------------------------------------------------


def solving(line: str) -> Stages:
    """The stages of a line, from the position that it solves."""
    return stages(position_after(inverse(parse_line(line))), parse_line(line))


def test_a_kept_slot_is_opened_and_closed() -> None:
    """In R' U2 R2 U R2 U R the second turn takes pieces of BR along, and the last restores it."""
    assert solving("R' U2 R2 U R2 U R").openings == (Opening("BR", 2, 7),)


def test_a_kept_slot_opened_twice() -> None:
    """A slot that is closed on the way and opened again is opened twice."""
    line = parse_line("L' U U' L L' U U' L")
    assert stages(HOOK, line).openings == (Opening("FL", 2, 4), Opening("FL", 6, 8))


def test_a_kept_slot_left_open() -> None:
    """A slot that the line does not close has no turn of closing."""
    assert stages(HOOK, parse_line("L' U L")).openings == (Opening("FL", 2, None),)


def test_lifting_a_slot_does_not_open_it() -> None:
    """A side turn alone takes a kept pair along whole; the top has to part it from its side."""
    assert stages(HOOK, parse_line("L L'")).openings == ()


def test_in_a_turned_grip_the_top_is_that_of_the_centres() -> None:
    """After x the top centre is behind: B turns it, and opens what U would."""
    assert stages(HOOK, parse_line("L' x B")).openings == (Opening("FL", 3, None),)
    assert stages(HOOK, parse_line("L' x U")).openings == ()


def test_a_second_pair_is_moved() -> None:
    """Solving FR by R U' R' brings the pair of BL together; R U R' leaves that of FL apart."""
    assert solving("R U' R' U L U' L'").moved == (Moved("BL", "FR", joined=True),)
    assert solving("R U R' L' U' L").moved == (Moved("FL", "FR", joined=False),)


def test_pairs_come_in_the_order_in_which_they_are_slotted() -> None:
    """The pair that is home first leads; one that never comes home is last."""
    assert [found.slot for found in solving("L U L' R U R'").pairs] == ["BL", "FR"]
    position = position_after(inverse(parse_line("L U L' R U R'")))
    half = stages(position, parse_line("L U L'"))
    assert [(found.slot, found.slotted) for found in half.pairs] == [("BL", 3), ("FR", None)]


def test_a_pair_solved_and_taken_along_is_slotted_when_it_stays() -> None:
    """FR comes home and is lifted once more: only the last time counts."""
    again = stages(HOOK, (*SHORT, *parse_line("R R'"))).of("FR")
    assert again.slotted == len(SHORT) + 2


# -- joins ---------------------------------------------------------------------------------------


def test_joined_after_each_move() -> None:
    """In R B U2 B' R', R takes the corner to the back and B brings it to its edge on the left."""
    assert joined_after(HOOK, SHORT) == ((), ("FR",), ("FR",), ("FR",), ("FR",))
    assert stages(HOOK, SHORT).of("FR").turns == (0, 1, 2, 5)


def test_a_join_that_breaks_does_not_count() -> None:
    """Only the join that lasts to the end of the line counts."""
    found = stages(HOOK, parse_line("R B B' B U2 B' R'")).of("FR")
    assert (found.joins, found.breaks, found.joined) == ((2, 4), (3,), 4)
    assert stages(HOOK, parse_line("R B B'")).of("FR").joined is None


def test_joined_at_the_start() -> None:
    """A pair that lies joined from the start joins at turn 0 and is never lined up."""
    position = position_after(parse_line("R U R' U'"))
    found = stages(position, parse_line("U R U' R'")).of("FR")
    assert (found.joined, found.lined_up) == (0, None)


def test_nothing_done() -> None:
    """The stages of no turns are those of the position."""
    assert stages(HOOK, ()).of("FR") == PairStages("FR", 0, (), (), None)
    assert stages(HOOK, (MOVES["y"],)).of("FR") == PairStages("FR", 0, (), (), None)
