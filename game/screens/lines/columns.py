"""Several lines for one position beside each other, a column each. Pure.

             Ada        Bo         Cem
    turns    5 par      7 +2       unsolved
    seeing   3.41       2.02       5.10
    doing    2.10       4.00       0.00

      1      R          U          R
      2      B  =       R          U'
      3      U2 &       U2 =
      4      B' &       R' &

Each move has the sign of the stage that it leads to beside it, as the playing screen has it below.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from rich.cells import cell_len
from textual.content import Content

from game.cube.line import Line, obtm
from game.foreign import shown
from game.play.position import Position
from game.play.result import Result
from game.play.stages import stages
from game.play.times import written
from game.screens.shared.fitting import fit
from game.screens.shared.stage_rows import SIGNS, signs_of

LABEL_WIDTH = 8
LEAST_WIDTH, MOST_WIDTH = 8, 16
"""Columns that a line takes, the gap behind it among them."""
_NAME_WIDTH = 3
"""Columns of a move's name, before the sign of its stage."""
UNSOLVED = "DNF"
"""The Regulations' word for what was not finished (WCA 9f)."""
PICKED = "✓"

Cell = tuple[str, str]
"""A text and its style."""
Cells = Sequence[Cell]


@dataclass(frozen=True)
class PlayerLine:
    """A line for a position, as the hands made it. result: None for a shortest solution."""

    position: Position
    name: str
    line: Line
    result: Result | None = None

    @cached_property
    def turns(self) -> int:
        """Outer block turns of the line."""
        return obtm(self.line)

    @cached_property
    def signs(self) -> list[str]:
        """For each move the sign of the stage that it leads to."""
        return signs_of(stages(self.position, self.line))

    @cached_property
    def moments(self) -> tuple[int, ...]:
        """Milliseconds at which the moves are made; () if their times are not known.

        Only the time of seeing and that of doing are kept: the turns stand evenly in the latter.
        """
        if self.result is None or not self.is_solved:
            return ()
        gaps = max(1, len(self.line) - 1)
        seeing, doing = 10 * self.result.seeing, 10 * self.result.doing
        return tuple(seeing + doing * step // gaps for step in range(len(self.line)))

    @property
    def is_solved(self) -> bool:
        """Whether the line leads to the goal."""
        return self.result is None or self.result.solved


@dataclass(frozen=True)
class Grid:
    """What is to be seen of the entries. first, shown: the first of those in view, and how many.

    width: columns of each. marked: where the pointer is; picked: those to be watched.
    """

    entries: tuple[PlayerLine, ...]
    par: int | None
    first: int
    shown: int
    width: int
    marked: int
    picked: frozenset[int]

    @property
    def seen(self) -> range:
        """The entries in view."""
        return range(self.first, min(len(self.entries), self.first + self.shown))

    def at(self, column: int) -> int | None:
        """The entry at a column of the table."""
        number = self.first + (column - LABEL_WIDTH) // self.width
        return number if column >= LABEL_WIDTH and number in self.seen else None

    # -- the rows --------------------------------------------------------------------------------

    def head(self) -> Content:
        """Names and results."""
        names = [self._name(number) for number in self.seen]
        rows = [self._row("", names), self._row("turns", map(self._turns, self.seen))]
        for label, cell in (("seeing", _seeing), ("doing", _doing), ("called", self._called)):
            cells = [cell(self.entries[number]) for number in self.seen]
            if any(cells):
                rows.append(self._row(label, cells))
        rows.append(self._row("", [[] for _ in self.seen]))
        return Content("\n").join(rows)

    def body(self) -> Content:
        """The moves, a row each."""
        longest = max((len(self.entries[number].line) for number in self.seen), default=0)
        rows = []
        for step in range(longest):
            cells = [_move(self.entries[number], step) for number in self.seen]
            rows.append(self._row(f"{step + 1:>4}", cells))
        return Content("\n").join(rows)

    def _row(self, label: str, cells: Iterable[Cells]) -> Content:
        parts: list[Cell] = [(fit(label, LABEL_WIDTH), "$muted")]
        for number, pieces in zip(self.seen, cells, strict=True):
            parts += _padded(pieces, self.width, "on $panel" if number == self.marked else "")
        return Content.assemble(*parts)

    # -- the cells -------------------------------------------------------------------------------

    def _name(self, number: int) -> Cells:
        name = shown(self.entries[number].name)
        style = "bold $accent" if number == self.marked else "bold"
        if number not in self.picked:
            return [(name, style)]
        return [(fit(name, min(self.width - 3, cell_len(name))), style), (f" {PICKED}", "$success")]

    def _turns(self, number: int) -> Cells:
        """Turns, and how many over par."""
        entry = self.entries[number]
        if not entry.is_solved:
            return [(UNSOLVED, "$muted")]
        if entry.result is None:
            return [(f"{entry.turns:<3}", "bold"), ("par", "$accent")]
        if self.par is None:
            return [(str(entry.turns), "bold")]
        over = entry.turns - self.par
        how = (f"+{over}", "$muted") if over else ("par", "$accent")
        return [(f"{entry.turns:<3}", "bold"), how]

    def _called(self, entry: PlayerLine) -> Cells:
        """Whether "no shorter way" was declared, and rightly."""
        if entry.result is None or not entry.result.called:
            return []
        if self.par is None or not entry.is_solved:
            return [("yes", "$muted")]
        return [("rightly", "$accent") if entry.turns == self.par else ("wrongly", "$muted")]


def grid(
    entries: tuple[PlayerLine, ...],
    par: int | None,
    columns: int,
    *,
    marked: int,
    first: int = 0,
    picked: Iterable[int] = (),
) -> Grid:
    """As many entries as fit into so many columns, the marked one among them.

    first: the first that was in view before; it moves no further than it has to.
    """
    count = max(1, len(entries))
    room = max(LEAST_WIDTH, columns - LABEL_WIDTH)
    width = max(LEAST_WIDTH, min(MOST_WIDTH, room // count))
    shown = min(count, room // width)
    first = max(0, min(max(min(first, marked), marked - shown + 1), count - shown))
    return Grid(entries, par, first, shown, width, marked, frozenset(picked))


def legend() -> Content:
    """What the signs mean."""
    parts: list[Cell] = []
    for stage, sign in SIGNS.items():
        parts += [(f"{sign} ", "$success"), (f"{stage}   ", "$muted")]
    return Content.assemble(*parts)


def _seeing(entry: PlayerLine) -> Cells:
    if entry.result is None or not entry.result.solved:
        return []
    late = f"+{entry.result.inspection}" if entry.result.inspection else ""
    return [(written(entry.result.seeing), ""), (late, "$warning")]


def _doing(entry: PlayerLine) -> Cells:
    if entry.result is None or not entry.result.solved:
        return []
    return [(written(entry.result.doing), "")]


def _move(entry: PlayerLine, step: int) -> Cells:
    if step >= len(entry.line):
        return []
    move = entry.line[step]
    name = (f"{move.name:<{_NAME_WIDTH}}", "$muted" if move.is_rotation else "")
    return [name, (entry.signs[step], "$success")]


def _padded(pieces: Cells, width: int, ground: str) -> list[Cell]:
    """The pieces in exactly so many columns, a gap at the end, on one ground."""
    room = width - 1
    cells: list[Cell] = []
    for text, style in pieces:
        cut = fit(text, min(room, cell_len(text)))
        room -= cell_len(cut)
        cells.append((cut, f"{style} {ground}".strip()))
    return [*cells, (" " * room, ground), (" ", "")]
