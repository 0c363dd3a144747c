"""One try at a position: what the player did and when, and what it has come to.

An attempt is a frozen value; each thing the player does gives the next one. Times are whole
milliseconds since the position was shown, handed in by whoever owns a clock. Everything done is
kept in `events`, and `replay` makes the same attempt of them again.

    seeing time   until the first turn; rotating the cube to look does not end it
    side time     until the first turn of a face other than the top (a reflex turn of the top
                  is not yet a decision)
    doing time    from the first turn to the one that solves
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from game.cube import line as lines
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.moves import MOVES, Move
from game.errors import ForbiddenTurn, PositionError
from game.play.position import Position

MAX_EVENTS = 20_000
"""Things done in one attempt that are kept and replayed at most."""

UNDO, REDO, RESTART = "undo", "redo", "restart"
FAR_ON, FAR_OFF = "far on", "far off"
RUNGS = 4
"""Rungs of the ladder of hints."""
HINTS = tuple(f"hint {rung}" for rung in range(1, RUNGS + 1))


class Event(NamedTuple):
    """Milliseconds since the position was shown, and a move's name or another thing done."""

    ms: int
    what: str


@dataclass(frozen=True)
class Attempt:
    """A try at `position`. line: moves in force; undone: moves that redo brings back, next last."""

    position: Position
    cube: Cube
    events: tuple[Event, ...] = ()
    line: Line = ()
    undone: Line = ()
    first_turn: Event | None = None
    first_side: Event | None = None

    # -- what the player can do ------------------------------------------------------------------

    def turn(self, move: Move, ms: int) -> Attempt:
        """After a move, made as the cube is held now.

        Raises ForbiddenTurn when it turns a face that may not turn. A closed attempt stays as is.
        """
        if self.is_closed:
            return self
        faces = [turn.name[0] for turn in lines.tidy((move,), self.cube.grip).turns]
        for face in faces:
            if face not in self.position.faces:
                raise ForbiddenTurn(move.name, face, self.position.faces)
        event = Event(ms, move.name)
        first_turn, first_side = self.first_turn, self.first_side
        if faces and first_turn is None:
            first_turn = event
        if first_side is None and any(face != "U" for face in faces):
            first_side = event
        return replace(
            self,
            cube=self.cube.turn((move,)),
            events=(*self.events, event),
            line=(*self.line, move),
            undone=(),
            first_turn=first_turn,
            first_side=first_side,
        )

    def undo(self, ms: int) -> Attempt:
        """Without its last move; free, and redo brings it back."""
        if self.is_closed or not self.line:
            return self
        *line, last = self.line
        return self._stepped(UNDO, ms, tuple(line), (*self.undone, last))

    def redo(self, ms: int) -> Attempt:
        """With the last move that was undone."""
        if self.is_closed or not self.undone:
            return self
        *undone, again = self.undone
        return self._stepped(REDO, ms, (*self.line, again), tuple(undone))

    def restart(self, ms: int) -> Attempt:
        """Back at the start: every move undone at once."""
        if self.is_closed or not self.line:
            return self
        return self._stepped(RESTART, ms, (), (*self.undone, *reversed(self.line)))

    def look(self, shown: bool, ms: int) -> Attempt:
        """The far side was asked for, or put away."""
        if self.is_closed:
            return self
        event = Event(ms, FAR_ON if shown else FAR_OFF)
        return replace(self, events=(*self.events, event))

    def hint(self, rung: int, ms: int) -> Attempt:
        """A hint was asked for: the rung of the ladder, 1 to `RUNGS`."""
        if self.is_closed:
            return self
        return replace(self, events=(*self.events, Event(ms, HINTS[rung - 1])))

    def _stepped(self, what: str, ms: int, line: Line, undone: Line) -> Attempt:
        return replace(
            self,
            cube=self.position.cube.turn(line),
            events=(*self.events, Event(ms, what)),
            line=line,
            undone=undone,
        )

    # -- what it has come to ---------------------------------------------------------------------

    @property
    def is_solved(self) -> bool:
        """Whether the cross and every slot to solve are done."""
        return bool(self.events) and self.position.is_goal(self.cube)

    @property
    def is_closed(self) -> bool:
        """Whether nothing more can be done: it is solved, or as long as an attempt may be."""
        return len(self.events) >= MAX_EVENTS or self.is_solved

    @property
    def is_hinted(self) -> bool:
        """Whether a hint was asked for."""
        return any(event.what in HINTS for event in self.events)

    @property
    def turns(self) -> int:
        """Outer block turns of the tidied line: what is held against par."""
        return lines.obtm(self.line)

    @property
    def executed(self) -> int:
        """Execution turns of the line as written, rotations included."""
        return lines.etm(self.written)

    @property
    def written(self) -> Line:
        """The line, a quarter turn made twice running written as one half turn."""
        return written(self.line)

    @property
    def seeing_ms(self) -> int | None:
        """Milliseconds to the first turn."""
        return self.first_turn.ms if self.first_turn is not None else None

    @property
    def first_side_ms(self) -> int | None:
        """Milliseconds to the first turn of a face other than the top."""
        return self.first_side.ms if self.first_side is not None else None

    @property
    def solved_ms(self) -> int | None:
        """Milliseconds to the event that solved, or None."""
        return self.events[-1].ms if self.is_solved else None

    @property
    def doing_ms(self) -> int | None:
        """Milliseconds from the first turn to the event that solved, or None."""
        if self.first_turn is None or not self.is_solved:
            return None
        return self.events[-1].ms - self.first_turn.ms


def begin(position: Position) -> Attempt:
    """Nothing done yet; the cube is held with its centres at home."""
    return Attempt(position, position.cube)


def replay(position: Position, events: Iterable[tuple[int, str]]) -> Attempt:
    """The attempt that these events make.

    Raises PositionError for an unknown event, one out of order, or one past `MAX_EVENTS`, and
    ForbiddenTurn as `turn` does.
    """
    attempt = begin(position)
    for attempt in replayed(position, events):  # noqa: B007 (the last one is the answer)
        pass
    return attempt


def replayed(position: Position, events: Iterable[tuple[int, str]]) -> Iterator[Attempt]:
    """The attempt after each of these events. Raises as `replay` does."""
    attempt = begin(position)
    last = 0
    for count, (ms, what) in enumerate(events, 1):
        if count > MAX_EVENTS:
            raise PositionError(f"more than {MAX_EVENTS} events in one attempt")
        if ms < last:
            raise PositionError(f"event {count} happens before the one that it follows")
        last = ms
        attempt = _done(attempt, what, ms, count)
        yield attempt


def _done(attempt: Attempt, what: str, ms: int, count: int) -> Attempt:
    if what in MOVES:
        return attempt.turn(MOVES[what], ms)
    if what == UNDO:
        return attempt.undo(ms)
    if what == REDO:
        return attempt.redo(ms)
    if what == RESTART:
        return attempt.restart(ms)
    if what in (FAR_ON, FAR_OFF):
        return attempt.look(what == FAR_ON, ms)
    if what in HINTS:
        return attempt.hint(HINTS.index(what) + 1, ms)
    raise PositionError(f"event {count} is {what[:20]!r}: no move and nothing else that is done")


def written(line: Line) -> Line:
    """The line, each quarter turn made twice running written as one half turn."""
    found: list[Move] = []
    doubled = False
    for move in line:
        if found and not doubled and found[-1] == move and move.quarters != 2:
            found[-1] = move._replace(quarters=2)
            doubled = True
        else:
            found.append(move)
            doubled = False
    return tuple(found)
