"""What friends have sent: invites and cards that were pasted, put together by contest."""

from __future__ import annotations

from dataclasses import dataclass, field

from game.friends.codes import Findings, key
from game.friends.contest import Card, Contest


@dataclass(frozen=True)
class Chat:
    """Contests by their key, and cards by what they belong to: a key, or the date of a day's five.

    Both in the order in which they came.
    """

    contests: dict[str, Contest] = field(default_factory=dict)
    cards: dict[str, tuple[Card, ...]] = field(default_factory=dict)

    @property
    def kinds(self) -> tuple[str, ...]:
        """The keys and dates that it tells of, invites first."""
        return tuple(dict.fromkeys((*self.contests, *self.cards)))

    def cards_for(self, kind: str) -> tuple[Card, ...]:
        """The cards for a key or date."""
        return self.cards.get(kind, ())

    def more(self, found: Findings) -> Chat:
        """With what else was found; what comes again is kept once."""
        contests = dict(self.contests)
        for contest in found.invites:
            contests.setdefault(key(contest), contest)
        cards = {kind: dict.fromkeys(known) for kind, known in self.cards.items()}
        for addressed in found.cards:
            cards.setdefault(addressed.to, {})[addressed.card] = None
        return Chat(contests, {kind: tuple(known) for kind, known in cards.items()})
