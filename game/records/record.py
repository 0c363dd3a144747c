"""What is kept of one attempt, and what a position's attempts come to.

Whatever is not kept of an attempt can never be had again, so everything done is: each turn,
rotation, undo and look with its milliseconds. Every text and number is bounded, on the way in and
on the way out, since a file may have been changed by others.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone
from typing import Any, NamedTuple

from game.errors import RecordsError
from game.modes import CASUAL

Events = tuple[tuple[int, str], ...]
"""Milliseconds since the position was shown, and what was done: a move's name, "undo", ..."""

OUTCOMES = ("solved", "gave up", "abandoned", "lost")
CLAIMED = "claimed"
"""Called, while par is not known yet."""
CALLS = ("", CLAIMED, "right", "wrong")
FAR_SIDES = ("always", "asked", "never")


MAX_EVENTS = 20_000
MAX_EVENTS_TEXT = 1_000_000
MAX_DONE = 20
"""Characters of what an event says was done."""
MAX_NUMBER = 10**12
"""No count and no time in milliseconds is larger (thirty years)."""
AWAY_MS = 300_000
"""Whoever looks or turns for longer than this was somewhere else: no such time is added up."""
MAX_TEXT = {"position": 100, "puzzle": 200, "mode": 40, "run": 80, "player": 80, "version": 40}
"""Characters of the free texts of a record at most."""


@dataclass(frozen=True)
class Record:
    """One attempt that is over.

    position: its canonical text; puzzle: the key of the level it came from, or empty. par: None
    when it was not found before the end. at_hand: no shorter way with the faces at the hands, None
    when unknown. shown, hint: help had before the end. called: whether "no shorter way" was
    declared rightly. far_side: when the far side is shown. Times are in milliseconds. mode, run,
    player: what the attempt was part of. inspection: seconds that its rule added, None where there
    was none. began: with the player's offset from UTC.

    Raises RecordsError for a value that cannot be.
    """

    position: str
    puzzle: str
    events: Events
    outcome: str
    turns: int
    executed: int
    par: int | None
    at_hand: bool | None
    began: datetime
    version: str
    shown: bool = False
    hint: bool = False
    called: str = ""
    far_side: str = "always"
    seeing_ms: int | None = None
    first_side_ms: int | None = None
    doing_ms: int | None = None
    mode: str = CASUAL
    run: str = ""
    player: str = ""
    inspection: int | None = None

    def __post_init__(self) -> None:
        for name, most in MAX_TEXT.items():
            check_text(name, getattr(self, name), most)
        if not self.position:
            raise RecordsError("an attempt without a position")
        check_choice("outcome", self.outcome, OUTCOMES)
        check_choice("called", self.called, CALLS)
        check_choice("far side", self.far_side, FAR_SIDES)
        for number in (self.turns, self.executed):
            _check_number(number)
        times = (self.seeing_ms, self.first_side_ms, self.doing_ms)
        for maybe in (self.par, self.inspection, *times):
            if maybe is not None:
                _check_number(maybe)
        if self.began.tzinfo is None:
            raise RecordsError("the start of an attempt needs its offset from UTC")
        check_events(self.events)

    @property
    def over(self) -> int | None:
        """Turns used beyond par, where it was solved and par is known."""
        return self.turns - self.par if self.is_solved and self.par is not None else None

    @property
    def is_solved(self) -> bool:
        """Whether the player solved it."""
        return self.outcome == "solved"

    @property
    def is_helped(self) -> bool:
        """Whether the solution or a hint was seen before the end."""
        return self.shown or self.hint


class Tried(NamedTuple):
    """What rating needs of an attempt.

    at_par: without help, None while par is not known; ms: seeing and doing, if solved.
    """

    number: int
    puzzle: str
    position: str
    at_par: bool | None
    ms: int | None


