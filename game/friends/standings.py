"""The ranking of a contest's cards, each replayed turn by turn.

Ranked by the number of positions solved, then by turns, then by time; or by time right after the
number solved, when the rules say so. Turns and times are those of the positions solved. Turns over
par are turns less the same number for all who solved the same positions, so the ranking needs no
par; it is handed in where it is to be shown. Who ties shares a rank: 1, 1, 3.

Whoever shows a ranking says beside it what is proven and what is not: `PROOF`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from game.errors import ContestError, ForbiddenTurn
from game.foreign import shown
from game.friends.contest import MAX_BYTES, TIME, Card, Contest, Rules
from game.play.attempt import begin
from game.play.position import Position
from game.play.result import Result
from game.prose import counted

PROOF = "Turns are proven by replay; times are the players' word."
Pars = Sequence[int | None]
"""The par of each position of a contest; None where it is not known."""


@dataclass(frozen=True)
class Ranked:
    """A card that holds what it claims. rank: from 1, shared by those who tie.

    turns: of each position, None where it was not solved. namesake: whether another card in the
    standings has the same name.
    """

    rank: int
    card: Card
    turns: tuple[int | None, ...]
    namesake: bool

    @property
    def solved(self) -> int:
        """How many positions were solved."""
        return sum(turns is not None for turns in self.turns)

    @property
    def all_turns(self) -> int:
        """Turns of the positions solved, together."""
        return sum(turns or 0 for turns in self.turns)

    @property
    def time(self) -> int:
        """Hundredths of a second of the positions solved, together, as the player says."""
        return sum(result.time for result in self.card.results if result.solved)

    @property
    def calls(self) -> int:
        """How often "no shorter way exists" was said."""
        return sum(result.called for result in self.card.results)

    def right_calls(self, pars: Pars) -> int:
        """How often it was said of a line at par: all who say so rightly have the credit."""
        said = zip(self.card.results, self.turns, pars, strict=True)
        return sum(result.called and turns == par for result, turns, par in said)

    def over(self, pars: Pars) -> int | None:
        """Turns over par of the positions solved, together; None when a par of them is unknown."""
        solved = [(t, par) for t, par in zip(self.turns, pars, strict=True) if t is not None]
        known = [t - par for t, par in solved if par is not None]
        return sum(known) if len(known) == len(solved) else None


@dataclass(frozen=True)
class Refused:
    """A card that is not ranked, and why, in words that follow its name."""

    card: Card
    reason: str


@dataclass(frozen=True)
class Standings:
    """A contest's rows, best first, and the cards that are not ranked."""

    contest: Contest
    rows: tuple[Ranked, ...]
    refused: tuple[Refused, ...]


def standings(contest: Contest, cards: Iterable[Card]) -> Standings:
    """The standings of these cards: of equal ones the first counts, of those of one name all."""
    proven: list[tuple[Card, tuple[int | None, ...]]] = []
    refused: list[Refused] = []
    for card in dict.fromkeys(cards):
        try:
            proven.append((card, proven_turns(contest, card)))
        except ContestError as error:
            refused.append(Refused(card, str(error)))
    names = Counter(_called(card) for card, _ in proven)
    rows = [Ranked(0, card, turns, names[_called(card)] > 1) for card, turns in proven]
    rows.sort(key=lambda row: (_merit(row, contest.rules), _called(row.card)))
    return Standings(contest, tuple(_ranked(rows, contest.rules)), tuple(refused))


def proven_turns(contest: Contest, card: Card) -> tuple[int | None, ...]:
    """The turns of each position, None where the card claims no solution.

    Raises ContestError, with a reason that follows the player's name, for a card that does not
    solve what it claims or does not fit the contest.
    """
    if len(card.results) != len(contest.positions):
        has, wanted = counted(len(card.results), "result"), len(contest.positions)
        raise ContestError(f"counts {has} where there are {counted(wanted, 'position')}")
    if not contest.rules.inspection and any(result.inspection for result in card.results):
        raise ContestError("counts seconds for inspection, which this contest does not have")
    together = zip(contest.positions, card.results, strict=True)
    return tuple(_turns(*one, number) for number, one in enumerate(together, 1))


def _turns(position: Position, result: Result, number: int) -> int | None:
    """Turns of a result, or None. Raises ContestError as `proven_turns` does."""
    if not result.solved:
        return None
    attempt = begin(position)
    for count, move in enumerate(result.line):
        try:
            after = attempt.turn(move, 0)
        except ForbiddenTurn as error:
            raise ContestError(f"breaks the rules of position {number}: {error}") from None
        if after is attempt:  # nothing can be done once it is solved
            made = counted(count, "move")
            raise ContestError(f"solves position {number} by {made} and yet goes on")
        attempt = after
    if not attempt.is_solved:
        made = counted(len(result.line), "move")
        raise ContestError(f"does not solve position {number} by the {made} it claims")
    return attempt.turns


def _merit(row: Ranked, rules: Rules) -> tuple[int, ...]:
    """What ranks a row: the least comes first, and equals tie."""
    if rules.by == TIME:
        return (-row.solved, row.time)
    return (-row.solved, row.all_turns, row.time)


def _called(card: Card) -> str:
    """What of a player's name a reader can tell from another's."""
    return shown(card.name, MAX_BYTES).casefold()


def _ranked(rows: list[Ranked], rules: Rules) -> Iterable[Ranked]:
    """The rows, which are in order, with their ranks."""
    rank = 1
    for place, row in enumerate(rows, 1):
        if _merit(row, rules) != _merit(rows[place - 2], rules):
            rank = place
        yield replace(row, rank=rank)
