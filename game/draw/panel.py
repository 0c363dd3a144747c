"""What colours lie where: the cube's stickers as named colours, face by face, gaps included.

A *panel* is one face as 7 x 7 zones, along two axes of the drawing (see `look.Eye`):

    0 1 2 3 4 5 6        odd: a sticker      even: the gap before, between or after stickers

so zone (odd, odd) is a sticker and every other zone is plastic, save where a joined pair closes
the gap between its two pieces. Panels hold names of `palette`, not inks.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from game.cube.cube import CORNERS, EDGES, PIECE_OF, Cube
from game.cube.geometry import (
    CENTRES,
    INDEX,
    STICKERS,
    Sticker,
    Vector,
    add,
    dot,
    scale,
)
from game.cube.pair import CROSS_EDGES, SLOT
from game.draw.look import Eye, Look
from game.draw.palette import GREY, PLASTIC

ZONES = 7
PANEL = ZONES * ZONES


class Paint(NamedTuple):
    """names: the colour at each of the 54 places. closed: pairs of places without a gap.

    marked: places whose stickers carry a mark.
    """

    names: tuple[str, ...]
    closed: frozenset[tuple[int, int]]
    marked: frozenset[int] = frozenset()


def paint(
    cube: Cube,
    look: Look,
    grey: frozenset[int],
    joined: Iterable[str],
    marked: frozenset[int] = frozenset(),
) -> Paint:
    """The cube's colours as it is held.

    grey: homes of the stickers that are drawn grey. joined: slots whose pair is joined. marked:
    places whose stickers carry a mark.
    """
    names = tuple(GREY if i in grey else look.scheme[STICKERS[i].face] for i in cube.at)
    closed = set()
    for slot in joined:
        home = SLOT[slot].home
        for c in PIECE_OF[home.corner]:
            for e in PIECE_OF[home.edge]:
                a, b = cube.where[c], cube.where[e]
                if are_neighbours(a, b):
                    closed |= {(a, b), (b, a)}
    return Paint(names, frozenset(closed), marked)


def are_neighbours(a: int, b: int) -> bool:
    """Whether two places lie side by side on one face."""
    apart = add(STICKERS[a].place, scale(-1, STICKERS[b].place))
    return STICKERS[a].normal == STICKERS[b].normal and dot(apart, apart) == 1


def focus_grey(solve: Iterable[str]) -> frozenset[int]:
    """Homes of the stickers that do not matter: all but centres, cross, and pairs of the slots."""
    shown = set(CENTRES.values())
    for i in CROSS_EDGES:
        shown |= set(PIECE_OF[i])
    for slot in solve:
        for i in SLOT[slot].home:
            shown |= set(PIECE_OF[i])
    return frozenset(i for piece in CORNERS + EDGES for i in piece if i not in shown)


@cache
def face_places(eye: Eye, axis: int, sign: int) -> tuple[int, ...]:
    """The nine places of the face at that end of an axis of the drawing.

    In order of the other two axes, the later one running fastest, both from -1 to 1.
    """
    axes = eye.axes
    j, k = (i for i in range(3) if i != axis)
    normal: Vector = scale(sign, axes[axis])
    return tuple(
        INDEX[Sticker(add(normal, scale(a, axes[j]), scale(b, axes[k])), normal)]
        for a in (-1, 0, 1)
        for b in (-1, 0, 1)
    )


def panel(colours: Paint, eye: Eye, axis: int, sign: int) -> list[str]:
    """The names in the 49 zones of a face, in the order of `face_places`."""
    places = face_places(eye, axis, sign)
    names = [PLASTIC] * PANEL
    for n, place in enumerate(places):
        zone = sticker_zone(n)
        names[zone] = colours.names[place]
        for step, neighbour in ((1, n + 1), (ZONES, n + 3)):
            if neighbour < 9 and (place, places[neighbour]) in colours.closed:
                names[zone + step] = names[zone]
    return names


def sticker_zone(n: int) -> int:
    """The zone of a face's n-th sticker."""
    return ZONES * (2 * (n // 3) + 1) + 2 * (n % 3) + 1


def still_panels(colours: Paint, eye: Eye) -> list[str]:
    """The panels of side, cap and front, one after the other."""
    return [name for axis in range(3) for name in panel(colours, eye, axis, 1)]
