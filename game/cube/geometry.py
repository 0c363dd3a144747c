"""Where the stickers are, and what a rotation or reflection of space does to them.

Axes: x to the right, y up, z to the front (towards the player). The 26 pieces sit at the places
(x, y, z) with coordinates -1, 0, 1. A sticker is a place and the outward normal of its face:

            +------+
            |  U   |            y
     +------+------+------+     |
     |  L   |  F   |  R   |     +-- x
     +------+------+------+    /
            |  D   |          z
            +------+

There are 54 stickers, numbered 9 * face + 3 * row + column. Faces come in the order of WCA
Regulations 12a1 (F B R L U D); rows and columns as read by someone who looks straight at the
face, the U face read with F below it, the D face with F above it.

Everything else in the package follows from this page. A *permutation* is a tuple of 54 numbers:
`p[i]` is the place to which the sticker at `i` goes. First a, then b is `then(a, b)`:
`then(a, b)[i] == b[a[i]]`. Example: R takes the sticker at the top right of F to the top right
corner of U that touches B, so `p[sticker("F", 0, 2)] == sticker("U", 0, 2)`.
"""

from __future__ import annotations

from functools import cache
from itertools import permutations, product
from typing import NamedTuple

Vector = tuple[int, int, int]
Matrix = tuple[Vector, Vector, Vector]
"""Rows of a signed permutation matrix: one of the 48 symmetries of the cube."""
Permutation = tuple[int, ...]

FACES = "FBRLUD"

NORMAL: dict[str, Vector] = {
    "F": (0, 0, 1),
    "B": (0, 0, -1),
    "R": (1, 0, 0),
    "L": (-1, 0, 0),
    "U": (0, 1, 0),
    "D": (0, -1, 0),
}
FACE_AT: dict[Vector, str] = {normal: face for face, normal in NORMAL.items()}
OPPOSITE: dict[str, str] = {"F": "B", "B": "F", "R": "L", "L": "R", "U": "D", "D": "U"}

_UPWARD: dict[str, Vector] = dict.fromkeys("FBRL", NORMAL["U"]) | {
    "U": NORMAL["B"],
    "D": NORMAL["F"],
}
"""The direction that is up for someone who looks at the face."""


def cross(a: Vector, b: Vector) -> Vector:
    """The cross product."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def dot(a: Vector, b: Vector) -> int:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def add(*vectors: Vector) -> Vector:
    """The sum."""
    return (
        sum(v[0] for v in vectors),
        sum(v[1] for v in vectors),
        sum(v[2] for v in vectors),
    )


def scale(factor: int, v: Vector) -> Vector:
    """The vector, `factor` times as long."""
    return (factor * v[0], factor * v[1], factor * v[2])


class Sticker(NamedTuple):
    """A sticker's piece place and the outward normal of the face it lies on."""

    place: Vector
    normal: Vector

    @property
    def face(self) -> str:
        """The face on which it lies."""
        return FACE_AT[self.normal]


def _stickers() -> tuple[Sticker, ...]:
    found = []
    for face in FACES:
        normal, upward = NORMAL[face], _UPWARD[face]
        rightward = cross(upward, normal)
        for row, column in product(range(3), range(3)):
            place = add(normal, scale(column - 1, rightward), scale(1 - row, upward))
            found.append(Sticker(place, normal))
    return tuple(found)


STICKERS = _stickers()
INDEX: dict[Sticker, int] = {s: i for i, s in enumerate(STICKERS)}
IDENTITY: Permutation = tuple(range(54))


def sticker(face: str, row: int, column: int) -> int:
    """The number of a sticker by face, row and column (0..2), as read looking at the face."""
    return 9 * FACES.index(face) + 3 * row + column


CENTRES: dict[str, int] = {face: sticker(face, 1, 1) for face in FACES}


def _stickers_by_piece(count: int) -> tuple[int, ...]:
    """Numbers of the stickers whose piece has `count` of them, in numbering order."""
    places = [s.place for s in STICKERS]
    return tuple(i for i, place in enumerate(places) if places.count(place) == count)


