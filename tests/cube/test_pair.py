"""Slots, pairs, placements, joined: held against published counts and literal cases."""

from __future__ import annotations

from collections import Counter
from itertools import product
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy.combinatorics import Permutation, PermutationGroup
from sympy.combinatorics.util import _distribute_gens_by_base, _orbits_transversals_from_bsgs

from game.cube import geometry, symmetry
from game.cube.cube import SOLVED, Cube
from game.cube.geometry import CORNER_STICKERS, EDGE_STICKERS, STICKERS, Matrix, sticker
from game.cube.line import Line, inverse, rotation_line
from game.cube.moves import FACE_MOVES, MOVES, parse_line, permutation
from game.cube.pair import (
    CROSS_EDGES,
    SLOT,
    SLOTS,
    SOLVED_PLACEMENT,
    PairPlace,
    Placement,
    in_top,
    is_astray,
    is_cross_solved,
    is_goal,
    is_joined,
    is_pair_solved,
    pair_place,
    parse_faces,
    parse_slots,
    placement,
    placements,
    slot_at,
)
from game.errors import PositionError
from tests.breadth_first import level_sizes
from tests.strategies import (
    cubes,
    face_lines,
    lines,
    rotations,
    slot_sets,
    slots,
    upright_symmetries,
)

STATES = [PairPlace(c, e) for c, e in product(CORNER_STICKERS, EDGE_STICKERS)]
"""All 24 x 24 places of a pair's two stickers."""
CROSS_KEPT = [p for p in STATES if in_top(p.edge) or slot_at(p.edge)]
"""Those with the edge outside the cross."""


def after(line: str) -> Cube:
    return SOLVED.turn(parse_line(line))


# -- cross and blocks ----------------------------------------------------------------------------


def test_crosses_by_distance() -> None:
    """L. Vandenbergh, Cross study, 2008: 190,080 crosses, mean 5.81, largest distance 8."""
    sizes = level_sizes(CROSS_EDGES, FACE_MOVES)
    assert sizes == [1, 15, 158, 1394, 9809, 46381, 97254, 34966, 102]
    assert sum(sizes) == 190_080
    assert round(sum(d * n for d, n in enumerate(sizes)) / sum(sizes), 2) == 5.81


def test_blocks_by_distance() -> None:
    """M. Reid, Cube-Lovers, 24 May 1992: 253,440 states of a 2x2x2 block by distance."""
    slot = SLOT["FR"].home
    block = (slot.corner, slot.edge, sticker("D", 0, 1), sticker("D", 1, 2))
    sizes = level_sizes(block, FACE_MOVES)
    assert sizes == [1, 9, 90, 852, 7169, 44182, 131636, 68940, 561]
    assert sum(sizes) == 253_440


def test_pairs_with_the_cross_done() -> None:
    """B. Norskog, Some F2L computer analyses, 2008: 136080 x 26880 states of all four pairs.

    SymPy's chain of stabilizers: the cross first, then the four corners, then the four edges.
    """
    corners = [SLOT[slot].home.corner for slot in SLOTS]
    edges = [SLOT[slot].home.edge for slot in SLOTS]
    turns = [Permutation(list(permutation(MOVES[face]))) for face in "FBRLUD"]
    base, generators = PermutationGroup(turns).schreier_sims_incremental(
        base=[*CROSS_EDGES, *corners, *edges]
    )
    levels = _distribute_gens_by_base(base, generators)
    sizes = [len(orbit) for orbit in _orbits_transversals_from_bsgs(base, levels)[0]]
    assert prod(sizes[:4]) == 190_080
    assert (prod(sizes[4:8]), prod(sizes[8:12])) == (136_080, 26_880)
    assert prod(sizes[4:12]) == 3_657_830_400


# -- slots ---------------------------------------------------------------------------------------


