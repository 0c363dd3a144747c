"""Par and shortest solutions, held against plain search, known facts and each other."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Iterator, Sequence
from threading import Event, active_count, get_ident

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from game.cube import ease, line, pair, symmetry
from game.cube.cube import SOLVED, Cube
from game.cube.geometry import FACES, Matrix
from game.cube.line import Line, rotation_line
from game.cube.moves import FACE_MOVES, line_text, parse_line, turned_face
from game.cube.pair import SLOTS
from game.errors import PositionError
from game.search import shortest, workers
from game.search.near import NearTables
from game.search.nodes import Block, joined
from game.search.outcome import NoneUpTo, Outcome, Progress, Solved, Stopped, Unsolvable
from game.search.reach import obstacle
from game.search.shortest import search
from game.search.tables import Tables
from tests.deals import one_pair_unsolved, pairs_unsolved
from tests.search.plain import Plain, in_order
from tests.strategies import face_lines, rotations, slot_sets, slots

HOOK = SOLVED.turn(line.inverse(parse_line("R B U2 B' R'")))


def solved(outcome: Outcome) -> Solved:
    assert isinstance(outcome, Solved)
    return outcome


# -- against plain breadth-first search ----------------------------------------------------------


def check(cube: Cube, wanted: tuple[str, ...], faces: str, plain: Plain, tables: Tables) -> None:
    """Search and plain search agree, up to five turns, on par and on every shortest line."""
    expected = plain.shortest(cube, 5)
    found = search(cube, wanted, faces, tables=tables, max_turns=5)
    if expected is None:
        assert found == NoneUpTo(5) or isinstance(found, Unsolvable)
        return
    par, lines = expected
    assert found == Solved(par, solved(found).solutions, complete=True)
    assert len(set(solved(found).solutions)) == len(solved(found).solutions)
    assert set(solved(found).solutions) == lines


def test_every_position_to_depth_3(tables: Tables) -> None:
    """With all four slots to solve, all positions of at most three turns agree."""
    plain = Plain(SLOTS)
    for cube in plain.cubes():
        check(cube, SLOTS, FACES, plain, tables)


@pytest.mark.parametrize(
    ("wanted", "faces"),
    [
        ((), FACES),
        (("FR",), "RUF"),
        (("FL", "BR"), "RU"),
        (("FL", "BL", "BR"), "RLU"),
        (SLOTS, "FBRL"),
        (SLOTS, "D"),
    ],
)
def test_every_position_to_depth_3_of_other_goals(
    wanted: tuple[str, ...], faces: str, tables: Tables
) -> None:
    """With slots left open and with few faces, all positions of at most three turns agree."""
    plain = Plain(wanted, faces)
    for cube in plain.cubes():
        check(cube, wanted, faces, plain, tables)


@pytest.mark.parametrize("wanted", [SLOTS, ("FR",), ("FL", "BR"), ("FL", "BL", "BR"), ()])
@pytest.mark.parametrize("faces", [FACES, "RU", "RUF", "FBRL", "BRLUD"])
def test_a_sample_of_five_turns(wanted: tuple[str, ...], faces: str, tables: Tables) -> None:
    """After five random turns of any faces, search and plain search agree."""
    plain = Plain(wanted, faces)
    chance = random.Random(f"{wanted}{faces}")
    allowed = [turn for turn in FACE_MOVES if turned_face(turn) in faces]
    for _ in range(6):
        check(SOLVED.turn(chance.choices(FACE_MOVES, k=5)), wanted, faces, plain, tables)
        check(SOLVED.turn(chance.choices(allowed, k=5)), wanted, faces, plain, tables)


# -- facts ---------------------------------------------------------------------------------------


def test_solved_already(tables: Tables) -> None:
    """Nothing to do is par 0, one empty line, and all there is; whatever the grip or the faces."""
    nothing = Solved(0, ((),), complete=True)
    assert search(SOLVED.turn(parse_line("U2 x y'")), SLOTS, tables=tables) == nothing
    assert search(SOLVED, (), "B", tables=tables, first=True, max_turns=0) == nothing


def test_the_hook(tables: Tables) -> None:
    """R B U2 B' R' is the only shortest way where habit takes seven (common practice, no source).

    That it is the only one is proven here.
    """
    found = solved(search(HOOK, SLOTS, tables=tables))
    assert (found.par, found.complete) == (5, True)
    assert list(map(line_text, found.solutions)) == ["R B U2 B' R'"]


@pytest.mark.slow
def test_two_faces_reach_74_of_149_states(tables: Tables) -> None:
    """R and U solve 74 of the states of FR and provably none of the other 75 (computed)."""
    found = [search(cube, SLOTS, "RU", tables=tables) for cube in one_pair_unsolved("FR")]
    assert sum(isinstance(outcome, Solved) for outcome in found) == 74
    assert sum(isinstance(outcome, Unsolvable) for outcome in found) == 75


@pytest.mark.slow
@pytest.mark.parametrize(
    ("wanted", "total"),
    [
        (SLOTS, 992),  # mean 6.66
        (("FR", "BL", "BR"), 903),  # mean 6.06
        (("FR", "FL", "BL"), 903),
        (("FR", "FL", "BR"), 924),  # mean 6.20
        (("FR",), 861),  # mean 5.78
    ],
)
def test_mean_pars_of_one_pair(wanted: tuple[str, ...], total: int, tables: Tables) -> None:
    """Sums of par over the 149 states of FR, each counted once (computed).

    The means are 6.66 with three slots kept, 6.06 with one of the two neighbouring slots open,
    6.20 with the opposite slot open, and 5.78 with all three open.
    """
    cubes = one_pair_unsolved("FR")
    assert len(cubes) == 149
    assert sum(solved(search(c, wanted, tables=tables)).par for c in cubes) == total


def test_every_solution_solves_and_comes_in_order(tables: Tables) -> None:
    """Solutions of random pairs have par turns, solve, and come easiest first."""
    for cube in (*one_pair_unsolved("BL")[::7], *pairs_unsolved(2, 10, seed=3)):
        found = solved(search(cube, SLOTS, tables=tables))
        assert found.complete
        assert len(set(found.solutions)) == len(found.solutions) > 0
        efforts = [ease.effort(ease.easiest_grip(s)) for s in found.solutions]
        assert efforts == sorted(efforts)
        for solution in found.solutions:
            assert line.obtm(solution) == len(solution) == found.par
            assert pair.is_goal(cube.turn(solution), SLOTS)


def test_the_first_is_one_of_all(tables: Tables) -> None:
    """Any one solution is one of the shortest; it is not claimed to be the only one."""
    for cube in pairs_unsolved(2, 10, seed=4):
        every = solved(search(cube, SLOTS, tables=tables))
        one = solved(search(cube, SLOTS, tables=tables, first=True))
        assert (one.par, len(one.solutions), one.complete) == (every.par, 1, False)
        assert one.solutions[0] in every.solutions


# -- properties ----------------------------------------------------------------------------------


@settings(max_examples=40)
@given(face_lines(7), slot_sets, st.sampled_from(symmetry.UPRIGHT))
def test_symmetries_keep_par(
    tables: Tables, setup: Line, wanted: tuple[str, ...], shown_by: Matrix
) -> None:
    """The three mirrors and rotations about the vertical keep par and mirror every solution."""
    cube = SOLVED.turn(setup)
    images = [symmetry.slot_image(slot, shown_by) for slot in wanted]
    here = solved(search(cube, wanted, tables=tables))
    there = solved(search(cube.image(shown_by), images, tables=tables))
    assert there.par == here.par
    mirrored = {in_order(line.image(s, shown_by)) for s in here.solutions}
    assert set(there.solutions) == mirrored


@settings(max_examples=40)
@given(face_lines(7), slot_sets)
def test_an_undone_solution_has_the_same_par(
    tables: Tables, setup: Line, wanted: tuple[str, ...]
) -> None:
    """The inverse of a shortest solution, as a setup, has the same par and all its solutions."""
    found = solved(search(SOLVED.turn(setup), wanted, tables=tables))
    again = SOLVED.turn(line.inverse(found.solutions[0]))
    assert search(again, wanted, tables=tables) == found


@settings(max_examples=25)
@given(face_lines(7), rotations)
def test_the_grip_does_not_matter(tables: Tables, setup: Line, grip: Matrix) -> None:
    """A cube held in another grip has the same solutions, named by centres."""
    cube = SOLVED.turn(setup)
    held = cube.turn(rotation_line(grip))
    assert search(held, SLOTS, tables=tables) == search(cube, SLOTS, tables=tables)


@settings(max_examples=25)
@given(face_lines(7), slots)
def test_opening_a_slot_never_costs(tables: Tables, setup: Line, opened: str) -> None:
    """With a slot left open par is at most what it was."""
    cube = SOLVED.turn(setup)
    fewer = [slot for slot in SLOTS if slot != opened]
    kept = solved(search(cube, SLOTS, tables=tables)).par
    assert solved(search(cube, fewer, tables=tables)).par <= kept


# -- no solution ---------------------------------------------------------------------------------


def test_impossible_is_said_with_its_proof(tables: Tables) -> None:
    """A pair of FL that lies above is never solved by R and U; the proof is in words."""
    cube = SOLVED.turn(parse_line("L U L'"))
    outcome = search(cube, SLOTS, "RU", tables=tables)
    assert outcome == Unsolvable(obstacle(cube, SLOTS, "RU"))


def test_nothing_up_to_some_turns(tables: Tables) -> None:
    """A limit below par is not a proof that there is none, and is said as it is."""
    for limit in range(5):
        assert search(HOOK, SLOTS, tables=tables, max_turns=limit) == NoneUpTo(limit)
    assert solved(search(HOOK, SLOTS, tables=tables, max_turns=5)).par == 5


# -- going on and stopping -----------------------------------------------------------------------


def test_cancelled_at_once(tables: Tables) -> None:
    """A search cancelled before it began has proven that it is not solved."""
    assert search(HOOK, SLOTS, tables=tables, cancelled=lambda: True) == Stopped(1)


@pytest.mark.parametrize("patience", [10, 14, 20, 30])
def test_cancelled_later(tables: Tables, patience: int) -> None:
    """What a cancelled search says is at least so much is true, and is what progress said last."""
    cube = pairs_unsolved(2, 1, seed=5)[0]
    par = solved(search(cube, SLOTS, tables=tables)).par
    told: list[Progress] = []
    outcome = search(
        cube,
        SLOTS,
        tables=tables,
        progress=told.append,
        cancelled=lambda: len(told) >= patience,
    )
    assert isinstance(outcome, Stopped)
    assert outcome.at_least == told[-1].at_least <= par


def test_cancelled_among_solutions(tables: Tables, monkeypatch: pytest.MonkeyPatch) -> None:
    """Cancelled at par, after a solution was found, it gives that one as one of more."""

    def one_by_one(
        work: Callable[[object], object],
        tasks: Iterable[object],
        check: Callable[[], None],
        _stop: Event,
    ) -> Iterator[object]:
        for task in tasks:
            check()
            yield work(task)

    monkeypatch.setattr(shortest, "shared", one_by_one)
    monkeypatch.setattr(shortest, "SHARED", 2)
    monkeypatch.setattr(shortest, "PIECE", 1)
    cube = SOLVED.turn(parse_line("R U R' U'"))
    every = solved(search(cube, SLOTS, tables=tables))
    assert len(every.solutions) > 1
    outcomes = []
    for patience in range(200):
        asked = iter(range(10_000))
        outcomes.append(
            search(
                cube,
                SLOTS,
                tables=tables,
                cancelled=lambda asked=asked, patience=patience: next(asked) > patience,
            )
        )
    cut = [o for o in outcomes if isinstance(o, Solved) and not o.complete]
    assert cut
    assert all(o.par == every.par and set(o.solutions) < set(every.solutions) for o in cut)
    assert outcomes[-1] == every


def test_progress_only_grows(tables: Tables) -> None:
    """What is proven and what was looked at never shrink, and end at par."""
    told: list[Progress] = []
    cube = pairs_unsolved(2, 1, seed=6)[0]
    par = solved(search(cube, SLOTS, tables=tables, progress=told.append)).par
    assert told == sorted(told, key=lambda p: (p.at_least, p.nodes))
    assert told[-1].at_least == par


def test_small_blocks_find_the_same(tables: Tables, monkeypatch: pytest.MonkeyPatch) -> None:
    """However nodes are cut into blocks, the solutions are the same."""
    cube = pairs_unsolved(2, 1, seed=8)[0]
    whole = search(cube, SLOTS, tables=tables)
    monkeypatch.setattr(shortest, "BLOCK", 7)
    assert search(cube, SLOTS, tables=tables) == whole
    monkeypatch.setattr(shortest, "PIECE", 11)
    monkeypatch.setattr(shortest, "SHARED", 11)
    assert search(cube, SLOTS, tables=tables) == whole


def test_few_nodes_are_kept_at_once(tables: Tables, monkeypatch: pytest.MonkeyPatch) -> None:
    """However many nodes there are, blocks hold no more than the children of one piece."""
    sizes: list[int] = []

    def noted(blocks: Sequence[Block]) -> Block:
        sizes.append(sum(map(len, blocks)))
        return joined(blocks)

    monkeypatch.setattr(shortest, "joined", noted)
    monkeypatch.setattr(shortest, "PIECE", 20)
    monkeypatch.setattr(shortest, "SHARED", 21)
    monkeypatch.setattr(shortest, "BLOCK", 7)
    cube = pairs_unsolved(2, 1, seed=8)[0]
    search(cube, SLOTS, tables=tables)
    assert sum(sizes) > 20 * 18
    assert max(sizes) <= 20 * 18


# -- cores sharing a search ----------------------------------------------------------------------


@pytest.fixture
def sharing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Threads share a level from 200 nodes on, in small tasks."""
    monkeypatch.setattr(workers, "CORES", 2)
    monkeypatch.setattr(shortest, "SHARED", 200)
    monkeypatch.setattr(shortest, "PIECE", 50)


