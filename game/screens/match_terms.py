"""What a match is played by, as rows to choose from. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from game.contest import BY, MAX_POSITIONS, TIME, TURNS, Rules
from game.programme import Programme

BY_WORDS = {TURNS: "turns", TIME: "time"}
USUAL_COUNT = 5


@dataclass(frozen=True)
class Terms:
    """programmes: what can be played; chosen: which of them; count: positions of it."""

    programmes: tuple[Programme, ...]
    chosen: int = 0
    count: int = USUAL_COUNT
    rules: Rules = field(default_factory=Rules)

    @property
    def programme(self) -> Programme:
        """What is played."""
        return self.programmes[self.chosen]

    @property
    def most(self) -> int:
        """As many positions as there can be."""
        most = self.programme.most
        return MAX_POSITIONS if most is None else min(most, MAX_POSITIONS)

    def rows(self) -> Sequence[tuple[str, str]]:
        """A label and a value for each term."""
        return (
            ("Played", self.programme.words),
            ("Positions", str(self.count)),
            ("Ranked by", BY_WORDS[self.rules.by]),
            ("Inspection", "yes" if self.rules.inspection else "no"),
        )

    def stepped(self, row: int, step: int) -> Terms:
        """With the next value of a row (1) or the one before (-1)."""
        if row == 0:
            there = replace(self, chosen=(self.chosen + step) % len(self.programmes))
            return replace(there, count=min(there.count, there.most))
        if row == 1:
            return replace(self, count=(self.count - 1 + step) % self.most + 1)
        if row == 2:
            at = (BY.index(self.rules.by) + step) % len(BY)
            return replace(self, rules=replace(self.rules, by=BY[at]))
        return replace(self, rules=replace(self.rules, inspection=not self.rules.inspection))
