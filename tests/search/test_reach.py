"""What few faces can solve at all, held against published orders, SymPy and plain search."""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy.combinatorics import Permutation, PermutationGroup

from game.cube.cube import CORNERS, EDGES, PIECE_OF, SOLVED, Cube, cube_of
from game.cube.geometry import FACES, sticker
from game.cube.line import Line
from game.cube.moves import FACE_MOVES, MOVES, parse_line, permutation, turned_face
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS
from game.deal.dice import Dice
from game.search.reach import obstacle, reachable, scattered
from tests.breadth_first import level_sizes
from tests.strategies import cubes, face_lines, face_sets, slot_sets

REFERENCES = tuple(piece[0] for piece in CORNERS + EDGES)


def order(faces: str) -> int:
    return prod(map(len, reachable(REFERENCES, faces)))


def test_the_order_of_the_whole_group() -> None:
    """43252003274489856000 (M. Schoenert, Analyzing Rubik's Cube with GAP, 1993)."""
    assert order(FACES) == 43252003274489856000


def test_the_order_of_the_group_of_u_and_r() -> None:
    """73483200 (OEIS A080628)."""
    assert order("RU") == 73483200


@pytest.mark.parametrize("faces", ["F", "RL", "RUF", "RLU", "FBRL", "BRLUD"])
def test_orders_as_sympy_finds_them(faces: str) -> None:
    """The group of these faces has the order that SymPy finds."""
    group = PermutationGroup([Permutation(list(permutation(MOVES[face]))) for face in faces])
    assert order(faces) == group.order()


DR = PIECE_OF[sticker("D", 1, 2)]
FLIPPED = cube_of({e[0]: e[0] for e in CORNERS + EDGES} | {e[0]: e[1] for e in (EDGES[0], DR)})
"""Solved but for two edges that are flipped, one of them of the cross."""


@pytest.mark.parametrize("faces", ["D", "RL", "RU", "RF"])
@pytest.mark.parametrize("slots", [(), ("FR",), ("FL", "BR"), SLOTS])
def test_as_many_arrangements_as_a_plain_search_sees(faces: str, slots: tuple[str, ...]) -> None:
    """Of some pieces of a cube that is not solved, as many are in reach as are met by turning."""
    if (faces, slots) == ("RF", SLOTS):  # eight million: the edges alone
        stickers = [*CROSS_EDGES, *(SLOT[slot].home.edge for slot in slots)]
    else:
        stickers = [*CROSS_EDGES, *(i for slot in slots for i in SLOT[slot].home)]
    lie_at = tuple(FLIPPED.where[i] for i in stickers)
    turns = [turn for turn in FACE_MOVES if turned_face(turn) in faces]
    assert prod(map(len, reachable(lie_at, faces))) == sum(level_sizes(lie_at, turns))


def test_elements_bring_their_places_back() -> None:
    """Each element of the chain undoes a move of its sticker and leaves those before alone."""
    for k, step in enumerate(reachable(REFERENCES, "RUF")):
        for place, back in step.items():
            assert back[place] == REFERENCES[k]
            assert all(back[point] == point for point in REFERENCES[:k])


@given(st.data(), face_sets, slot_sets)
def test_what_turns_have_made_they_can_undo(
    data: st.DataObject, faces: str, slots: tuple[str, ...]
) -> None:
    """After any turns of some faces nothing is in the way of solving with the same faces."""
    turns = [turn for turn in FACE_MOVES if turned_face(turn) in faces]
    setup: Line = tuple(data.draw(st.lists(st.sampled_from(turns), max_size=20)))
    assert obstacle(SOLVED.turn(setup), slots, faces) == ""


@settings(max_examples=10)
@given(cubes(), slot_sets)
def test_six_faces_and_five_solve_everything(cube: Cube, slots: tuple[str, ...]) -> None:
    """Nothing is in the way of all six faces, nor of any five (a turn of the sixth is theirs)."""
    for faces in (FACES, *map("".join, combinations(FACES, 5))):
        assert obstacle(cube, slots, faces) == ""


