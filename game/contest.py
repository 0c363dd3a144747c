"""A competition among friends: what is played, and what each player made of it.

All of it is frozen values with bounds, since they come from codes that anybody may have written.
Names and titles may hold any characters, which is for those who show them to mind.
"""

from __future__ import annotations

from dataclasses import dataclass

from game.cube.line import Line
from game.errors import ContestError
from game.position import Position

TURNS, TIME = "turns", "time"
BY = (TURNS, TIME)
"""What players who solved equally many positions are ranked by first."""
MAX_POSITIONS = 40
"""Positions of a contest at most."""
MAX_MOVES = 1000
"""Moves of a line at most, rotations included."""
MAX_HUNDREDTHS = 2**26 - 1
"""Hundredths of a second of a time at most: more than a week."""
MAX_BYTES = 160
"""Bytes of a name or a title in UTF-8 at most: forty characters of any script."""
PENALTY = 2
"""Seconds added for a start between 15 and 17 seconds after inspection began (WCA A4d1)."""


@dataclass(frozen=True)
class Rules:
    """How a contest is ranked. inspection: each position is inspected first, by the WCA's rule.

    Raises ContestError for what it cannot be ranked by.
    """

    by: str = TURNS
    inspection: bool = False

    def __post_init__(self) -> None:
        if self.by not in BY:
            raise ContestError(f"a contest is ranked by {' or by '.join(BY)}")


@dataclass(frozen=True)
class Contest:
    """Positions to play in their order, under a title that may be empty.

    Raises ContestError for more positions than `MAX_POSITIONS` or none, for a position that is
    solved at the start, and for a title longer than `MAX_BYTES`.
    """

    title: str
    positions: tuple[Position, ...]
    rules: Rules = Rules()

    def __post_init__(self) -> None:
        _check_text("the title of a contest", self.title)
        count = len(self.positions)
        if not 1 <= count <= MAX_POSITIONS:
            raise ContestError(f"{count} positions; a contest has 1 to {MAX_POSITIONS}")
        for number, position in enumerate(self.positions, 1):
            if position.is_goal(position.cube):
                raise ContestError(f"position {number} of the contest is solved at the start")


@dataclass(frozen=True)
class Result:
    """What one player made of one position.

    line: the moves in force at the end as they were made, rotations included, from the centres at
    home. seeing, doing: hundredths of a second until the first turn and from it to the end, cut
    and never rounded. called: "no shorter way exists" was declared, of a line that solves.
    solved: False where the player gave up, or lost the position by the inspection rule.
    inspection: seconds that this rule added, 0 or `PENALTY`.

    Raises ContestError for more than `MAX_MOVES` moves, for a time or a penalty that cannot be,
    and for a claim to have solved by no move or to have called what was not solved.
    """

    line: Line
    seeing: int
    doing: int
    called: bool
    solved: bool
    inspection: int = 0

    def __post_init__(self) -> None:
        if len(self.line) > MAX_MOVES:
            raise ContestError(f"a line of {len(self.line)} moves; at most {MAX_MOVES} count")
        for time in (self.seeing, self.doing):
            if not 0 <= time <= MAX_HUNDREDTHS:
                raise ContestError(f"a time is from 0 to {MAX_HUNDREDTHS} hundredths of a second")
        if self.inspection not in (0, PENALTY):
            raise ContestError(f"inspection adds no seconds or {PENALTY}")
        if self.solved and not self.line:
            raise ContestError("a position is not solved by no move")
        if self.called and not self.solved:
            raise ContestError("only of a line that solves can it be said that none is shorter")

    @property
    def time(self) -> int:
        """Hundredths of a second altogether: seeing, doing and what inspection added."""
        return self.seeing + self.doing + 100 * self.inspection


@dataclass(frozen=True)
class Card:
    """One player's results, one a position in their order.

    Raises ContestError for a name that is empty or longer than `MAX_BYTES`, and for more results
    than there can be positions, or none.
    """

    name: str
    results: tuple[Result, ...]

    def __post_init__(self) -> None:
        _check_text("the name of a player", self.name)
        if not self.name:
            raise ContestError("a card has the name of its player")
        count = len(self.results)
        if not 1 <= count <= MAX_POSITIONS:
            raise ContestError(f"{count} results; a card has 1 to {MAX_POSITIONS}")


def _check_text(what: str, text: str) -> None:
    """Raises ContestError unless the text can be written in UTF-8 and is short enough."""
    try:
        size = len(text[: MAX_BYTES + 1].encode())
    except UnicodeEncodeError:
        raise ContestError(f"{what} has half a character in it") from None
    if size > MAX_BYTES:
        raise ContestError(f"{what} has more than {MAX_BYTES} bytes in UTF-8")