def test_a_pair_is_the_corner_below_and_the_edge_beside_it() -> None:
    """Each slot's corner shows D, and corner and edge share both side faces of its name."""
    for name in SLOTS:
        home = SLOT[name].home
        corner, edge = STICKERS[home.corner], STICKERS[home.edge]
        assert corner.face == "D"
        assert corner.place == geometry.add(edge.place, (0, -1, 0))
        assert slot_at(home.corner) == slot_at(home.edge) == name
        assert edge.face in name


def test_the_edge_stickers_of_the_slots() -> None:
    """FR's edge is named by its F sticker; the others by what y makes of that: L, B, R."""
    assert [STICKERS[SLOT[name].home.edge].face for name in SLOTS] == ["F", "L", "B", "R"]
    assert SLOT["FR"].home == (sticker("D", 0, 2), sticker("F", 1, 2))


@pytest.mark.parametrize(
    ("line", "solved"),
    [
        ("", SLOTS),
        ("U", SLOTS),
        ("U2 x y'", SLOTS),
        ("R", ("FL", "BL")),
        ("F", ("BL", "BR")),
        ("L2", ("FR", "BR")),
        ("R U R'", ("FL", "BL", "BR")),
        ("R U R' U'", ("FL", "BL", "BR")),
        ("L' U L y", ("FR", "BL", "BR")),
        ("D", ()),
    ],
)
def test_which_slots_are_solved(line: str, solved: tuple[str, ...]) -> None:
    """Slots after short lines, read off a cube in hand; a rotation does not matter."""
    cube = after(line)
    assert tuple(slot for slot in SLOTS if is_pair_solved(cube, slot)) == solved


@pytest.mark.parametrize(
    ("line", "done"),
    [
        ("", True),
        ("U R U R'", True),
        ("x y R U R'", False),
        ("R", False),
        ("D", False),
        ("M", False),
    ],
)
def test_whether_the_cross_is_solved(line: str, done: bool) -> None:
    """The cross after short lines: a slice moves two of its edges against their centres."""
    assert is_cross_solved(after(line)) == done


@pytest.mark.parametrize(
    ("line", "solve", "reached"),
    [
        ("U x", SLOTS, True),
        ("R U R'", ("FL", "BL", "BR"), True),
        ("R U R'", ("FR",), False),
        ("R U R'", (), True),
        ("R", (), False),
        ("M2 U2 M2 U2", (), False),  # exchanges two edges of the cross and nothing else below
        ("M2 U2 M2 U2", SLOTS, False),
    ],
)
def test_a_goal_is_the_cross_and_the_slots(
    line: str, solve: tuple[str, ...], reached: bool
) -> None:
    """Cross and slots after short lines: other slots do not count, the cross always does."""
    cube = after(line)
    assert all(is_pair_solved(cube, slot) for slot in SLOTS) == (line[0] in "UM")
    assert is_goal(cube, solve) == reached


@given(cubes(), slot_sets, rotations)
def test_a_goal_is_the_same_in_any_grip(cube: Cube, solve: tuple[str, ...], grip: Matrix) -> None:
    """Solved, joined and goal do not see how the cube is held."""
    turned = cube.turn(rotation_line(grip))
    assert is_goal(turned, solve) == is_goal(cube, solve)
    for slot in SLOTS:
        assert pair_place(turned, slot) == pair_place(cube, slot)
        assert is_joined(turned, slot) == is_joined(cube, slot)


@given(face_lines(6), slot_sets, rotations)
def test_a_line_and_its_inverse_reach_every_goal(
    line: Line, solve: tuple[str, ...], grip: Matrix
) -> None:
    """Undone in another grip, a line leaves every slot solved; the goal of fewer slots is wider."""
    cube = SOLVED.turn(line).turn(inverse(line)).turn(rotation_line(grip))
    assert is_goal(cube, SLOTS)
    halfway = SOLVED.turn(line)
    assert is_goal(halfway, solve) >= is_goal(halfway, SLOTS)


