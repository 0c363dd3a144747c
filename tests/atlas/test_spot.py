"""A cell at a slot as a position, and what mirrors and rotations make of it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.atlas import CELLS, SHEETS, Spot, named, spots
from game.cube import symmetry
from game.cube.cube import SOLVED
from game.cube.moves import parse_line
from game.cube.pair import SLOTS, is_cross_solved, pair_place, placement
from game.cube.symmetry import TWINS
from game.errors import PositionError
from game.packs.difficulty import Find
from game.play.position import position_after
from game.search.outcome import Solved


@st.composite
def any_spot(draw: st.DrawFn) -> Spot:
    """Any spot: a cell at a slot, the top turned, any of the other slots open."""
    cell = draw(st.sampled_from(CELLS))
    slot = draw(st.sampled_from(SLOTS))
    others = [other for other in SLOTS if other != slot]
    chosen = draw(st.sets(st.sampled_from(others)))
    turn = draw(st.sampled_from(cell.turns))
    return Spot(cell, slot, turn, tuple(s for s in SLOTS if s in chosen))


@given(any_spot())
def test_the_position_is_the_placement(spot: Spot) -> None:
    """The pair lies there, the cross is done, every slot that is not open is solved but its own."""
    position = spot.position
    assert is_cross_solved(position.cube)
    assert pair_place(position.cube, spot.slot) == spot.place
    assert placement(spot.place, spot.slot) == placement(spot.cell.place, "FR")
    assert position.open == spot.open
    assert position.pairs == (() if spot.cell.is_solved else (spot.slot,))
    assert set(spot.chosen) | set(spot.trapped) == set(spot.open)


def test_the_hook_is_a3() -> None:
    """The hook of the first pack, R B U2 B' R', is the cell a3 at FR."""
    assert Spot(named("a3")).position == position_after(parse_line("R B U2 B' R'"))


def test_the_slot_itself_stays_closed() -> None:
    """A pair whose slot were open would be no puzzle: refused."""
    with pytest.raises(PositionError, match="slot BL is to be solved"):
        Spot(named("a0"), "BL", 0, ("FR", "BL"))


@pytest.mark.parametrize(
    ("slot", "open_", "problem"),
    [
        ("FX", (), 'unknown slot "FX"'),
        ("", (), '"" is not one slot'),
        ("FR,BL", (), '"FR,BL" is not one slot'),
        ("FR", ("XY",), 'unknown slot "XY"'),
        ("FR", ("FR",), "slot FR is to be solved"),
    ],
)
def test_words_that_are_no_slots(slot: str, open_: tuple[str, ...], problem: str) -> None:
    """What is asked for a wrong slot is refused with a word."""
    with pytest.raises(PositionError, match=problem):
        list(spots(slot, open_))


@given(any_spot(), st.sampled_from(TWINS))
def test_a_twin_is_the_mirror_image(spot: Spot, name: str) -> None:
    """A twin's position is the image of the position under the mirror of that name."""
    mirror = symmetry.twin(name, spot.slot)
    assert spot.twin(name).position == spot.position.image(mirror)
    assert spot.twin(name).twin(name).position == spot.position


@given(any_spot(), st.sampled_from(SLOTS))
def test_another_slot_is_a_rotation(spot: Spot, slot: str) -> None:
    """At another slot the position is the image under the rotation between the slots."""
    images = [spot.position.image(turn) for turn in symmetry.VERTICAL]
    there = spot.at_slot(slot)
    assert (there.slot, there.position in images) == (slot, True)
    assert there.at_slot(spot.slot).position == spot.position


@given(any_spot())
def test_all_images_have_one_model(spot: Spot) -> None:
    """Rotations and mirror images come down to the same spot, which is one of them."""
    images = {spot.twin(name).at_slot(slot).model for name in TWINS for slot in SLOTS}
    assert images == {spot.model}
    assert spot.model.position in [spot.position.image(m) for m in symmetry.UPRIGHT]


def test_22_of_41_differ_by_more_than_a_mirror() -> None:
    """The diagonal mirror pairs the 41 unsolved cells without strays to 22 (common practice)."""
    unsolved = [cell for cell in SHEETS[0].cells if not cell.is_solved]
    pairs = {frozenset((cell, Spot(cell).twin("diagonal").cell)) for cell in unsolved}
    assert (len(unsolved), len(pairs)) == (41, 22)


def test_a_low_pair_stays_when_the_top_turns() -> None:
    """Where nothing lies above, turning the top leads to the same spot."""
    low, high = Spot(named("e9")), Spot(named("a0"))
    assert low.turned(1) == low
    assert [high.turned(k).turn for k in range(5)] == [0, 1, 2, 3, 0]


def test_a_spot_is_called_by_the_side_of_its_edge() -> None:
    """Rows d to f are named by where the edge is; elsewhere a turn of the top is told apart."""
    low = named("d0")
    assert {Spot(low, turn=low.turn_to(c)).name for c in "0123"} == {"d0", "d1", "d2", "d3"}
    assert Spot(low, turn=2).top == ""
    assert (Spot(named("c5"), turn=3).name, Spot(named("c5"), turn=3).top) == ("c5", "U'")


def test_the_home_entry_is_solved() -> None:
    """The spot of d8 is a solved position."""
    position = Spot(named("d8")).position
    assert position.is_goal(position.cube)
    assert position == position_after(()) and SOLVED.is_solved()


@pytest.mark.parametrize("spot", [s for s in spots("FR", ("BL",)) if s.turn == 1][::20])
def test_par_is_the_same_in_every_image(spot: Spot, find: Find) -> None:
    """Par and the number of solutions do not change under mirrors and from slot to slot."""

    def told(position_of: Spot) -> tuple[int, int]:
        position = position_of.position
        outcome = find(position.cube, position.solve, position.faces)
        assert isinstance(outcome, Solved)
        return outcome.par, len(outcome.solutions)

    images = [spot.twin(name) for name in TWINS] + [spot.at_slot(slot) for slot in SLOTS]
    assert {told(image) for image in images} == {told(spot)}