class Sums(NamedTuple):
    """Some attempts added up.

    tried: all of them. fair: those solved without help; everything below is of these alone.
    with_par, over, at_par: how many have a par, their turns beyond it, and how many have none.
    seen, seeing_ms; done, doing_ms, executed: how many were timed, their milliseconds, and for
    doing their execution turns; a time of nought or over `AWAY_MS` is left out.
    """

    tried: int = 0
    fair: int = 0
    with_par: int = 0
    over: int = 0
    at_par: int = 0
    seen: int = 0
    seeing_ms: int = 0
    done: int = 0
    doing_ms: int = 0
    executed: int = 0

    def plus(self, other: Sums) -> Sums:
        """Both together."""
        return Sums(*(one + another for one, another in zip(self, other, strict=True)))


class Best(NamedTuple):
    """What all attempts at one position come to.

    solved, at_hand, at_par, called: marks ever earned. over, turns and the times (milliseconds)
    are the least of attempts solved without help, each on its own; None if there is none.
    """

    attempts: int
    solved: bool
    at_hand: bool
    at_par: bool
    called: bool
    over: int | None
    turns: int | None
    seeing_ms: int | None
    doing_ms: int | None


@dataclass(frozen=True)
class InHand:
    """An attempt that was left and can be taken up again. elapsed_ms: its clock when left.

    Raises RecordsError for a value that cannot be.
    """

    puzzle: str
    events: Events
    elapsed_ms: int

    def __post_init__(self) -> None:
        check_text("puzzle", self.puzzle, MAX_TEXT["puzzle"])
        _check_number(self.elapsed_ms)
        check_events(self.events)


def check_choice(name: str, text: Any, choices: tuple[str, ...]) -> None:
    """Raises RecordsError unless the text is one of the choices."""
    if text not in choices:
        raise RecordsError(f"{name}: expected one of {', '.join(map(repr, choices))}")


def check_events(events: Events) -> None:
    """Raises RecordsError unless they are pairs of a time and something done, within bounds."""
    if len(events) > MAX_EVENTS:
        raise RecordsError(f"an attempt of {len(events)} events; at most {MAX_EVENTS} are kept")
    for event in events:
        if len(event) != 2:
            raise RecordsError("an event is a time and something done")
        ms, what = event
        _check_number(ms)
        check_text("event", what, MAX_DONE)


def events_text(events: Events) -> str:
    """Events as they are stored: a JSON list of [milliseconds, done]."""
    import json  # noqa: PLC0415 - not before the first picture

    return json.dumps(events, separators=(",", ":"))


def parse_events(text: Any) -> Events:
    """Events as they were stored. Raises RecordsError for anything else."""
    import json  # noqa: PLC0415 - not before the first picture

    if not isinstance(text, str) or len(text) > MAX_EVENTS_TEXT:
        raise RecordsError("the events of an attempt are no text, or too long")
    try:
        found = tuple((ms, what) for ms, what in json.loads(text))
    except (ValueError, TypeError, RecursionError):
        raise RecordsError("the events of an attempt cannot be read") from None
    check_events(found)
    return found


def began_text(began: datetime) -> tuple[str, int]:
    """The moment in UTC as ISO text, and the offset from UTC in minutes."""
    offset = began.utcoffset() or timedelta()
    utc = began.astimezone(UTC).replace(tzinfo=None)
    return f"{utc.isoformat(timespec='milliseconds')}Z", round(offset.total_seconds() / 60)


def now_text() -> str:
    """This moment in UTC as ISO text."""
    return began_text(datetime.now(UTC))[0]


def parse_began(text: Any, offset_minutes: Any) -> datetime:
    """The moment with its offset. Raises RecordsError."""
    try:
        utc = datetime.fromisoformat(text)
        return utc.astimezone(timezone(timedelta(minutes=offset_minutes)))
    except (ValueError, TypeError, OverflowError):
        raise RecordsError("the start of an attempt is no moment") from None


def check_text(name: str, text: Any, most: int) -> None:
    """Raises RecordsError unless it is a text of so many printable characters at most."""
    if not isinstance(text, str) or len(text) > most or not text.isprintable():
        raise RecordsError(f"{name}: expected at most {most} printable characters")


def _check_number(number: Any) -> None:
    if not isinstance(number, int) or not 0 <= number <= MAX_NUMBER:
        raise RecordsError(f"expected a number from 0 to {MAX_NUMBER}")