def test_a_shared_search_finds_the_same(
    tables: Tables, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest
) -> None:
    """Threads find the par and the solutions that one thread finds, and stop at a first one."""
    cubes = pairs_unsolved(2, 3, seed=7)
    alone = [solved(search(cube, SLOTS, tables=tables)) for cube in cubes]
    request.getfixturevalue("sharing")
    for cube, expected in zip(cubes, alone, strict=True):
        assert search(cube, SLOTS, tables=tables) == expected
        one = solved(search(cube, SLOTS, tables=tables, first=True))
        assert (one.par, one.complete) == (expected.par, False)
        assert one.solutions[0] in expected.solutions


@pytest.mark.usefixtures("sharing")
def test_a_shared_search_can_be_cancelled(tables: Tables) -> None:
    """Cancelled while threads work, it proves what progress said last, and leaves no thread."""
    cube = pairs_unsolved(2, 1, seed=5)[0]
    par = solved(search(cube, SLOTS, tables=tables)).par
    threads = active_count()
    told: list[Progress] = []
    outcome = search(
        cube,
        SLOTS,
        tables=tables,
        progress=told.append,
        cancelled=lambda: told[-1].done > 0.3,
    )
    assert isinstance(outcome, Stopped)
    assert outcome.at_least == told[-1].at_least <= par
    assert active_count() == threads


