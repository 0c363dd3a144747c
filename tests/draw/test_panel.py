"""Colours on panels: where stickers lie, which gaps close, what is grey."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from game.cube.colours import HOME_COLOURS
from game.cube.cube import SOLVED, Cube
from game.cube.geometry import CENTRES, STICKERS, sticker
from game.cube.line import Line
from game.cube.moves import parse_line
from game.cube.pair import SLOT, SLOTS, is_joined
from game.draw.look import Eye, Look, far_eye, near_eye
from game.draw.palette import GREY, PLASTIC
from game.draw.panel import (
    PANEL,
    are_neighbours,
    face_places,
    focus_grey,
    paint,
    panel,
    sticker_zone,
    still_panels,
)
from tests.strategies import cubes, lines, slots

EYES = [near_eye("right"), near_eye("left")] + [
    far_eye(lean, from_below=below) for lean in ("right", "left") for below in (False, True)
]
eyes = st.sampled_from(EYES)
NONE: frozenset[int] = frozenset()


@given(cubes())
def test_a_place_has_the_colour_of_the_centre_its_sticker_belongs_to(cube: Cube) -> None:
    """In any grip: the sticker at a place is coloured like its home face's centre."""
    names = paint(cube, Look(), NONE, ()).names
    for place, home in enumerate(cube.at):
        assert names[place] == HOME_COLOURS[STICKERS[home].face]


def test_after_r_the_cross_colour_stands_in_front() -> None:
    """R brings the bottom's right column to the front (a literal case)."""
    names = paint(SOLVED.turn(parse_line("R")), Look(), NONE, ()).names
    front = [names[sticker("F", r, c)] for r, c in product(range(3), range(3))]
    assert front == ["green", "green", "white"] * 3


@given(eyes, st.integers(0, 2), st.sampled_from([1, -1]))
def test_a_panel_holds_one_face(eye: Eye, axis: int, sign: int) -> None:
    """Its nine places are one face's, the centre in the middle, neighbours side by side."""
    places = face_places(eye, axis, sign)
    faces = {STICKERS[place].face for place in places}
    assert len(set(places)) == 9
    assert len(faces) == 1
    assert places[4] == CENTRES[faces.pop()]
    for n in range(9):
        across, along = [n + 3] * (n < 6), [n + 1] * (n % 3 < 2)
        assert all(are_neighbours(places[n], places[m]) for m in across + along)


@given(cubes(), eyes)
def test_without_joined_pairs_a_panel_is_nine_stickers_in_plastic(cube: Cube, eye: Eye) -> None:
    """Forty of the 49 zones are plastic."""
    colours = paint(cube, Look(), NONE, ())
    for axis in range(3):
        names = panel(colours, eye, axis, 1)
        places = face_places(eye, axis, 1)
        assert names.count(PLASTIC) == PANEL - 9
        assert [names[sticker_zone(n)] for n in range(9)] == [colours.names[p] for p in places]


@given(lines(4), slots)
def test_a_joined_pair_closes_one_gap_on_each_of_two_faces(line: Line, slot: str) -> None:
    """Corner and edge touch on two faces, with one colour on each: the two of the slot."""
    cube = SOLVED.turn(line)
    assume(is_joined(cube, slot))
    colours = paint(cube, Look(), NONE, [slot])
    assert len(colours.closed) == 4
    assert {(b, a) for a, b in colours.closed} == colours.closed
    assert len({STICKERS[a].face for a, _ in colours.closed}) == 2
    for a, b in colours.closed:
        assert are_neighbours(a, b)
        assert colours.names[a] == colours.names[b]
    assert {colours.names[a] for a, _ in colours.closed} == {HOME_COLOURS[face] for face in slot}


def test_the_gap_of_a_solved_slot_closes_below_its_edge() -> None:
    """On the front, between the sticker of FR and that of the corner under it."""
    names = still_panels(paint(SOLVED, Look(), NONE, ["FR"]), near_eye("right"))
    front, side = 2 * PANEL, 0
    # front zones: 7 * across + up; side zones: 7 * up + towards the front
    closed = {front + 7 * 5 + 2: "green", side + 7 * 2 + 5: "orange"}
    plain = still_panels(paint(SOLVED, Look(), NONE, ()), near_eye("right"))
    changed = {i: new for i, (old, new) in enumerate(zip(plain, names, strict=True)) if old != new}
    assert changed == closed


@pytest.mark.parametrize("count", range(5))
def test_focus_leaves_centres_cross_and_pairs(count: int) -> None:
    """Grey are all but six centres, eight stickers of the cross and five of each pair to solve."""
    for first in range(4):
        chosen = [SLOTS[(first + k) % 4] for k in range(count)]
        grey = focus_grey(chosen)
        assert len(grey) == 54 - 6 - 8 - 5 * count
        assert grey.isdisjoint(CENTRES.values())
        assert grey.isdisjoint(i for slot in chosen for i in SLOT[slot].home)


def test_focus_greys_the_whole_top_but_its_centre() -> None:
    """Pieces of the top layer do not matter."""
    grey = focus_grey(SLOTS)
    assert {i for i in range(54) if STICKERS[i].place[1] == 1} - grey == {CENTRES["U"]}


@given(cubes(), st.frozensets(st.integers(0, 53)))
def test_grey_goes_with_the_sticker(cube: Cube, grey: frozenset[int]) -> None:
    """A home that is grey is grey wherever its sticker lies."""
    names = paint(cube, Look(), grey, ()).names
    assert {i for i in range(54) if names[cube.where[i]] == GREY} == grey
