"""A card as text: a player's name, turns and times, and the contest that they belong to.

A contest is named by its key, or by its date where it is the day's five. Packed are that, the name,
the count of results, then for each what it came to, its two times, and its line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from game.errors import CodeError
from game.friends.codes import parts
from game.friends.codes.invite import KEY_BITS
from game.friends.codes.mixed import Packing, Unpacking
from game.friends.codes.symbols import sealed
from game.friends.contest import MAX_POSITIONS, Card
from game.play.inspection import PENALTY
from game.play.result import Result

CARD, DAYS_CARD = "C", "D"
"""The symbols that say a code is a card for an invite, or for a day's five."""
TIMES = (13, 17, 20, 26)
"""Bits that a time in hundredths may take: 81 s, 21 minutes, 2.9 hours, a week."""
FIRST_YEAR, YEARS, MONTHS, DAYS = 2000, 400, 12, 31

_KEY = re.compile(f"[0-9a-f]{{{KEY_BITS // 4}}}")
_DATE = re.compile(r"(2[0-3]\d\d)-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", re.ASCII)
_ENDINGS = tuple(
    (solved, called, inspection)
    for solved, called in ((False, False), (True, False), (True, True))
    for inspection in (0, PENALTY)
)
"""What a result comes to: solved, called, seconds added by inspection."""


@dataclass(frozen=True)
class Addressed:
    """A card and the contest it belongs to: its key, or the date of a day's five, "2026-11-25".

    Raises CodeError for what is neither.
    """

    to: str
    card: Card

    def __post_init__(self) -> None:
        if not _KEY.fullmatch(self.to) and not _DATE.fullmatch(self.to):
            raise CodeError("a card belongs to a contest's key or to a date from 2000 to 2399")

    @property
    def day(self) -> str:
        """The date, where it belongs to a day's five; else nothing."""
        return self.to if "-" in self.to else ""


def card_code(addressed: Addressed) -> str:
    """The card as a code."""
    packing = Packing()
    if addressed.day:
        year, month, day = (int(part) for part in addressed.day.split("-"))
        packing.put(year - FIRST_YEAR, YEARS)
        packing.put(month - 1, MONTHS)
        packing.put(day - 1, DAYS)
    else:
        packing.put(int(addressed.to, 16), 2**KEY_BITS)
    parts.put_text(packing, addressed.card.name)
    packing.put(len(addressed.card.results) - 1, MAX_POSITIONS)
    for result in addressed.card.results:
        ending = (result.solved, result.called, result.inspection)
        packing.put(_ENDINGS.index(ending), len(_ENDINGS))
        packing.put_size(result.seeing, TIMES)
        packing.put_size(result.doing, TIMES)
        parts.put_line(packing, result.line)
    return sealed(DAYS_CARD if addressed.day else CARD, packing.number)


def card_in(kind: str, number: int) -> Addressed:
    """The card that a code of a kind carries. Raises CodeError or ContestError for none."""
    packed = Unpacking(number)
    if kind == DAYS_CARD:
        year = packed.take(YEARS) + FIRST_YEAR
        to = f"{year}-{packed.take(MONTHS) + 1:02}-{packed.take(DAYS) + 1:02}"
    else:
        to = f"{packed.take(2**KEY_BITS):0{KEY_BITS // 4}x}"
    name = parts.take_text(packed)
    count = packed.take(MAX_POSITIONS) + 1
    results = tuple(_take_result(packed) for _ in range(count))
    packed.close()
    return Addressed(to, Card(name, results))


def _take_result(packed: Unpacking) -> Result:
    solved, called, inspection = _ENDINGS[packed.take(len(_ENDINGS))]
    seeing, doing = packed.take_size(TIMES), packed.take_size(TIMES)
    return Result(parts.take_line(packed), seeing, doing, called, solved, inspection)