CORNER_STICKERS = _stickers_by_piece(3)
"""The 24 stickers of corners: a corner's whole state is the place of one of its stickers."""
EDGE_STICKERS = _stickers_by_piece(2)
"""The 24 stickers of edges: an edge's whole state is the place of one of its stickers."""


# -- symmetries of space -------------------------------------------------------------------------
# There are 48 of them, so what is made of one or two is remembered.


def apply(matrix: Matrix, v: Vector) -> Vector:
    """The image of a vector."""
    (a, b, c), (x, y, z) = matrix, v
    return (
        a[0] * x + a[1] * y + a[2] * z,
        b[0] * x + b[1] * y + b[2] * z,
        c[0] * x + c[1] * y + c[2] * z,
    )


@cache
def compose(first: Matrix, second: Matrix) -> Matrix:
    """The matrix that does `first`, then `second`."""
    columns = tuple(zip(*first, strict=True))
    rows = [[dot(row, column) for column in columns] for row in second]
    return tuple(tuple(row) for row in rows)  # type: ignore[return-value]


@cache
def transpose(matrix: Matrix) -> Matrix:
    """The inverse: these matrices are orthogonal."""
    return tuple(zip(*matrix, strict=True))  # type: ignore[return-value]


def determinant(matrix: Matrix) -> int:
    """+1 for a rotation, -1 for a reflection."""
    return dot(matrix[0], cross(matrix[1], matrix[2]))


def _symmetries() -> tuple[Matrix, ...]:
    found: list[Matrix] = []
    for axes in permutations(range(3)):
        for signs in product((1, -1), repeat=3):
            rows = [[0, 0, 0] for _ in range(3)]
            for row, (axis, sign) in enumerate(zip(axes, signs, strict=True)):
                rows[row][axis] = sign
            found.append(tuple(tuple(row) for row in rows))  # type: ignore[arg-type]
    return tuple(found)


SYMMETRIES = _symmetries()
"""All 48; the identity comes first."""
ROTATIONS = tuple(m for m in SYMMETRIES if determinant(m) == 1)
"""The 24 that a real cube can make; the identity comes first."""
UNMOVED: Matrix = ((1, 0, 0), (0, 1, 0), (0, 0, 1))


@cache
def clockwise(axis: int, quarters: int) -> Matrix:
    """Rotation about axis 0..2 (x, y, z), clockwise seen from the positive end, in quarters."""
    n = UNMOVED[axis]

    def image(v: Vector) -> Vector:
        along = scale(dot(v, n), n)
        return add(along, cross(v, n))

    quarter = transpose((image(UNMOVED[0]), image(UNMOVED[1]), image(UNMOVED[2])))
    turned = UNMOVED
    for _ in range(quarters % 4):
        turned = compose(turned, quarter)
    return turned


def image(matrix: Matrix, index: int) -> int:
    """The place to which the matrix takes the sticker at this one."""
    place, normal = STICKERS[index]
    return INDEX[Sticker(apply(matrix, place), apply(matrix, normal))]


def permutation(matrix: Matrix, layers: frozenset[int], axis: int) -> Permutation:
    """What the matrix does to the stickers whose place has its `axis` coordinate in `layers`."""
    return tuple(image(matrix, i) if s.place[axis] in layers else i for i, s in enumerate(STICKERS))


WHOLE = frozenset((-1, 0, 1))


@cache
def whole(matrix: Matrix) -> Permutation:
    """What a symmetry of the whole cube does to the stickers."""
    return permutation(matrix, WHOLE, 0)


def then(first: Permutation, second: Permutation) -> Permutation:
    """First one, then the other."""
    return tuple([second[i] for i in first])


def inverse(p: Permutation) -> Permutation:
    """The permutation that undoes it."""
    back = [0] * len(p)
    for i, j in enumerate(p):
        back[j] = i
    return tuple(back)
