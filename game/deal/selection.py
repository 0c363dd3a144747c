"""What a run or a match plays: positions one after another, from a pack, a deal or a day's five.

A selection has a short text, by which records know what is of one kind:

    pack/03-across-the-top
    day/2026-11-25
    deal/2/1/FR+BR/FBRLUD/focus     pairs in play, slots open, slots, faces (or hands), view

A seed gives the positions in order; the same seed of the same selection always gives the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import count, islice
from typing import TYPE_CHECKING, Protocol

from game.cube.geometry import FACES
from game.cube.pair import SLOTS
from game.deal.deal import HANDS, Kind, deal
from game.deal.dice import Dice
from game.deal.five import day_text, five_of
from game.errors import DayError, PositionError, SelectionError, printable
from game.packs import Pack, puzzles
from game.play.position import Position
from game.prose import counted, listed

if TYPE_CHECKING:
    from datetime import date

MAX_PROGRAMME_TEXT = 80
"""Characters of a programme's text at most."""


class Selection(Protocol):
    """Where positions come from."""

    @property
    def text(self) -> str:
        """Its one text: two selections with one text are of one kind."""

    @property
    def words(self) -> str:
        """What it is called: "Across the top", "two pairs, one slot open"."""

    @property
    def most(self) -> int | None:
        """How many positions it has; None when they never end."""

    def positions(self, seed: str) -> Iterator[Position]:
        """The positions of this seed in order. Raises SelectionError when there can be none."""


@dataclass(frozen=True)
class FromPack:
    """The levels of a pack and their twins, each once in a random order, and then all over again.

    Raises SelectionError for a pack without levels.
    """

    pack: Pack

    most = None

    def __post_init__(self) -> None:
        if not self.pack.levels:
            raise SelectionError(f'the pack "{self.pack.title}" has no levels')

    @property
    def text(self) -> str:
        """pack/ and the pack's id."""
        return f"pack/{self.pack.id}"

    @property
    def words(self) -> str:
        """The pack's title."""
        return self.pack.title

    def positions(self, seed: str) -> Iterator[Position]:
        """All puzzles of the pack, shuffled anew each time round."""
        dice = Dice(seed)
        while True:
            for puzzle in dice.shuffled(puzzles(self.pack)):
                yield puzzle.position


@dataclass(frozen=True)
class FromDeal:
    """Positions dealt, without end."""

    kind: Kind

    most = None

    @property
    def text(self) -> str:
        """deal/ and every term of the kind."""
        kind = self.kind
        slots = "+".join(kind.slots)
        return f"deal/{kind.pairs}/{kind.open}/{slots}/{kind.faces}/{kind.view}"

    @property
    def words(self) -> str:
        """How many pairs, and what is not as usual: "one pair at FR or BR, faces at the hands"."""
        kind = self.kind
        told = [counted(kind.pairs, "pair")]
        if kind.slots != SLOTS:
            told[0] += f" at {' or '.join(kind.slots)}"
        if kind.open:
            told.append(f"{counted(kind.open, 'slot')} open")
        if kind.faces == HANDS:
            told.append("faces at the hands")
        elif kind.faces != FACES:
            told.append(f"turning {listed(kind.faces)} only")
        return ", ".join(told)

    def positions(self, seed: str) -> Iterator[Position]:
        """A position for each number that follows the seed. Raises SelectionError."""
        for number in count(1):
            try:
                yield deal(self.kind, f"{seed} {number}")
            except PositionError as error:
                raise SelectionError(f"nothing can be dealt: {error}") from None


@dataclass(frozen=True)
class FromDay:
    """The day's five, in their order whatever the seed. Raises SelectionError for a day without."""

    date: date

    most = 5

    def __post_init__(self) -> None:
        try:
            day_text(self.date)
        except DayError as error:
            raise SelectionError(str(error)) from None

    @property
    def text(self) -> str:
        """day/ and the date."""
        return f"day/{day_text(self.date)}"

    @property
    def words(self) -> str:
        """The date."""
        return f"the day's five of {day_text(self.date)}"

    def positions(self, seed: str) -> Iterator[Position]:
        """The five."""
        yield from five_of(self.date)


def first_positions(selection: Selection, seed: str, number: int) -> tuple[Position, ...]:
    """The first positions of a seed, all there are where they are fewer. Raises SelectionError."""
    return tuple(islice(selection.positions(seed), number))


def parse_selection(text: str, packs: Iterable[Pack], date_of: Callable[[str], date]) -> Selection:
    """The selection of a text. packs: those that it may come from.

    date_of: a date from text like 2026-11-25, or ValueError: `datetime.date.fromisoformat`.

    Raises SelectionError for a text that is not a selection, and for a pack that is not there.
    """
    head, _, rest = text[: MAX_PROGRAMME_TEXT + 1].partition("/")
    if len(text) <= MAX_PROGRAMME_TEXT:
        if head == "pack":
            return _from_pack(rest, packs)
        if head == "deal":
            return _from_deal(rest)
        if head == "day":
            return _from_day(rest, date_of)
    raise SelectionError(f'"{printable(text, 40)}" is nothing that can be played')


def _from_pack(id_: str, packs: Iterable[Pack]) -> FromPack:
    for pack in packs:
        if pack.id == id_:
            return FromPack(pack)
    raise SelectionError(f'there is no pack "{printable(id_, 40)}"')


def _from_day(rest: str, date_of: Callable[[str], date]) -> FromDay:
    try:
        selection = FromDay(date_of(rest))
    except ValueError:
        raise SelectionError(f'"{printable(rest, 40)}" is no day with five positions') from None
    if selection.text != f"day/{rest}":
        raise SelectionError("a day is written like 2026-11-25")
    return selection


def _from_deal(rest: str) -> FromDeal:
    parts = rest.split("/")
    if len(parts) != 5 or not all(len(n) == 1 and n in "01234" for n in parts[:2]):
        raise SelectionError(f'"{printable(rest, 40)}" are no terms of a deal')
    pairs, open_, slots, faces, view = parts
    try:
        return FromDeal(Kind(int(pairs), int(open_), view, tuple(slots.split("+")), faces))
    except PositionError as error:
        raise SelectionError(f"nothing can be dealt: {error}") from None
