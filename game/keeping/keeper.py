"""The records as a game uses them: opened at the first need, never in the way of playing."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, TypeVar

from game.errors import RecordsError
from game.play.position import Position
from game.prose import counted

if TYPE_CHECKING:
    from game.engine.engine import Engine
    from game.keeping.holding import Holding
    from game.keeping.late_pars import LatePars, Then
    from game.keeping.steady import SteadyClock
    from game.records import Journal, Records

T = TypeVar("T")
U = TypeVar("U")


class Soon(Protocol):
    """Has something called in the thread of the game, from any thread."""

    def __call__(self, callback: Callable[..., None], *values: object) -> object:
        """Call it with these values, later."""


class Keeper:
    """Keeps what is played. path: the file of the records.

    engine: gives, at the first need, the one that finds the pars that are missing.
    tell: called with a fault in one line; lasting: with one that concerns the whole game.
    """

    def __init__(
        self,
        path: Path,
        engine: Callable[[], Engine],
        *,
        tell: Callable[[str], None],
        lasting: Callable[[str], None],
        soon: Soon,
    ) -> None:
        self._path = path
        self._tell = tell
        self._lasting = lasting
        self._told: set[str] = set()
        self._engine = engine
        self._soon = soon

    @property
    def has_records(self) -> bool:
        """Whether anything can be in the records; while not, they need not even be imported."""
        if self._is_open:
            return True
        try:
            return self._path.exists()
        except OSError:  # a folder that cannot be looked into: opening the records tells it
            return True

    @property
    def _is_open(self) -> bool:
        return "records" in self.__dict__

    @cached_property
    def records(self) -> Journal:
        """The records; where their file cannot be used, that is told and memory takes its place."""
        from game.records import records_to_play  # noqa: PLC0415 - SQLite when it is needed

        records, told = records_to_play(self._path)
        if told:
            self._lasting(told)
        return records

    def record(self, use: Callable[[Records], T], otherwise: U) -> T | U:
        """What `use` makes of the records; `otherwise` at a fault. Each fault is told once."""
        try:
            return use(self.records)
        except RecordsError as fault:
            self._tell_once(f"{fault}. You can play on.")
            return otherwise
        finally:
            for line in self.records.news():
                self._tell(line)

    def _tell_once(self, fault: str) -> None:
        if fault not in self._told:
            self._told.add(fault)
            self._tell(fault)

    def close(self) -> list[str]:
        """Close the records; what is to be said of them at the end, a line each."""
        if not self._is_open:
            return []
        self.records.close()
        lines = self.records.news()
        if count := self.records.unsaved:
            unsaved = counted(count, "attempt").capitalize()
            verb = "is" if count == 1 else "are"
            lines.append(f"{unsaved} {verb} not saved: {self.records.trouble}.")
        return lines

    # -- who plays --------------------------------------------------------------------------------

    @cached_property
    def _holding(self) -> Holding:
        from game.keeping.holding import Holding  # noqa: PLC0415 - when a run or match is played

        return Holding(self._path.with_name("held"))

    def take(self, run: int | None) -> bool:
        """Play a run or match by its number; False if another process plays it."""
        return run is None or self._holding.take(str(run))

    def release(self, run: int | None) -> None:
        """It is left."""
        if run is not None:
            self._holding.release(str(run))

    def is_elsewhere(self, run: int | None) -> bool:
        """Whether another process plays it."""
        return run is not None and self._holding.is_elsewhere(str(run))

    # -- the time --------------------------------------------------------------------------------

    @cached_property
    def clock(self) -> SteadyClock:
        """The clock by which what was shown runs on while the game is away."""
        from game.keeping.steady import SteadyClock  # noqa: PLC0415 - when a contest is played

        return SteadyClock(self._path.with_name("clock.json"))

    def now(self) -> int:
        """Seconds since 1970 by that clock."""
        return self.clock.now()

    # -- what becomes known only after an attempt ------------------------------------------------

    @cached_property
    def _pars(self) -> LatePars:
        from game.keeping.late_pars import LatePars  # noqa: PLC0415 - when something is over

        return LatePars(self._engine(), self.learn_par, self.learn_hand, self._soon)

    def follow(self, position: Position, then: Then | None = None) -> None:
        """Have par searched, and added to every attempt at the position that was kept without it.

        then: called afterwards with par, or with None if the position has no solution.
        """
        self._pars.follow(position, then)

    def follow_hand(self, position: Position, number: int, turns: int) -> None:
        """Have it found out whether a solved attempt, kept under this number, is at hand."""
        self._pars.follow_hand(position, number, turns)

    def learn_par(self, position: str, par: int) -> None:
        """Add the par of a position, by its text, to the attempts that were kept without it."""
        self.record(lambda records: records.learn_par(position, par), None)

    def learn_hand(self, number: int, at_hand: bool) -> None:
        """Add to an attempt whether it is at hand."""
        self.record(lambda records: records.amend(number, at_hand=at_hand), None)