@given(cubes(), slots, upright_symmetries)
def test_a_mirror_shows_the_slot_of_the_mirror(cube: Cube, slot: str, image: Matrix) -> None:
    """Every symmetry takes solved, joined and the place of a pair to the slot's image."""
    seen, there = cube.image(image), symmetry.slot_image(slot, image)
    assert is_pair_solved(seen, there) == is_pair_solved(cube, slot)
    assert is_joined(seen, there) == is_joined(cube, slot)
    assert is_cross_solved(seen) == is_cross_solved(cube)
    assert pair_place(seen, there).corner == geometry.whole(image)[pair_place(cube, slot).corner]


# -- joined --------------------------------------------------------------------------------------


def cube_with(place: PairPlace, slot: str) -> Cube:
    """A cube, whatever the rest, whose pair lies at that place: the stickers are exchanged."""
    home = SLOT[slot].home
    where = list(range(54))
    for i, target in zip(home, place, strict=True):
        j = where.index(target)
        where[i], where[j] = where[j], where[i]
    return Cube(tuple(where))


@pytest.mark.parametrize("slot", SLOTS)
def test_a_joined_pair_has_24_states(slot: str) -> None:
    """Of 576 states 24 are joined: one for each way to hold a solved pair in the hand."""
    joined = [place for place in STATES if is_joined(cube_with(place, slot), slot)]
    assert len(joined) == 24
    assert Counter(in_top(p.corner) and in_top(p.edge) for p in joined) == {True: 8, False: 16}


@pytest.mark.parametrize(
    ("line", "joined"),
    [
        ("", True),
        ("R", True),
        ("R U", True),
        ("R U R'", True),  # lifted out together, R' passes under them
        ("R U R' U'", True),
        ("F' U' F", True),
        ("F R'", True),  # F takes both down to the left, R' holds neither
        ("R U2 R' U' R U R'", True),  # aside together each time R turns
        ("R U R' U R U' R'", True),
        ("R U' R'", False),  # the corner at the back right goes down with R'
        ("R U R' U' F", False),  # F takes the corner along, not the edge
        ("R U R' U2 R", False),
        ("R U R' U2 R U R'", False),
        ("D", False),  # the corner leaves, the edge stays
        ("D R", False),
        ("E", False),
    ],
)
def test_whether_the_front_right_pair_is_joined(line: str, joined: bool) -> None:
    """The front-right pair after short lines, read off a cube in hand."""
    assert is_joined(after(line), "FR") == joined


@given(lines(8), slots)
def test_turns_that_hold_both_pieces_keep_them_joined(line: Line, slot: str) -> None:
    """A turn that moves both pieces of a joined pair, or neither, leaves it joined."""
    cube = SOLVED
    for move in line:
        turned = cube.turn([move])
        home = SLOT[slot].home
        places = [cube.where[i] for i in home]
        both = [STICKERS[p].place[move.axis] in move.layers for p in places]
        if is_joined(cube, slot):
            assert is_joined(turned, slot) == (both[0] == both[1])
        cube = turned


# -- placements ----------------------------------------------------------------------------------


def test_there_are_168_placements() -> None:
    """168 under top-layer turns; 24 + 6 + 6 + 6 = 42 with no piece in another slot.

    41 besides the solved one: common practice, no source. With the cross done a pair has
    384 states (forum thread Case calculation, December 2008).
    """
    assert len(CROSS_KEPT) == 384
    assert len(placements()) == len(set(placements())) == 168
    own = [p for p in placements() if not is_astray(p)]
    assert list(placements()[:42]) == own
    kinds = [(in_top(p.corner), in_top(p.edge)) for p in own]
    assert (
        kinds
        == [(True, True)] * 24 + [(True, False)] * 6 + [(False, True)] * 6 + [(False, False)] * 6
    )
    assert SOLVED_PLACEMENT in own


def test_a_placement_stands_for_one_or_four_states() -> None:
    """It is the least of the four that the top makes, or the one with both below: 72 x 4 + 96."""
    states = Counter(placement(place, "FR") for place in CROSS_KEPT)
    assert set(states) == set(placements())
    assert all(placement(place, "FR") <= place for place in CROSS_KEPT)
    sizes = Counter(states.values())
    assert sizes == {4: 72, 1: 96}
    for found, size in states.items():
        assert (size == 1) == (not in_top(found.corner) and not in_top(found.edge))


