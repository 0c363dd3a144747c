"""Difficulty: each part by hand on small positions, and by what must hold of all of them."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from game.cube import pair
from game.cube.cube import SOLVED, Cube
from game.cube.moves import Move, line_text, parse_line
from game.cube.pair import SLOTS
from game.cube.symmetry import UPRIGHT
from game.packs.difficulty import (
    LINES_A_TURN,
    SLACK,
    Difficulty,
    Find,
    grows,
    habit,
    hidden,
    measure,
)
from game.play.position import Position, position_after, position_of
from game.search.outcome import NoneUpTo, Outcome, Solved, Unsolvable


def after(setup: str, *, open_: str = "", faces: str = "FBRLUD") -> Position:
    """The position that a setup makes."""
    return position_after(parse_line(setup), open_.split(), faces)


# -- hidden --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("setup", "count", "why"),
    [
        ("R U R'", 0, "corner over FL, edge at the front: two stickers of each are seen"),
        ("R U' R'", 1, "edge at the back, where only its top is seen"),
        ("R U2 R'", 2, "corner over BL, edge at the left"),
        ("L' U' L", 0, "a slot on the left is seen from the left: the mirror image of the first"),
        ("L' U L", 1, "the mirror image of the second"),
        ("L U L'", 2, "seen from the left, corner over BR, edge at the back"),
        (
            "R U R' L' U' L",
            1,
            "of two pairs, the corner of FR lies in FL, seen from the front only",
        ),
    ],
)
def test_hidden_pieces(setup: str, count: int, why: str) -> None:
    """A piece is hidden when fewer than two of its stickers lie on the three faces seen."""
    assert hidden(after(setup)) == count, why


def test_a_solved_pair_is_not_looked_for() -> None:
    """Only pairs in play count: what lies in a kept or an open slot need not be seen."""
    assert hidden(after("L U L' U R U R'", open_="BL")) == hidden(after("R U R'")) == 0


# -- habit ---------------------------------------------------------------------------------------


def test_the_hook(find: Find) -> None:
    """Habit takes seven where par is five, and only one line of five exists (common practice)."""
    position = after("R B U2 B' R'")
    found = find(position.cube, position.solve, position.faces)
    assert isinstance(found, Solved)
    assert [line_text(line) for line in found.solutions] == ["R B U2 B' R'"]
    assert measure(position, found, find) == Difficulty(par=5, habit=7, hidden=1, solutions=1)


def one_pair_states() -> dict[pair.PairPlace, Cube]:
    """A cube for each of the 150 states of FR that leave the other slots solved."""
    units = ["R U R'", "R U' R'", "R U2 R'", "F' U F", "F' U' F", "F' U2 F", "U", "U'", "U2"]
    found = {pair.pair_place(SOLVED, "FR"): SOLVED}
    queue = [SOLVED]
    for cube in queue:
        for unit in units:
            turned = cube.turn(parse_line(unit))
            place = pair.pair_place(turned, "FR")
            if place not in found:
                found[place] = turned
                queue.append(turned)
    return found


@pytest.mark.slow
def test_habit_of_every_state_of_one_pair(find: Find) -> None:
    """Freeing first costs up to ten turns, cross colour up costs two over par (counts: computed).

    With the edge at home, freeing and trying again costs 10 where par is 7 (common practice).
    """
    counts: Counter[tuple[str, int, int]] = Counter()
    for place, cube in one_pair_states().items():
        position = position_of(cube)
        found = find(cube, SLOTS, position.faces)
        turns = habit(position, find)
        assert isinstance(found, Solved)
        assert turns is not None
        low = [
            name for name, i in zip(("corner", "edge"), place, strict=True) if not pair.in_top(i)
        ]
        counts["+".join(low), found.par, turns] += 1
    assert sum(counts.values()) == 150
    assert {key[1:]: n for key, n in counts.items() if not key[0] and key[2] > key[1]} == {
        (5, 6): 2,
        (5, 7): 2,
        (6, 7): 4,
        (6, 8): 6,
        (7, 8): 2,
    }
    assert counts["edge", 7, 10] == 7
    assert counts["corner", 7, 10] == 10


def test_habit_is_a_way_to_solve(find: Find) -> None:
    """No habit is shorter than par, whatever slots are open."""

    @settings(max_examples=40)
    @given(st.lists(st.sampled_from(parse_line("R R' U U' U2 L L' B B' F F'")), max_size=9))
    def check(setup: list[Move]) -> None:
        position = position_after(setup, ("BL",))
        turns = habit(position, find)
        found = find(position.cube, position.solve, position.faces)
        assert isinstance(found, Solved)
        if turns is None:
            assert not pair.is_cross_solved(position.cube)
        else:
            assert turns >= found.par

    check()


@pytest.mark.parametrize("setup", ["R B U2 B' R'", "R U R' U' R U R'", "B2 R B R' B"])
def test_habit_in_the_mirror(setup: str, find: Find) -> None:
    """Turned round or mirrored, one pair's habit is as long."""
    position = after(setup)
    assert len({habit(position.image(symmetry), find) for symmetry in UPRIGHT}) == 1


