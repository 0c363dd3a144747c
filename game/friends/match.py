"""A table match: friends take turns at one keyboard, all at the same positions.

Everyone plays a position before anyone plays the next. Who begins moves on by one player from
position to position, so that nobody always plays first, or last. A player may leave at any time:
what they have played stays, and they are passed over from then on. The lines of a position may be
seen once nobody has it still to play, not before: `played` refuses. What was seen cannot be unseen:
when a position is first shown to a player, that moment is kept, and if it is left before its end
its clock is taken to have run on.

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

from game.errors import MatchError, PairwrightError
from game.friends.contest import MAX_POSITIONS, Card, Contest, Rules
from game.friends.entry import LATEST, LONGEST
from game.play.position import parse_position
from game.play.result import Result
from game.prose import numeral

FEWEST, MOST = 2, 8
"""Players of a match."""
MAX_NAME = 40
"""Characters of a name at most."""
MAX_MATCH_TEXT = 20_000
"""Characters of what the records keep of a match at most."""
_FORMAT = 1


@dataclass(frozen=True)
class Player:
    """Someone at the table. results: of the positions in order; left: plays no more of them."""

    name: str
    results: tuple[Result, ...] = ()
    left: bool = False


class MatchTry(NamedTuple):
    """A player's result at a position (its text), as the records give it back."""

    name: str
    position: str
    result: Result


@dataclass(frozen=True)
class Match:
    """Players in the order in which they sit, and what they play. Make one with `begin_match`.

    shown: when whoever plays now was first shown their position, in seconds since 1970, or None.
    Raises MatchError for a number of players that cannot be, for a name that cannot be or that two
    of them have, and for more results than positions.
    """

    contest: Contest
    players: tuple[Player, ...]
    shown: int | None = None

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
    def is_finished(self) -> bool:
        """Whether everything is played, or nobody is left to play it."""
        everyone_left = all(player.left for player in self.players)
        return everyone_left or self.number == len(self.contest.positions)

    @property
    def order(self) -> tuple[int, ...]:
        """Who plays the position that is played now, the first of them first.

        Those who have played it already are among them, though they may have left since.
        """
        if self.is_finished:
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

    def showing(self, now: int) -> Match:
        """Once whoever plays now sees their position; the first time counts.

        now: seconds since 1970.
        """
        return self if self.shown is not None or self.is_finished else replace(self, shown=now)

    def gone(self, now: int) -> int:
        """Seconds since whoever plays now was first shown it, `LONGEST` at most; else 0."""
        return 0 if self.shown is None else min(max(0, now - self.shown), LONGEST)

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
        shown = None if seat == self.next else self.shown
        return replace(self, players=players, shown=shown)

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


UNPLAYED = Result(line=(), seeing=0, doing=0, called=False, solved=False)
"""Stands where a player has left before they played a position."""


def _filled(results: tuple[Result, ...], count: int) -> tuple[Result, ...]:
    return (*results, *[UNPLAYED] * count)[:count]


# -- players -------------------------------------------------------------------------------------


def begin_match(contest: Contest, names: Iterable[str]) -> Match:
    """A match that has just begun, of players with these names as they were typed.

    Raises MatchError.
    """
    return Match(contest, tuple(Player(cleaned(name)) for name in names))


def cleaned(name: str) -> str:
    """A typed name with single spaces and without what cannot be shown."""
    shown = "".join(c for c in normalize("NFC", name) if c.isprintable() or c.isspace())
    return " ".join(shown.split())


def check_names(names: Iterable[str]) -> None:
    """Raises MatchError unless these can be the players: enough, not too many, each another name.

    Names that differ only in case, or only in how a character is put together, are one.
    """
    seen: dict[str, str] = {}
    for name in names:
        if not name or name != cleaned(name):
            raise MatchError("a player has a name of characters that can be seen")
        if len(name) > MAX_NAME:
            raise MatchError(f"a name of {len(name)} characters; at most {MAX_NAME} are kept")
        same = normalize("NFKC", normalize("NFKC", name).casefold())
        if same in seen:
            raise MatchError(f"{seen[same]} and {name} cannot be told apart")
        seen[same] = name
    if not FEWEST <= len(seen) <= MOST:
        noun = "player" if len(seen) == 1 else "players"
        raise MatchError(f"a match of {numeral(len(seen))} {noun}; it takes {FEWEST} to {MOST}")


# -- as text -------------------------------------------------------------------------------------


def match_text(match: Match) -> str:
    """What was agreed, who has left, and what was shown; what was played is in the attempts."""
    contest = match.contest
    shown = None if match.shown is None else [match.next, match.number, match.shown]
    return json.dumps(
        {
            "format": _FORMAT,
            "title": contest.title,
            "by": contest.rules.by,
            "inspection": contest.rules.inspection,
            "positions": [position.text for position in contest.positions],
            "names": [player.name for player in match.players],
            "left": [seat for seat, player in enumerate(match.players) if player.left],
            "shown": shown,
        },
        ensure_ascii=False,
        separators=(",", ":"),
    )


def match_of(text: str, tries: Iterable[MatchTry] = ()) -> Match:
    """The match of such a text, with what has been played of it, the oldest first.

    A try that is no next one of its player's is passed over. Raises MatchError for any other text.
    """
    if len(text) > MAX_MATCH_TEXT:
        raise MatchError(f"a match of {len(text)} characters; at most {MAX_MATCH_TEXT} are read")
    try:
        match, left, shown = _read(json.loads(text))
    except (ValueError, TypeError, LookupError, AttributeError, RecursionError) as fault:
        problem = str(fault) if isinstance(fault, PairwrightError) else "no text of a match"
        raise MatchError(problem) from None
    for try_ in tries:
        match = _with_try(match, try_)
    for seat in left:
        match = match.without(seat)
    seat, number, moment = shown
    return match.showing(moment) if (seat, number) == (match.next, match.number) else match


def _read(found: Any) -> tuple[Match, list[int], tuple[int, int, int]]:
    """The match as agreed, the seats of those who left, and who was shown which position and when.

    Raises whatever there is to raise.
    """
    if found["format"] != _FORMAT:
        raise MatchError("a match kept by another version")
    texts, names, left = found["positions"], found["names"], found["left"]
    if len(texts) > MAX_POSITIONS or len(names) > MOST or len(left) > MOST:
        raise MatchError("more positions or players than a match can have")
    rules = Rules(found["by"], _truth(found["inspection"]))
    contest = Contest(found["title"], tuple(map(parse_position, texts)), rules)
    match = Match(contest, tuple(map(Player, names)))
    if not all(type(seat) is int and 0 <= seat < len(names) for seat in left):
        raise MatchError("a player has left who was not there")
    return match, left, _shown(found.get("shown"))


def _shown(value: Any) -> tuple[int, int, int]:
    seat, number, moment = (-1, -1, 0) if value is None else value
    if not all(type(each) is int for each in (seat, number, moment)) or not 0 <= moment <= LATEST:
        raise MatchError("a moment before 1970, or not a number")
    return seat, number, moment


def _truth(value: Any) -> bool:
    if not isinstance(value, bool):
        raise MatchError("neither true nor false")
    return value


def _with_try(match: Match, try_: MatchTry) -> Match:
    for seat, player in enumerate(match.players):
        number = len(player.results)
        if player.name == try_.name and number < len(match.contest.positions):
            if match.contest.positions[number].text != try_.position:
                return match
            return match._with(seat, replace(player, results=(*player.results, try_.result)))
    return match