@pytest.mark.usefixtures("sharing")
def test_a_shared_search_tells_its_progress_where_it_was_asked(tables: Tables) -> None:
    """Progress comes in the caller's thread; within one length the part done only grows."""
    told: list[Progress] = []
    callers = set()

    def tell(progress: Progress) -> None:
        told.append(progress)
        callers.add(get_ident())

    search(pairs_unsolved(2, 1, seed=6)[0], SLOTS, tables=tables, progress=tell)
    assert callers == {get_ident()}
    assert told == sorted(told, key=lambda p: (p.at_least, p.nodes))
    for turns in {progress.at_least for progress in told}:
        done = [progress.done for progress in told if progress.at_least == turns]
        assert done == sorted(done)
        assert max(done) < 1
    assert max(progress.done for progress in told) > 0.3


# -- near sets -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wanted", "faces"),
    [(SLOTS, FACES), (("FR", "BL", "BR"), FACES), (("FR",), FACES), ((), FACES), (SLOTS, "RUF")],
)
def test_near_sets_change_no_answer(
    tables: Tables, near_tables: NearTables, wanted: tuple[str, ...], faces: str
) -> None:
    """With near sets beside the small tables, par and solutions are the same."""
    chance = random.Random(f"near {wanted} {faces}")
    allowed = [turn for turn in FACE_MOVES if turned_face(turn) in faces]
    for _ in range(8):
        cube = SOLVED.turn(chance.choices(allowed, k=7))
        found = search(cube, wanted, faces, tables=near_tables)
        assert found == search(cube, wanted, faces, tables=tables)


def test_near_sets_change_no_answer_for_two_pairs(tables: Tables, near_tables: NearTables) -> None:
    """The same of random pairs."""
    for cube in pairs_unsolved(2, 5, seed=10):
        assert search(cube, SLOTS, tables=near_tables) == search(cube, SLOTS, tables=tables)


# -- bad questions -------------------------------------------------------------------------------


@pytest.mark.parametrize(("wanted", "faces"), [(["XY"], "RU"), (["FR"], "RX"), (["FR"], "")])
def test_no_slots_or_faces_are_refused(wanted: list[str], faces: str, tables: Tables) -> None:
    """What is no slot or face is refused in one line."""
    with pytest.raises(PositionError) as refused:
        search(SOLVED, wanted, faces, tables=tables)
    assert "\n" not in str(refused.value)
