"""Par and all shortest solutions, exactly: breadth-first iterative deepening under tables.

For par 1, 2, 3 ... all lines of that length are tried, except those through a node that a table
proves to be too far from the goal. The first length with a solution is par.

All nodes so many turns from the start are expanded together, `BLOCK` at a time, until a level has
`SHARED` of them. From there on they are cut into pieces, which the cores share. The children of a
piece are put together, cut into pieces again, and each is finished, down to the last turn, before
the next is begun. So a search keeps at most 20 times the children of a piece for each core, and one
level, beside the tables and the solutions found: 0.35 GB in a search of 135 million nodes.

What was measured on random deals of four pairs. First solutions take a third of the nodes of all:
the length before par must be tried to its end, and that is most of it. Of five million nodes on
shared levels 99.2 % differ, so merging equal ones would not pay. Blocks of 1,000 to 8,000 nodes are
equally fast: their arrays stay in the processor's cache. Looking numbers up one by one, where few
children of a block are left, saves a tenth. Beside plain C with the cross, corner and edge of one
slot as its table, in one thread, all solutions of four pairs took a nineteenth of the time and
first ones an eighth; of three pairs a sixth and two fifths (`python -m tests.bench deep`, on two
cores that did other work as well).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from threading import Event, Lock

from game.cube import ease, pair
from game.cube.cube import Cube
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import FACE_MOVES, line_text
from game.search.nodes import Block, Goal, followers, goal, joined, start
from game.search.outcome import NoneUpTo, Outcome, Progress, Solved, Stopped, Unsolvable
from game.search.reach import obstacle
from game.search.sieve import Sieve
from game.search.tables import Bound, Tables
from game.search.workers import Cancelled, shared

MAX_TURNS = 20
"""Turns tried unless told otherwise.

