"""A table match: friends take turns at one keyboard, all at the same positions.

Everyone plays a position before anyone plays the next. Who begins moves on by one player from
position to position, so that nobody always plays first, or last. A player may leave at any time:
what they have played stays, and they are passed over from then on. The lines of a position may be
seen once nobody has it still to play, not before: `played` refuses.

A match is a frozen value; each thing that happens gives the next one. What the records keep of it
is a text of what was agreed (`match_text`) and everybody's attempts; `match_of` makes the same
match of them again.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, NamedTuple
from unicodedata import normalize

from game.contest import MAX_POSITIONS, Card, Contest, Result, Rules
from game.errors import MatchError, PairwrightError
from game.position import MAX_POSITION_TEXT, parse_position

FEWEST, MOST = 2, 8
"""Players of a match."""
_FORMAT = 1


@dataclass(frozen=True)
class Player:
    """Someone at the table. results: of the positions in order; left: plays no more of them."""

    name: str
    results: tuple[Result, ...] = ()
    left: bool = False


class Try(NamedTuple):
    """A player's result at a position (its text), as the records give it back."""

    name: str
    position: str
    result: Result


@dataclass(frozen=True)
class Match:
    """Players in the order in which they sit, and what they play. Make one with `begin_match`.

    Raises MatchError for a number of players that cannot be, for a name that cannot be or that two
    of them have, and for more results than positions.
    """

    contest: Contest
    players: tuple[Player, ...]

    def __post_init__(self) -> None:
        check_names(player.name for player in self.players)
        if any(len(player.results) > len(self.contest.positions) for player in self.players):
            raise MatchError("a player of this match has more results than there are positions")

    # -- where it stands -------------------------------------------------------------------------

    @property
    def number(self) -> int:
        """The position that is played now, counted from 0; so many may be looked at.

        Once the match is over it is the number of those that were played.
        """
        staying = [len(player.results) for player in self.players if not player.left]
        return min(staying) if staying else max(len(player.results) for player in self.players)

    @property
    def is_over(self) -> bool:
        """Whether everything is played, or nobody is left to play it."""
        everyone_left = all(player.left for player in self.players)
        return everyone_left or self.number == len(self.contest.positions)

    @property
    def order(self) -> tuple[int, ...]:
        """Who plays the position that is played now, the first of them first.

        Those who have played it already are among them, though they may have left since.
        """
        if self.is_over:
            return ()
        seats = self._from(self._opener(self.number))
        return tuple(seat for seat in seats if self._plays(seat, self.number))

    @property
    def next(self) -> int | None:
        """Who plays now; None once the match is over."""
        waiting = (seat for seat in self.order if len(self.players[seat].results) == self.number)
        return next(waiting, None)

    def _opener(self, number: int) -> int:
        """Who is first to begin a position: whoever sits behind the one who began the last."""
        opener = 0
        for past in range(number):
            began = next((s for s in self._from(opener) if self._has_played(s, past)), opener)
            opener = (began + 1) % len(self.players)
        return opener

    def _from(self, seat: int) -> list[int]:
        """All seats round the table from this one on."""
        count = len(self.players)
        return [(seat + step) % count for step in range(count)]

    def _has_played(self, seat: int, number: int) -> bool:
        return len(self.players[seat].results) > number

    def _plays(self, seat: int, number: int) -> bool:
        return not self.players[seat].left or self._has_played(seat, number)

    # -- what happens ----------------------------------------------------------------------------

    def after(self, result: Result) -> Match:
        """After whoever plays now has played. Raises MatchError once the match is over."""
        seat = self.next
        if seat is None:
            raise MatchError("this match is over")
        player = self.players[seat]
        return self._with(seat, replace(player, results=(*player.results, result)))

    def without(self, seat: int) -> Match:
        """After this player has left."""
        return self._with(seat, replace(self.players[seat], left=True))

    def _with(self, seat: int, player: Player) -> Match:
        players = (*self.players[:seat], player, *self.players[seat + 1 :])
        return replace(self, players=players)

    # -- what it has come to ---------------------------------------------------------------------

    def played(self, number: int) -> tuple[tuple[str, Result], ...]:
        """Everybody's result at a position, as they sit.

        Raises MatchError while someone has it still to play.
        """
        if not 0 <= number < self.number:
            raise MatchError("this position is not yet played by all; nobody may see it")
        return tuple(
            (player.name, player.results[number])
            for player in self.players
            if len(player.results) > number
        )

    @property
    def so_far(self) -> tuple[Contest, tuple[Card, ...]] | None:
        """The positions that all have played, and everybody's card for them; None before the first.

        What a player who has left did not play counts as not solved.
        """
        if not self.number:
            return None
        contest = replace(self.contest, positions=self.contest.positions[: self.number])
        return contest, tuple(Card(p.name, _filled(p.results, self.number)) for p in self.players)


UNPLAYED = Result(line=(), seeing=0, doing=0, called=False, solved=False, inspection=0)
"""Stands where a player has left before they played a position."""


def _filled(results: tuple[Result, ...], count: int) -> tuple[Result, ...]:
    return (*results, *[UNPLAYED] * count)[:count]


def begin_match(contest: Contest, names: Iterable[str]) -> Match:
    """A match that has just begun; spaces at the ends of a name go. Raises MatchError."""
    return Match(contest, tuple(Player(" ".join(name.split())) for name in names))


def check_names(names: Iterable[str]) -> None:
    """Raises MatchError unless these can be the players: enough, not too many, each another name.

    Names that differ only in case, or only in how a character is put together, are one.
    """
    seen: dict[str, str] = {}
    for name in names:
        try:
            Card(name, ())
        except PairwrightError as fault:
            raise MatchError(str(fault)) from None
        same = normalize("NFKC", normalize("NFKC", name).casefold())
        if same in seen:
            raise MatchError(f"{seen[same]} and {name} cannot be told apart")
        seen[same] = name
    if not FEWEST <= len(seen) <= MOST:
        raise MatchError(f"a match of {len(seen)} players; it takes {FEWEST} to {MOST}")
