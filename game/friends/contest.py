"""A competition among friends: what is played, and what each player made of it.

All of it is frozen values with bounds, since they come from codes that anybody may have written.
Names and titles may hold any characters, which is for those who show them to mind.
"""

from __future__ import annotations

from dataclasses import dataclass

from game.errors import ContestError
from game.play.position import Position
from game.play.result import Result

TURNS, TIME = "turns", "time"
BY = (TURNS, TIME)
"""What players who solved equally many positions are ranked by first."""
MAX_POSITIONS = 40
"""Positions of a contest at most."""
MAX_BYTES = 160
"""Bytes of a name or a title in UTF-8 at most: forty characters of any script."""


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