@settings(max_examples=50)
@given(face_lines(6), slot_sets, face_sets)
def test_more_to_solve_is_no_easier(setup: Line, slots: tuple[str, ...], faces: str) -> None:
    """What is in the way of some slots is in the way of all four."""
    cube = SOLVED.turn(setup)
    assert not obstacle(cube, slots, faces) or obstacle(cube, SLOTS, faces)


@pytest.mark.parametrize(
    ("setup", "slots", "faces", "expected"),
    [
        (
            "F",
            (),
            "U",
            "turns of U reach 1 arrangement of the cross, but not the solved one",
        ),
        (
            "R U' R' F' U F",
            ("FR",),
            "U",
            "turns of U reach 4 arrangements of the cross and the corner of FR, "
            "but not the solved one",
        ),
        (
            "L' U' L F' L F L'",
            SLOTS,
            "RU",
            "turns of R U reach 11340 arrangements of the cross, FR and the corner of FL, "
            "but not the solved one",
        ),
    ],
)
def test_obstacles_are_said_in_words(
    setup: str, slots: tuple[str, ...], faces: str, expected: str
) -> None:
    """The first piece that cannot go with those before is named, and what was counted."""
    assert obstacle(SOLVED.turn(parse_line(setup)), slots, faces) == expected


def test_pieces_that_are_solved_alone_but_not_together() -> None:
    """Three corners of slots exchanged in a ring: R and D solve each alone, never all.

    R and D permute their six corners as PGL(2, 5) does, in which whatever leaves three of them
    in place leaves all (common practice, no source); SymPy finds no such element either.
    """
    a, b, c = (PIECE_OF[SLOT[slot].home.corner] for slot in ("FR", "BR", "BL"))
    solved = {piece[0]: piece[0] for piece in CORNERS + EDGES}
    ring = cube_of(solved | {a[0]: b[0], b[0]: c[0], c[0]: a[0]})
    for slot in SLOTS:
        assert obstacle(ring, (slot,), "RD") == ""
    assert obstacle(ring, SLOTS, "RD") != ""
    group = PermutationGroup([Permutation(list(permutation(MOVES[face]))) for face in "RD"])
    homes = [SLOT[slot].home.corner for slot in SLOTS]
    orbit = group.orbit([ring.where[home] for home in homes], action="tuples")
    assert tuple(homes) not in orbit


@given(face_sets, slot_sets, st.text(max_size=5))
def test_what_is_to_stay_at_home_does(faces: str, slots: tuple[str, ...], seed: str) -> None:
    """The pieces named are at home, and so is all that these faces never touch."""
    homes = (*CROSS_EDGES, *(home for slot in slots for home in SLOT[slot].home))
    where = scattered(faces, homes, Dice(seed).pick).where
    assert all(where[home] == home for home in homes)
    moved = {i for face in faces for i, j in enumerate(permutation(MOVES[face])) if i != j}
    assert all(where[i] == i for i in range(54) if i not in moved)


def reached(faces: str, start: tuple[int, ...]) -> set[tuple[int, ...]]:
    """All places that these stickers can be brought to at once: breadth first, no group theory."""
    turns = [permutation(MOVES[face]) for face in faces]
    found, fresh = {start}, [start]
    for places in fresh:
        for turn in turns:
            there = tuple(turn[place] for place in places)
            if there not in found:
                found.add(there)
                fresh.append(there)
    return found


def test_every_cube_comes_as_often() -> None:
    """Of R and U with the cross and three pairs kept, each place of the pair at FR comes evenly.

    40 throws for each place found breadth first, within five deviations.
    """
    homes = (*CROSS_EDGES, *(home for slot in ("FL", "BL", "BR") for home in SLOT[slot].home))
    pair = SLOT["FR"].home
    places = {there[-2:] for there in reached("RU", (*homes, *pair)) if there[:-2] == homes}
    dice = Dice("even")
    throws = (scattered("RU", homes, dice.pick).where for _ in range(40 * len(places)))
    counts = Counter((where[pair.corner], where[pair.edge]) for where in throws)
    assert set(counts) == places
    assert all(abs(times - 40) < 5 * 40**0.5 for times in counts.values())