def test_pair_by_pair(find: Find) -> None:
    """Two pairs are solved one after the other, each seen from its slot, by the faces at hand."""
    position = after("R U R' L U L'")
    assert position.pairs == ("FR", "BL")
    asked: list[tuple[tuple[str, ...], str]] = []

    def listening(cube: Cube, slots: tuple[str, ...], faces: str) -> Outcome:
        asked.append((slots, faces))
        return find(cube, slots, faces)

    turns = habit(position, listening)
    second_first = find(position.cube, ("FL", "BR", "BL"), "LUB")
    assert isinstance(second_first, Solved)
    assert (second_first.par, turns) == (3, 6)
    assert {(len(slots), slots[-1], faces) for slots, faces in asked} == {
        (3, "FR", "FRU"),
        (4, "FR", "FRU"),
    }


@pytest.mark.parametrize(
    ("setup", "faces", "why"),
    [
        ("F", "FBRLUD", "without a cross"),
        ("R U R'", "L", "no face at hand may turn"),
        ("R U R' U R U R'", "BLU", "the top alone solves nothing"),
    ],
)
def test_no_habit(setup: str, faces: str, why: str, find: Find) -> None:
    """Where the habit leads nowhere there is none, and it misleads nobody."""
    turns = habit(after(setup, faces=faces), find)
    assert turns is None, why
    assert Difficulty(par=4, habit=turns, hidden=0, solutions=1).misleading == 0


def test_unfinished_searches_are_no_way() -> None:
    """A search that finds nothing ends the habit."""
    for outcome in (NoneUpTo(9), Unsolvable("of a proof")):
        assert habit(after("R U R'"), lambda cube, slots, faces, o=outcome: o) is None


# -- the sum -------------------------------------------------------------------------------------


def test_the_sum() -> None:
    """Each part counts as the formula says."""
    assert Difficulty(par=7, habit=10, hidden=2, solutions=13).value == 7 + 3 / 2 + 2 / 4 - 1
    assert Difficulty(par=3, habit=3, hidden=0, solutions=1).value == 3
    assert Difficulty(par=3, habit=None, hidden=0, solutions=1).value == 3


def test_lines_a_turn() -> None:
    """The last counts of OEIS A080601 grow by a factor that rounds to ours."""
    assert round(7618438 / 574908) == LINES_A_TURN


@pytest.mark.parametrize(
    ("difficulties", "places"),
    [
        ([], []),
        ([3.0], []),
        ([3.0, 4.0, 4.0, 5.5], []),
        ([3.0, 4.0, 4.0 - SLACK, 5.0], []),
        ([3.0, 4.0, 3.25, 5.0], [2]),
        ([3.0, 6.0, 5.6, 5.2, 4.8], [3, 4]),
        ([4.0, 4.0, 4.0], [2]),
        ([4.0, 4.25, 3.75], [2]),
        ([4.0, 3.0], [1]),
    ],
)
def test_where_a_pack_does_not_grow(difficulties: list[float], places: list[int]) -> None:
    """What is well below the hardest before it is named, and a last no harder than the first."""
    assert grows(difficulties) == places
