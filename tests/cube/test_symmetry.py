"""The eight symmetries that keep the cross below, and what they do to faces and slots."""

from __future__ import annotations

import pytest

from game.cube import geometry
from game.cube.geometry import FACES
from game.cube.moves import parse_move
from game.cube.pair import SLOTS
from game.cube.symmetry import (
    TWINS,
    UPRIGHT,
    VERTICAL,
    face_image,
    faces_image,
    slot_image,
    to_slot,
    twin,
)


def test_eight_symmetries_keep_the_cross_below() -> None:
    """The symmetries of a square: four rotations and four mirrors, the identity first."""
    assert len(set(UPRIGHT)) == 8
    assert UPRIGHT[0] == geometry.UNMOVED
    assert set(UPRIGHT) == {m for m in geometry.SYMMETRIES if face_image("D", m) == "D"}
    assert [geometry.determinant(m) for m in UPRIGHT] == [1] * 4 + [-1] * 4


def test_y_takes_the_slots_round() -> None:
    """y takes FR to FL, FL to BL, BL to BR, BR to FR, as its definition says (WCA 12a4)."""
    y = parse_move("y").matrix
    assert VERTICAL[1] == y
    assert [slot_image(slot, y) for slot in SLOTS] == ["FL", "BL", "BR", "FR"]


@pytest.mark.parametrize(
    ("name", "slot", "images"),
    [
        ("left-right", "FR", ["FL", "FR", "BR", "BL"]),
        ("front-back", "FR", ["BR", "BL", "FL", "FR"]),
        ("diagonal", "FR", ["FR", "BR", "BL", "FL"]),
        ("diagonal", "BL", ["FR", "BR", "BL", "FL"]),
        ("diagonal", "FL", ["BL", "FL", "FR", "BR"]),
        ("diagonal", "BR", ["BL", "FL", "FR", "BR"]),
    ],
)
def test_where_a_twin_puts_the_slots(name: str, slot: str, images: list[str]) -> None:
    """The images of FR, FL, BL, BR in each mirror."""
    assert [slot_image(s, twin(name, slot)) for s in SLOTS] == images


@pytest.mark.parametrize("slot", SLOTS)
def test_the_diagonal_of_a_slot_keeps_it_and_swaps_its_sides(slot: str) -> None:
    """The slot's own diagonal maps it to itself and exchanges its two faces."""
    mirror = twin("diagonal", slot)
    assert slot_image(slot, mirror) == slot
    assert face_image(slot[0], mirror) == slot[1]
    assert face_image(slot[1], mirror) == slot[0]


@pytest.mark.parametrize("name", TWINS)
def test_a_twin_is_a_reflection(name: str) -> None:
    """Each twin is a mirror that leaves top and bottom where they are."""
    for slot in SLOTS:
        mirror = twin(name, slot)
        assert geometry.determinant(mirror) == -1
        assert (face_image("U", mirror), face_image("D", mirror)) == ("U", "D")


def test_an_unknown_twin_is_a_key_error() -> None:
    """A name that is no twin is the caller's mistake."""
    with pytest.raises(KeyError, match="sideways"):
        twin("sideways", "FR")


@pytest.mark.parametrize("slot", SLOTS)
def test_to_slot_turns_the_front_right_there(slot: str) -> None:
    """One rotation about the vertical takes FR to each slot."""
    assert to_slot(slot) in VERTICAL
    assert slot_image("FR", to_slot(slot)) == slot


@pytest.mark.parametrize(
    ("faces", "name", "images"),
    [("RU", "left-right", "LU"), ("RU", "front-back", "RU"), ("RU", "diagonal", "FU")],
)
def test_allowed_faces_are_mirrored_in_order(faces: str, name: str, images: str) -> None:
    """The image of a set of faces is a set of faces, written in the usual order."""
    assert faces_image(faces, twin(name, "FR")) == images
    assert faces_image(FACES, twin(name, "FR")) == FACES
