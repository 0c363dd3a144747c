"""What one player made of one position, in a match, a contest or a run: a line and its times."""

from __future__ import annotations

from dataclasses import dataclass

from game.cube.line import Line
from game.errors import ContestError
from game.play.inspection import PENALTY
from game.play.times import MAX_HUNDREDTHS

MAX_MOVES = 1000
"""Moves of a line at most, rotations included."""


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
