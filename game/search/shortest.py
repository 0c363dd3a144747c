"""Par and all shortest solutions, exactly: breadth-first iterative deepening under tables.

For par 1, 2, 3 ... all lines of that length are tried, except those through a node that a table
proves to be too far from the goal. The first length with a solution is par.

Nodes are handled in blocks of at most `BLOCK`. The children that are left of a block are cut into
blocks again, and each is finished, down to the last turn, before the next is begun. So a search
keeps at most 20 times the children of one block, beside the tables and the solutions found:
less than 200 MB, however long it takes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field

from game.cube import ease, pair
from game.cube.cube import Cube
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import FACE_MOVES, line_text
from game.search.nodes import Block, Children, Followers, expand, followers, start
from game.search.outcome import NoneUpTo, Outcome, Progress, Solved, Stopped, Unsolvable
from game.search.reach import obstacle
from game.search.tables import Bound, Tables

MAX_TURNS = 20
"""Turns tried unless told otherwise.

Enough with all six faces (Rokicki, Kociemba, Davidson, Dethridge, SIAM Review 56(4), 2014). With
fewer faces it is a choice: longer lines take far longer to try than anybody waits.
"""
BLOCK = 1 << 14
"""Nodes that are expanded together at most."""


class _Cancelled(Exception):
    """The caller wants no more."""


def search(
    cube: Cube,
    solve: Iterable[str],
    faces: str = FACES,
    *,
    tables: Tables,
    first: bool = False,
    max_turns: int | None = None,
    progress: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Outcome:
    """The shortest ways to solve the cross and the pairs of some slots by turns of some faces.

    cube: in any grip; solve: slots, the others stay open; faces: that may turn, by centres.
    first: any one shortest solution is enough. max_turns: longest lines tried, `MAX_TURNS` if None.
    progress: told often how far the search is; cancelled: asked as often, every 0.2 s or less.
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
    running = _Search(start(cube, slots), followers(faces), progress, cancelled)
    try:
        running.measure(tables.bounds(slots, faces))
        while running.at_least <= limit:
            solved = running.solved(first)
            if solved is not None:
                return solved
            running.at_least += 1
    except _Cancelled:
        return Stopped(running.at_least)
    return NoneUpTo(limit)


@dataclass
class _Search:
    """A search under way. at_least: par is proven to be so much; nodes: looked at so far."""

    root: Block
    follows: Followers
    progress: Callable[[Progress], None] | None
    cancelled: Callable[[], bool] | None
    at_least: int = 1
    nodes: int = 0
    bounds: list[Bound] = field(default_factory=list)

    def measure(self, bounds: Iterable[Bound]) -> None:
        """Takes the bounds, the most telling one first, and what they say of the root."""
        measured: list[tuple[int, Bound]] = []
        for bound in bounds:
            self._check()
            measured.append((int(bound(self.root)[0]), bound))
            self.at_least = max(self.at_least, measured[-1][0])
        measured.sort(key=lambda item: -item[0])
        self.bounds = [bound for _, bound in measured]

    def solved(self, first: bool) -> Solved | None:
        """The solutions of `at_least` turns, if there are any."""
        found: list[Line] = []
        complete = True
        try:
            for line in self._lines(self.root, self.at_least, ()):
                found.append(line)
                if first:
                    complete = False
                    break
        except _Cancelled:
            if not found:
                raise
            complete = False
        if not found:
            return None
        return Solved(self.at_least, tuple(sorted(found, key=_order)), complete)

    def _lines(self, block: Block, remaining: int, above: tuple[Block, ...]) -> Iterator[Line]:
        """All solutions of exactly `remaining` more turns from the nodes of a block."""
        self._check()
        children = expand(block, self.follows, self.bounds, remaining - 1)
        self.nodes += len(block)
        above = (*above, block)
        if remaining == 1:
            children = children.solved()
            for row in range(len(children)):
                yield _line(children, row, above)
            return
        for part in children.blocks(BLOCK):
            yield from self._lines(part, remaining - 1, above)

    def _check(self) -> None:
        if self.progress is not None:
            self.progress(Progress(self.at_least, self.nodes))
        if self.cancelled is not None and self.cancelled():
            raise _Cancelled


def _line(children: Children, row: int, above: tuple[Block, ...]) -> Line:
    """The turns from the root to a child of the last block."""
    turns = [int(children.turn[row])]
    row = int(children.row[row])
    for block in reversed(above[1:]):
        turns.append(int(block.turn[row]))
        row = int(block.parent[row])
    return tuple(FACE_MOVES[turn] for turn in reversed(turns))


def _order(line: Line) -> tuple[float, str]:
    held = ease.easiest_grip(line)
    return (ease.effort(held), line_text(line))
