"""The symmetries that keep the cross below: rotations about the vertical and the three mirrors.

A *twin* is a mirror image. For the slot at the front right:

    left-right   FR -> FL     front-back   FR -> BR     diagonal   FR -> FR

The diagonal mirror swaps the two sides of a slot, so it maps the slot at the other end of the
same diagonal to itself as well, and exchanges the other two.
"""

from __future__ import annotations

from game.cube import geometry
from game.cube.geometry import FACE_AT, NORMAL, Matrix

VERTICAL: tuple[Matrix, ...] = tuple(geometry.clockwise(1, q) for q in range(4))
"""The rotations y^0 .. y^3; y takes the slot FR to FL, FL to BL, BL to BR."""

LEFT_RIGHT: Matrix = ((-1, 0, 0), (0, 1, 0), (0, 0, 1))
FRONT_BACK: Matrix = ((1, 0, 0), (0, 1, 0), (0, 0, -1))
_DIAGONAL_FR: Matrix = ((0, 0, 1), (0, 1, 0), (1, 0, 0))
_DIAGONAL_FL: Matrix = ((0, 0, -1), (0, 1, 0), (-1, 0, 0))

TWINS = ("left-right", "front-back", "diagonal")
UPRIGHT: tuple[Matrix, ...] = (
    *VERTICAL,
    *(geometry.compose(LEFT_RIGHT, turn) for turn in VERTICAL),
)
"""The eight symmetries that leave the vertical axis as it is; the identity comes first."""


def twin(name: str, slot: str) -> Matrix:
    """The reflection of that name; `slot` decides which diagonal plane is meant."""
    if name == "left-right":
        return LEFT_RIGHT
    if name == "front-back":
        return FRONT_BACK
    if name == "diagonal":
        return _DIAGONAL_FR if slot in ("FR", "BL") else _DIAGONAL_FL
    raise KeyError(name)


def face_image(face: str, symmetry: Matrix) -> str:
    """The face that a symmetry puts in the place of another."""
    return FACE_AT[geometry.apply(symmetry, NORMAL[face])]


def slot_image(slot: str, symmetry: Matrix) -> str:
    """The slot that a symmetry of `UPRIGHT` puts in the place of another."""
    first, second = (face_image(face, symmetry) for face in slot)
    return first + second if first in "FB" else second + first


def faces_image(faces: str, symmetry: Matrix) -> str:
    """The set of faces that a symmetry shows, in the order F B R L U D."""
    images = {face_image(face, symmetry) for face in faces}
    return "".join(face for face in geometry.FACES if face in images)


def to_slot(slot: str) -> Matrix:
    """The rotation about the vertical that takes the slot FR to this one."""
    return next(m for m in VERTICAL if slot_image("FR", m) == slot)