@given(cubes(), slots, st.sampled_from(["U", "U2", "U'"]))
def test_a_placement_does_not_see_the_top_layers_turn(cube: Cube, slot: str, turn: str) -> None:
    """Turning the top layer changes no placement, and a placement is one of its own states."""
    place = pair_place(cube, slot)
    turned = pair_place(cube.upright.turn([MOVES[turn]]), slot)
    assert placement(turned, slot) == placement(place, slot)
    assert placement(PairPlace(*placement(place, slot)), "FR") == placement(place, slot)


@given(cubes(), slots, st.sampled_from(symmetry.VERTICAL))
def test_a_placement_is_seen_from_its_slot(cube: Cube, slot: str, turn: Matrix) -> None:
    """The same pair seen from each of the four slots has the same placement."""
    there = symmetry.slot_image(slot, turn)
    seen = pair_place(cube.image(turn), there)
    assert placement(seen, there) == placement(pair_place(cube, slot), slot)


def test_the_diagonal_makes_22_twins_of_the_41() -> None:
    """The slot's own diagonal leaves 22 classes of the 41 (computed)."""
    mirror = geometry.whole(symmetry.twin("diagonal", "FR"))
    flipped = {i: other for one, two in _edge_stickers() for i, other in ((one, two), (two, one))}

    def image(p: Placement) -> Placement:
        # The mirror puts the edge's R sticker where F's was: the other sticker names the edge.
        return placement(PairPlace(mirror[p.corner], mirror[flipped[p.edge]]), "FR")

    own = set(placements()[:42]) - {SOLVED_PLACEMENT}
    assert {image(p) for p in own} == own
    assert image(SOLVED_PLACEMENT) == SOLVED_PLACEMENT
    assert len({frozenset((p, image(p))) for p in own}) == 22


def _edge_stickers() -> list[tuple[int, int]]:
    """The two stickers of every edge place."""
    by_place: dict[geometry.Vector, list[int]] = {}
    for i in EDGE_STICKERS:
        by_place.setdefault(STICKERS[i].place, []).append(i)
    return [(one, two) for one, two in by_place.values()]


# -- reading slots and faces ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("FR", ("FR",)),
        ("bl,fr", ("FR", "BL")),
        (" BR FR , BR", ("FR", "BR")),
        ("", ()),
        ("FR,FL,BL,BR", SLOTS),
    ],
)
def test_slots_are_read_in_any_order(text: str, read: tuple[str, ...]) -> None:
    """Slots come back once each, in the usual order."""
    assert parse_slots(text) == read


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("F", 'unknown slot "F"; did you mean "FR"?'),
        ("FR,XY", 'unknown slot "XY"; expected FR, FL, BL or BR'),
        ("FR;BL", 'unknown slot "FR;BL"; expected FR, FL, BL or BR'),
        ("\x1b" + "Q" * 90, 'unknown slot "?QQQQQQQQQQQ"; expected FR, FL, BL or BR'),
    ],
)
def test_unknown_slots_are_refused(text: str, message: str) -> None:
    """The first word that is no slot is named, in one line."""
    with pytest.raises(PositionError) as refused:
        parse_slots(text)
    assert str(refused.value) == message


@pytest.mark.parametrize(("text", "read"), [("RU", "RU"), ("ur", "RU"), ("U, R U", "RU")])
def test_faces_are_read_in_any_order(text: str, read: str) -> None:
    """Faces come back once each, in the order F B R L U D."""
    assert parse_faces(text) == read


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("RX", 'unknown face "X"; expected letters of F B R L U D'),
        ("R\nU", 'unknown face "?"; expected letters of F B R L U D'),
        (" ", "no face may turn; expected letters of F B R L U D"),
    ],
)
def test_unknown_faces_are_refused(text: str, message: str) -> None:
    """The first letter that is no face is named, in one line."""
    with pytest.raises(PositionError) as refused:
        parse_faces(text)
    assert str(refused.value) == message