Enough with all six faces (Rokicki, Kociemba, Davidson, Dethridge, SIAM Review 56(4), 2014). With
fewer faces it is a choice: longer lines take far longer to try than anybody waits.
"""
BLOCK = 1 << 12
"""Nodes that are expanded together at most."""
PIECE = 1 << 14
"""Nodes whose children are put together at most."""
SHARED = 1 << 16
"""Nodes of a level from which on the cores share it."""
TASKS = 1 << 6
"""So many tasks are made of a shared level: the smaller they are, the sooner a solution is told."""


def search(
    cube: Cube,
    solve: Iterable[str],
    faces: str = FACES,
    *,
    tables: Tables,
    first: bool = False,
    max_turns: int | None = None,
    max_nodes: int | None = None,
    progress: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Outcome:
    """The shortest ways to solve the cross and the pairs of some slots by turns of some faces.

    cube: in any grip; solve: slots, the others stay open; faces: that may turn, by centres.
    first: any one shortest solution is enough. max_turns: longest lines tried, `MAX_TURNS` if None.
    max_nodes: once about so many have been looked at, the search ends as if cancelled.
    progress: told often how far the search is; cancelled: asked as often, every 0.2 s or less;
    both in the caller's thread.
    A search cancelled among the lines of par length gives those found, as not complete.
    Raises PositionError for a word that is no slot or face, or when no face may turn.
    """
    slots = pair.parse_slots(",".join(solve))
    faces = pair.parse_faces(faces)
    if pair.is_goal(cube, slots):
        return Solved(0, ((),), complete=True)
    proof = obstacle(cube, slots, faces) if faces != FACES else ""
    if proof:
        return Unsolvable(proof)
    limit = MAX_TURNS if max_turns is None else max_turns
    running = _Search(start(cube), goal(slots), first, max_nodes, progress, cancelled)
    try:
        running.measure(faces, tables.bounds(slots, faces))
        while running.at_least <= limit:
            solved = running.solved()
            if solved is not None:
                return solved
            running.at_least += 1
    except Cancelled:
        return Stopped(running.at_least)
    return NoneUpTo(limit)


@dataclass
class _Search:
    """A search under way.

    at_least: par is proven to be so much; nodes: looked at so far; done: of the tasks for lines of
    that length.
    """

    root: Block
    goal: Goal
    first: bool
    max_nodes: int | None
    progress: Callable[[Progress], None] | None
    cancelled: Callable[[], bool] | None
    at_least: int = 1
    nodes: int = 0
    done: float = 0.0
    sieve: Sieve = field(init=False)
    _stop: Event = field(default_factory=Event)
    _counting: Lock = field(default_factory=Lock)

    def measure(self, faces: str, bounds: Iterable[Bound]) -> None:
        """Takes the bounds, those first that tell most of the root, and what they say of it."""
        measured: list[tuple[int, Bound]] = []
        for bound in bounds:
            self._check()
            turns = bisect_left(range(bound.reach + 1), True, key=partial(self._allows, bound))
            measured.append((turns, bound))
            self.at_least = max(self.at_least, turns)
        measured.sort(key=lambda item: -item[0])
        self.sieve = Sieve(followers(faces), [bound for _, bound in measured])

    def _allows(self, bound: Bound, turns: int) -> bool:
        return bool(bound.within(self.root, turns)[0])

    def solved(self) -> Solved | None:
        """The solutions of `at_least` turns, if there are any."""
        found: list[Line] = []
        complete = True
        try:
            for line in self._lines(self.root, self.at_least, (), sharing=True):
                if self.first:
                    return Solved(self.at_least, (line,), complete=False)
                found.append(line)
        except Cancelled:
            if not found:
                raise
            complete = False
        if not found:
            return None
        return Solved(self.at_least, tuple(sorted(found, key=_order)), complete)

    def _lines(
        self, block: Block, remaining: int, above: tuple[Block, ...], *, sharing: bool
    ) -> Iterator[Line]:
        """The solutions of exactly `remaining` more turns from the nodes of a block.

        above: the pieces from which the block comes; sharing: whether the cores may share it.
        """
        if sharing and len(block) >= SHARED:
            yield from self._shared_lines(block, remaining, above)
            return
        for _, piece in block.parts(SHARED if sharing else PIECE):
            children = self._children(piece, remaining - 1, sharing)
            here = (*above, piece)
            if remaining == 1:
                for row in self.goal.reached(children):
                    yield _line(children, int(row), here)
            elif len(children):
                yield from self._lines(children, remaining - 1, here, sharing=sharing)

    def _shared_lines(
        self, block: Block, remaining: int, above: tuple[Block, ...]
    ) -> Iterator[Line]:
        def lines(task: Block) -> list[Line]:
            found = self._lines(task, remaining, above, sharing=False)
            return list(islice(found, 1 if self.first else None))

        self._stop = Event()
        tasks = [task for _, task in block.parts(max(1, len(block) // TASKS))]
        for count, found in enumerate(shared(lines, tasks, self._check, self._stop)):
            self.done = count / len(tasks)
            yield from found
        self.done = 0.0

    def _children(self, piece: Block, turns: int, sharing: bool) -> Block:
        """The children of a piece that may be at most so many turns from the goal."""
        found = []
        for row, block in piece.parts(BLOCK):
            if sharing:
                self._check()
            elif self._stop.is_set():
                raise Cancelled
            found.append(self.sieve.sift(block, turns).block(row))
            with self._counting:
                self.nodes += self.sieve.count(block)
        return joined(found)

    def _check(self) -> None:
        if self.progress is not None:
            self.progress(Progress(self.at_least, self.nodes, self.done))
        if self.max_nodes is not None and self.nodes >= self.max_nodes:
            raise Cancelled
        if self.cancelled is not None and self.cancelled():
            raise Cancelled


def _line(children: Block, row: int, above: tuple[Block, ...]) -> Line:
    """The turns from the root to a child of the last piece."""
    turns = []
    for block in (children, *reversed(above[1:])):
        turns.append(int(block.turn[row]))
        row = int(block.parent[row])
    return tuple(FACE_MOVES[turn] for turn in reversed(turns))


def _order(line: Line) -> tuple[float, str]:
    held = ease.easiest_grip(line)
    return (ease.effort(held), line_text(line))
