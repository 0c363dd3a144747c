"""What a match is played by, as rows of a form. Pure."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from game.friends.contest import BY, MAX_POSITIONS, TURNS, Rules
from game.screens.shared.selection_rows import Chosen, FormRow

USUAL_COUNT = 5
COUNT, BY_WHAT, INSPECTION = "count", "by", "inspection"
BY_HELP = {
    TURNS: "By positions solved, then by turns, then by time. Calls are asked for.",
    "time": "By positions solved, then by time.",
}


@dataclass(frozen=True)
class ContestTerms:
    """chosen: what is played; count: positions of it."""

    chosen: Chosen
    count: int = USUAL_COUNT
    rules: Rules = field(default_factory=Rules)

    @property
    def most(self) -> int:
        """As many positions as there can be."""
        most = self.chosen.selection.most
        return MAX_POSITIONS if most is None else min(most, MAX_POSITIONS)

    def rows(self) -> tuple[FormRow, ...]:
        """What is played, and by which rules."""
        inspects = "yes" if self.rules.inspection else "no"
        return (
            *self.chosen.rows(),
            FormRow(COUNT, "Positions", str(self.count), "Everyone plays all of them."),
            FormRow(BY_WHAT, "Ranked by", self.rules.by, BY_HELP[self.rules.by]),
            FormRow(INSPECTION, "Inspection", inspects, "15 seconds to look before each position."),
        )

    def stepped(self, key: str, step: int) -> ContestTerms:
        """With the next value of a row (1) or the one before (-1)."""
        if key == COUNT:
            return replace(self, count=(self.count - 1 + step) % self.most + 1)
        if key == BY_WHAT:
            at = (BY.index(self.rules.by) + step) % len(BY)
            return replace(self, rules=replace(self.rules, by=BY[at]))
        if key == INSPECTION:
            return replace(self, rules=replace(self.rules, inspection=not self.rules.inspection))
        there = replace(self, chosen=self.chosen.stepped(key, step))
        return replace(there, count=min(there.count, there.most))
