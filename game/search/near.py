"""Near sets: which states of a large part of the cube are at most so many turns from solved.

Two parts see more than the small tables do:

    CROSS_PAIR    the cross with the corner and the edge of one slot            72,990,720 states
    THREE_EDGES   the corners of all four slots with the edges of three      1,437,004,800 states

Their distances would fill 1.5 GB. But the search only ever asks whether a node may be at most so
many turns from the goal, and it matters only where there are many nodes and the answer is often
no. So a part is kept as one bit a state for each of two numbers of turns: its near sets. A state
is numbered by

    row      the part's main four pieces: the cross, or the corners
    column   the places of its other pieces; no two of a kind lie in one place

The diagonal mirror through the slot FR maps both parts to themselves. Of two rows that are mirror
images of each other only one is kept. The sets of the other slots are the same seen from there.

Why these parts: of the nodes six turns from 30 random deals of four pairs, the sets of a part, seen
from every slot, kept this share with so many turns left (computed):

                                                          states     6       7       8
    the cross with a pair                                   73 M    0.35 %  13 %    83 %
    four corners with two edges, neighbours and diagonal   144 M    0.04 %   1.9 %  55 %
    four edges with two corners, neighbours and diagonal   192 M    0.05 %   2.4 %  47 %
    all of these                                           408 M    0.001 %  0.17 % 30 %
    four corners with three edges                         1437 M                     4.4 %
    four edges with three corners                         1724 M                     4.6 %
    the cross with a pair, four corners with three edges                             3.9 %
    four corners with three edges, four edges with three corners                     3.1 %
    every one                                                                        2.7 %

The mirror halves all but those of the diagonal. With 8 turns left one part of seven pieces does
more than all of six together, and a second adds little; with 6 and 7 left small ones do. Four deals
of par 12 and 13, all solutions, took so long (processor time; million nodes) with the small tables
and

    the cross with a pair         9.5 s  126     both, without its set of 6 turns   0.57 s  4.0
    three edges, of 8 turns only  2.0 s   23     both                               0.38 s  3.4
    three edges                   0.53 s 4.8

The small tables keep their place: they tell fewer than 6 turns apart,
and with slots open they are all there is; without them twelve such searches take 2.3 times as long.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from math import prod

import numpy as np
from numpy.typing import NDArray

from game.cube import geometry, symmetry
from game.cube.pair import CROSS_EDGES, SLOTS
from game.search.coordinates import (
    PLACES,
    SLOT_HOMES,
    Coordinate,
    Fours,
    Numbers,
    as_number,
    corner_four_moves,
    corner_fours,
    edge_four_moves,
    edge_fours,
)
from game.search.tables import Bound, Nodes, Tables

MIRROR = symmetry.twin("diagonal", "FR")
Bits = NDArray[np.uint8]
"""Eight states a byte, the first in its lowest bit."""
_STICKERS = {"corner": 3, "edge": 2}
"""Stickers of a piece: so many places are taken by each."""


@dataclass(frozen=True)
class Part:
    """Some pieces of the cube, seen from FR, whose states are told apart.

    main: "cross" or "corners", the four pieces that make the rows; corners, edges: slots whose
    pieces make the columns, the edge of FR the last; turns: those for which there is a near set.
    """

    name: str
    main: str
    corners: tuple[str, ...]
    edges: tuple[str, ...]
    turns: tuple[int, ...]

    # -- rows

    @property
    def fours(self) -> Fours:
        """The arrangements of the main pieces."""
        return edge_fours() if self.main == "cross" else corner_fours()

    @property
    def moves(self) -> Numbers:
        """What each turn makes of them, shape (count, 18)."""
        return edge_four_moves() if self.main == "cross" else corner_four_moves()

    @property
    def homes(self) -> tuple[int, ...]:
        """The stickers whose places are meant."""
        return CROSS_EDGES if self.main == "cross" else SLOT_HOMES["corner"]

    @cached_property
    def mirrored(self) -> Numbers:
        """Shape (count,): the mirror image of each arrangement."""
        return self.fours.seen_by(MIRROR, self.homes)

    @cached_property
    def kept(self) -> Numbers:
        """Shape (rows,): the arrangement that each row stands for."""
        everyone = np.arange(self.fours.count, dtype=np.int32)
        return everyone[everyone <= self.mirrored]

    @cached_property
    def rows(self) -> Numbers:
        """Shape (count,): twice the row of each arrangement, 1 more for those not kept."""
        rows = np.full(self.fours.count, -1, dtype=np.int32)
        rows[self.kept] = 2 * np.arange(len(self.kept))
        others = np.flatnonzero(rows < 0)
        rows[others] = rows[self.mirrored[others]] + 1
        return rows

    # -- columns

    @cached_property
    def columns(self) -> int:
        """How many there are."""
        return prod(_ways(kind, len(self.slots(kind)), 0) for kind in _STICKERS)

    def slots(self, kind: str) -> tuple[str, ...]:
        """The slots whose corner or edge belongs to the columns."""
        return self.corners if kind == "corner" else self.edges

    def places(self, kind: str, flipped: bool) -> list[NDArray[np.uint8]]:
        """Where each arrangement of the slots' corners or edges has the pieces of the columns.

        flipped: in the mirror image.
        """
        fours = corner_fours() if kind == "corner" else edge_fours()
        places = [fours.places[SLOTS.index(slot)] for slot in self.slots(kind)]
        if not flipped:
            return places
        return [to.take(places[known]) for known, to in self.carried(kind)]

    def carried(self, kind: str) -> tuple[tuple[int, NDArray[np.uint8]], ...]:
        """For each of these pieces: which is carried to it by the mirror, and where."""
        fours = corner_fours() if kind == "corner" else edge_fours()
        homes = tuple(SLOT_HOMES[kind][SLOTS.index(slot)] for slot in self.slots(kind))
        return fours.carried(MIRROR, homes)

    def codes(self, kind: str) -> Numbers:
        """What the slots' corners or edges add to the column, for each of their arrangements.

        Shape (count * 2,): as they are, and in the mirror image, in turn.
        """
        pieces = len(self.slots(kind))
        step = _ways("edge", len(self.edges), 0) if kind == "corner" else 1
        both = [_ranks(kind, pieces).take(as_number(self.places(kind, f))) for f in (False, True)]
        return np.stack(both, axis=1).reshape(-1) * np.int32(step)

    @cached_property
    def used(self) -> Coordinate:
        """Shape (columns,): the places of each column, read as one number in base 24."""
        possible = np.ones(1, dtype=bool)
        for kind in _STICKERS:
            if self.slots(kind):
                ranks = _ranks(kind, len(self.slots(kind)))
                possible = np.logical_and.outer(possible, ranks >= 0).reshape(-1)
        return np.flatnonzero(possible)

    # -- sizes

    @property
    def states(self) -> int:
        """How many states of these pieces there are."""
        edges = _ways("edge", len(self.edges), 4 if self.main == "cross" else 0)
        return self.fours.count * _ways("corner", len(self.corners), 0) * edges

    @property
    def octets(self) -> int:
        """Bytes of one near set."""
        return len(self.kept) * self.columns // 8

    @property
    def work(self) -> int:
        """How long its sets take to build, beside those of other parts."""
        return self.octets * self.turns[-1]


CROSS_PAIR = Part("cross-pair", "cross", ("FR",), ("FR",), (6, 7))
THREE_EDGES = Part("corners-three-edges", "corners", (), ("FL", "BR", "FR"), (7, 8))
PARTS = (CROSS_PAIR, THREE_EDGES)


def _ways(kind: str, pieces: int, taken: int) -> int:
    """Ways in which so many pieces of a kind can lie, beside some that are there already."""
    return prod(PLACES - _STICKERS[kind] * (taken + k) for k in range(pieces))


@cache
def _ranks(kind: str, pieces: int) -> Numbers:
    """Shape (24**pieces,): number among those whose pieces differ, of their places in base 24."""
    places = np.indices((PLACES,) * pieces).reshape(pieces, -1) // _STICKERS[kind]
    differ = np.ones(places.shape[1], dtype=bool)
    for a in range(pieces):
        for b in range(a):
            differ &= places[a] != places[b]
    ranks = np.full(len(differ), -1, dtype=np.int32)
    ranks[differ] = np.arange(np.count_nonzero(differ))
    return ranks


# -- bounds --------------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class View:
    """A part seen from a slot.

    rows: for each arrangement of the main pieces, twice the number of its row's first state, 1
    more if the row is of the mirror image; codes: `Part.codes` of the kinds in the columns.
    """

    main: str
    rows: Numbers
    codes: tuple[tuple[str, Numbers], ...]

    def states(self, nodes: Nodes) -> Numbers:
        """The number of the state that each node has."""
        main: Numbers = getattr(nodes, self.main)
        states = self.rows.take(main, mode="clip")
        flipped = states & 1
        states >>= 1
        for kind, code in self.codes:
            pieces: Numbers = getattr(nodes, kind)
            states += code.take(2 * pieces + flipped, mode="clip")
        return states


@cache
def view(part: Part, slot: str) -> View:
    """The part seen from the slot."""
    turned = geometry.transpose(symmetry.to_slot(slot))
    rows = part.rows.take(part.fours.seen_by(turned, part.homes))
    codes = []
    for kind, fours in (("corner", corner_fours()), ("edge", edge_fours())):
        if part.slots(kind):
            seen = fours.seen_by(turned, SLOT_HOMES[kind])
            code = part.codes(kind).reshape(-1, 2).take(seen, axis=0)
            codes.append((f"{kind}s", code.reshape(-1)))
    return View(part.main, (rows >> 1) * (2 * part.columns) + (rows & 1), tuple(codes))


@dataclass(frozen=True, eq=False)
class NearBound:
    """What the near sets say of a part seen from a slot. sets: by turns."""

    view: View
    sets: Mapping[int, Bits]

    @property
    def reach(self) -> int:
        """The turns of the largest set."""
        return max(self.sets)

    def within(self, nodes: Nodes, turns: int) -> NDArray[np.bool_]:
        """Whether the part is in the smallest set that holds all states of so many turns."""
        bits = self.sets[min(known for known in self.sets if known >= turns)]
        state = self.view.states(nodes)
        octets = bits.take(state >> 3, mode="clip")
        octets >>= (state & 7).astype(np.uint8)
        octets &= 1
        return octets.view(np.bool_)


@dataclass(frozen=True, eq=False)
class NearTables:
    """The small tables with near sets beside them. sets: by part and turns."""

    small: Tables
    sets: Mapping[Part, Mapping[int, Bits]]

    def bounds(self, slots: tuple[str, ...], faces: str) -> Iterator[Bound]:
        """The near sets of all parts whose pieces must be solved, then what the small tables say.

        They hold for fewer faces too, with which nothing gets nearer.
        """
        for part, sets in self.sets.items():
            for slot in slots:
                if part.main == "cross" or len(slots) == len(SLOTS):
                    yield NearBound(view(part, slot), sets)
        yield from self.small.bounds(slots, faces)
