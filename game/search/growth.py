"""Near sets made from nothing, a turn at a time.

The states at most n + 1 turns from solved are those at most n turns from it, and their neighbours.
While a set grows, it is a mask for each row and each combination of places of the part's other
pieces but the last: one bit for each of the 24 places of that one. A turn takes whole rows to
rows, exchanges masks within a row, and moves the bits of each mask.

Rows are looked at from where the turns lead: each gathers what its 18 neighbours hold. So the
cores can share them, and rows whose neighbours hold nothing yet cost nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from threading import Event
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from game.cube.cube import SOLVED
from game.search.coordinates import (
    CORNER_MOVES,
    EDGE_MOVES,
    FACE_TURNS,
    HOME_CORNER,
    HOME_CROSS,
    HOME_EDGE,
    PLACES,
    Numbers,
    as_number,
    corners_of,
    inverse_turn,
)
from game.search.masks import Masks, count_of, mask_move, moved, unpacked
from game.search.near import Bits, Part
from game.search.workers import Cancelled, shared

R = TypeVar("R")

TRUSTED = 0.05
"""The part of the work that must be done before anything can be told of the rest."""
TASK = 1 << 16
"""Masks that are worked on together: their intermediate results stay in the processor's cache."""


@dataclass(frozen=True)
class Growing:
    """How far the near sets of a part are.

    turns: of the set in the making; last: of the largest that is wanted; states: in the sets so
    far, of all there are; done: of the whole work, 0 to 1, as far as can be told.
    """

    part: Part
    turns: int
    last: int
    states: int
    done: float

    def left(self, spent: float) -> float | None:
        """Seconds that the rest will take if it goes on as in those spent; None: too early."""
        return spent / self.done - spent if self.done > TRUSTED else None


class _Rows:
    """Where the masks of each row come from.

    source: shape (rows, 18), twice the row that each turn comes from, 1 more if it is the mirror
    image that does; column, bits: for each turn, as is and mirrored, what is gathered from there.
    is_double: shape (rows,), whether the row stands for its mirror image as well.
    """

    def __init__(self, part: Part) -> None:
        kept, before = part.kept, [inverse_turn(turn) for turn in range(FACE_TURNS)]
        self.source = part.rows.take(part.moves.take(kept, axis=0)[:, before])
        self.is_double = part.mirrored.take(kept) != kept
        self.column: list[tuple[Numbers, Numbers]] = []
        self.bits: list[tuple[Masks, Masks]] = []
        pieces = [("corner", slot) for slot in part.corners] + [("edge", s) for s in part.edges]
        moves = [CORNER_MOVES if kind == "corner" else EDGE_MOVES for kind, _ in pieces]
        carried = [
            (known + first, to)
            for first, kind in ((0, "corner"), (len(part.corners), "edge"))
            if part.slots(kind)
            for known, to in part.carried(kind)
        ]
        places = np.indices((PLACES,) * (len(pieces) - 1)).reshape(len(pieces) - 1, -1)
        last = carried[-1][1]
        for turn in range(FACE_TURNS):
            back = [move[:, inverse_turn(turn)] for move in moves[:-1]]
            came = [move.take(place) for move, place in zip(back, places, strict=True)]
            mirrored = [to.take(came[known]) for known, to in carried[:-1]]
            self.column.append((as_number(came), as_number(mirrored)))
            image = np.empty(PLACES, dtype=np.intp)
            image[last] = moves[-1][:, turn]
            self.bits.append((mask_move(moves[-1][:, turn]), mask_move(image)))
        home = [np.array([_home(kind, slot)]) for kind, slot in pieces]
        self.home_column, self.home_bit = int(as_number(home[:-1])[0]), int(home[-1][0])
        self.home_row = int(part.rows[HOME_CROSS if part.main == "cross" else corners_of(SOLVED)])


def _home(kind: str, slot: str) -> int:
    return HOME_CORNER[slot] if kind == "corner" else HOME_EDGE[slot]


