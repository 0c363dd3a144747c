"""Whether the turns of few faces can solve some pieces at all, without trying lines.

The turns make a group. Where it can take several stickers at once is counted by a chain of
subgroups: all of it, what leaves the first sticker in place, what leaves the first two, and so on.
Each step of the chain keeps, for every place that its sticker can reach, one element that takes
it there. Where the steps multiply to N, the stickers have N arrangements in reach; whether the
solved one is among them is read off step by step.

The chain is built by the method of C. C. Sims, Computational methods in the study of permutation
groups, 1970, as arranged by D. E. Knuth, Efficient representation of perm groups, 1991.

An element is 54 bytes, byte i being where it takes the sticker at i, and 202 more that make it a
table for `bytes.translate`, which composes two of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from math import prod

from game.cube import geometry
from game.cube.cube import CORNERS, EDGES, PIECE_OF, Cube
from game.cube.moves import FACE_MOVES, permutation, turned_face
from game.cube.pair import CROSS_EDGES, SLOT
from game.prose import tallied

Element = bytes
_PADDING = bytes(range(54, 256))


def _element(places: Iterable[int]) -> Element:
    return bytes(places) + _PADDING


def _inverse(element: Element) -> Element:
    return _element(geometry.inverse(tuple(element[:54])))


class _Step:
    """One step of the chain: what leaves the stickers before in place.

    takes: for each place that `point` can reach, an element that takes it there, and its inverse.
    """

    def __init__(self, point: int, rest: _Step | None) -> None:
        self.point = point
        self.rest = rest
        self.generators: list[Element] = []
        identity = _element(range(54))
        self.takes: dict[int, tuple[Element, Element]] = {point: (identity, identity)}

    def holds(self, element: Element) -> bool:
        """Whether the group has an element that does the same to the points from here on."""
        if element[self.point] not in self.takes:
            return False
        if self.rest is None:
            return True
        return self.rest.holds(element.translate(self.takes[element[self.point]][1]))

    def generate(self, element: Element) -> None:
        """Adds an element to the group, unless it is there."""
        if self.holds(element):
            return
        self.generators.append(element)
        for take, _ in list(self.takes.values()):
            self._follow(take.translate(element))

    def _follow(self, element: Element) -> None:
        place = element[self.point]
        if place not in self.takes:
            self.takes[place] = (element, _inverse(element))
            for generator in list(self.generators):
                self._follow(element.translate(generator))
        elif self.rest is not None:
            self.rest.generate(element.translate(self.takes[place][1]))


@lru_cache(maxsize=64)
def reachable(points: tuple[int, ...], faces: str) -> tuple[dict[int, Element], ...]:
    """For each sticker in turn: where turns of these faces take it, those before left in place.

    Each place that can be reached comes with an element that brings it back. The lengths multiply
    to the number of arrangements of the points. One point of each piece is enough; the chain goes
    on with the pieces left, since it is the whole cube that turns.
    """
    pieces = {PIECE_OF[point] for point in points}
    left = [piece[0] for piece in CORNERS + EDGES if piece not in pieces]
    steps: list[_Step] = []
    for point in reversed([*points, *left]):
        steps.append(_Step(point, steps[-1] if steps else None))
    steps.reverse()
    for move in FACE_MOVES:
        if turned_face(move) in faces:
            steps[0].generate(_element(permutation(move)))
    return tuple(
        {place: back for place, (_, back) in step.takes.items()} for step in steps[: len(points)]
    )


def scattered(
    faces: str, at_home: Iterable[int], pick: Callable[[Sequence[Element]], Element]
) -> Cube:
    """A cube that turns of these faces make of a solved one, with some pieces at home again.

    at_home: a sticker of each such piece. With a `pick` that takes every element as often, every
    such cube comes as often: each is the product of one element from each step in just one way.
    """
    homes = tuple(dict.fromkeys(PIECE_OF[i][0] for i in at_home))
    others = (piece[0] for piece in CORNERS + EDGES if piece[0] not in homes)
    made = _element(range(54))
    for step in reachable((*homes, *others), faces)[len(homes) :]:
        made = made.translate(pick(tuple(step.values())))
    return Cube(tuple(made[:54]))


def obstacle(cube: Cube, slots: Sequence[str], faces: str) -> str:
    """Why no turns of these faces solve the cross and these slots; empty if some do.

    Exact. The pieces are taken one after the other, the cross first, to where they cannot go on.
    """
    where = cube.upright.where
    homes = (*CROSS_EDGES, *(home for slot in slots for home in SLOT[slot].home))
    undone = _element(range(54))
    for k, (home, step) in enumerate(zip(homes, reachable(homes, faces), strict=True)):
        place = undone[where[home]]
        if place not in step:
            return _said(where, homes[: max(k + 1, len(CROSS_EDGES))], slots, faces)
        undone = undone.translate(step[place])
    return ""


def _said(where: Sequence[int], homes: tuple[int, ...], slots: Sequence[str], faces: str) -> str:
    """The obstacle in words: the pieces up to the first that cannot go with those before."""
    count = prod(map(len, reachable(tuple(where[home] for home in homes), faces)))
    arrangements = tallied(count, "arrangement")
    done, is_edge = divmod(len(homes) - len(CROSS_EDGES) - 1, 2)
    pieces = "the cross"
    if done >= 0:
        solved = ", ".join([pieces, *slots[:done]])
        pieces = f"{solved} and the {'edge' if is_edge else 'corner'} of {slots[done]}"
    return f"turns of {' '.join(faces)} reach {arrangements} of {pieces}, but not the solved one"