class Growth:
    """The states at most `turns` turns from solved.

    masks: shape (rows, 24 ** (pieces - 1)); states: how many are in them; part_done: of the work
    in hand, 0 to 1.
    """

    def __init__(self, part: Part) -> None:
        self.part = part
        self._rows = _Rows(part)
        pieces = len(part.corners) + len(part.edges)
        self.masks: Masks = np.zeros((len(part.kept), PLACES ** (pieces - 1)), dtype=np.uint32)
        self._next = np.zeros_like(self.masks)
        self.masks[self._rows.home_row // 2, self._rows.home_column] = 1 << self._rows.home_bit
        self.turns = 0
        self.states = 1
        self.part_done = 0.0

    def grow(self, check: Callable[[], None]) -> None:
        """One turn on. check: called often; what it raises ends the work for good."""
        holding = self._holding()
        stop = Event()

        def work(rows: slice) -> int:
            return self._gather(rows, holding, stop)

        grown = sum(self._over_rows(work, check, stop))
        self.masks, self._next = self._next, self.masks
        self.turns += 1
        self.states += grown

    def _gather(self, rows: slice, holding: NDArray[np.bool_], stop: Event) -> int:
        """Fills some rows of the next masks; how many states are new there."""
        before, after = self.masks[rows], self._next[rows]
        after[...] = before
        gathered = False
        for turn in range(FACE_TURNS):
            source = self._rows.source[rows, turn]
            for flipped in (0, 1):
                here = np.flatnonzero((source & 1 == flipped) & holding.take(source >> 1))
                if stop.is_set() or not len(here):
                    continue
                gathered = True
                found = self.masks.take(source[here] >> 1, axis=0)
                found = found.take(self._rows.column[turn][flipped], axis=1, mode="clip")
                after[here] |= moved(found, self._rows.bits[turn][flipped])
        if not gathered:
            return 0
        new = after ^ before
        return count_of(new) + count_of(new[self._rows.is_double[rows]])

    def share(self) -> float:
        """How much of what there is to gather the next turn has to, 0 to 1."""
        return float(self._holding().take(self._rows.source >> 1).mean())

    def _holding(self) -> NDArray[np.bool_]:
        """Shape (rows,): whether a row has any states."""
        return np.asarray(self.masks.any(axis=1))

    def packed(self, check: Callable[[], None]) -> Bits:
        """The near set of `turns`, as `Part` numbers its states."""
        bits = np.zeros((len(self.masks), self.part.columns // 8), dtype=np.uint8)
        used = self.part.used

        def work(rows: slice) -> None:
            holding = rows.start + np.flatnonzero(self.masks[rows].any(axis=1))
            each = unpacked(self.masks[holding]).reshape(-1, self.masks.shape[1] * PLACES)
            bits[holding] = np.packbits(each.take(used, axis=1), axis=1, bitorder="little")

        for _ in self._over_rows(work, check, Event()):
            pass
        return bits.reshape(-1)

    def _over_rows(
        self, work: Callable[[slice], R], check: Callable[[], None], stop: Event
    ) -> Iterator[R]:
        """The work done on all rows, some at a time."""
        self.part_done = 0.0
        size = max(1, TASK // self.masks.shape[1])
        firsts = range(0, len(self.masks), size)
        tasks = (slice(first, first + size) for first in firsts)
        for count, result in enumerate(shared(work, tasks, check, stop)):
            self.part_done = count / len(firsts)
            yield result


IDLE = 0.03
PACKING = 0.3
"""The work of passing over all rows, and of packing a set, as parts of a full turn's (measured)."""


def near_sets(
    part: Part,
    progress: Callable[[Growing], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Iterator[tuple[int, Bits]]:
    """The near sets of a part, with their turns, as they are made. Raises Cancelled."""
    growth = Growth(part)
    last = part.turns[-1]
    finished = 0.0

    def check(turns: int, now: float, later: float) -> None:
        """now: the work in hand; later: that after it, every turn taken for a full one."""
        if cancelled is not None and cancelled():
            raise Cancelled
        if progress is not None:
            here = finished + now * growth.part_done
            done = here / (finished + now + later)
            progress(Growing(part, turns, last, growth.states, done))

    for turns in range(1, last + 1):
        later = last - turns + PACKING * sum(turns < other for other in part.turns)
        packing = PACKING if turns in part.turns else 0
        work = IDLE + growth.share()
        growth.grow(partial(check, turns, work, packing + later))
        finished += work
        if packing:
            yield turns, growth.packed(partial(check, turns, packing, later))
            finished += packing
