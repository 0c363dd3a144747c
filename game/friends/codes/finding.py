"""Finds invites and cards in any text: a message, a saved chat of megabytes.

Case does not matter. Inside a code, whatever is neither letter nor digit counts nothing: line
breaks, spaces, hyphens, marks of quotes and lists. The text is read once, piece by piece; no more
of it is kept than one code may have.
"""

from __future__ import annotations

import re
from array import array
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain
from string import ascii_lowercase

from game.errors import CodeError, ContestError, PositionError
from game.friends.codes.card import CARD, DAYS_CARD, Addressed, card_in
from game.friends.codes.invite import INVITE, contest_in
from game.friends.codes.symbols import ALPHABET, CHECKS, END, HEAD, MAX_SYMBOLS, PREFIX, opened
from game.friends.contest import Contest

MAX_CODES = 5000
"""Different codes that are found in one text at most."""
MAX_READ = 1_000_000
"""Symbols of them altogether at most: five times as many as a thousand usual cards have."""
MAX_FAULTS = 50
"""Damaged codes that are told one by one; the rest is counted."""
_PIECE = 65_536
"""Characters that are looked at together."""
_LIKE = 8
"""Symbols that must follow a prefix, if no end mark does, for it to be told as a damaged code."""
_SHOWN = 12
"""Symbols of a damaged code that are told."""

_CAPITALS = {ord(letter): letter.upper() for letter in ascii_lowercase}
_NOTHING = re.compile(r"[\W_]+")
_HEAD = rf"(?= ?[{INVITE}{CARD}{DAYS_CARD}] ?\d)"
_PREFIX = " ?".join(PREFIX)
_START = re.compile(rf"(?<!\S){PREFIX}|{PREFIX}{_HEAD}|(?<!\S){_PREFIX}{_HEAD}", re.ASCII)
"""The prefix as a word of its own; or with what must follow, glued to other text or broken up."""
_BODY = re.compile(f"[{ALPHABET} ]*")
_END = re.compile(rf"{' ?'.join(END)}(?!\S)|{' ?'.join(END)}(?={_PREFIX})")
_LONGEST_MARK = 2 * max(len(PREFIX) + 2, len(END) + len(PREFIX))


@dataclass(frozen=True)
class Findings:
    """What was found, each once, in the order of the text.

    faults: codes that cannot be read; more: how many of them are left out.
    """

    invites: tuple[Contest, ...]
    cards: tuple[Addressed, ...]
    faults: tuple[CodeError, ...]
    more: int


def find(pieces: Iterable[str]) -> Findings:
    """All invites and cards in a text that comes in pieces, cut anywhere.

    Raises CodeError for more than `MAX_CODES` different ones, or `MAX_READ` symbols of them.
    """
    found: dict[Contest | Addressed, None] = {}
    known: set[str] = set()
    faults: list[CodeError] = []
    more = read = 0
    for code, fault, line in _codes(pieces):
        if fault and len(faults) == MAX_FAULTS:
            more += 1
            continue
        if code in known and not fault:
            continue
        read += len(code)  # damaged ones too: looking into them takes as long
        try:
            found[_carried(code, fault)] = None
            known.add(code)
        except CodeError as error:
            if len(faults) < MAX_FAULTS:
                error.line = line
                faults.append(error)
            else:
                more += 1
        if len(known) > MAX_CODES:
            raise CodeError(f"more than {MAX_CODES} invites and cards in one text")
        if read > MAX_READ:
            raise CodeError(f"invites and cards of more than {MAX_READ} symbols in one text")
    invites = tuple(one for one in found if isinstance(one, Contest))
    cards = tuple(one for one in found if isinstance(one, Addressed))
    return Findings(invites, cards, tuple(faults), more)


def read_invite(text: str) -> Contest:
    """The one invite in a text. Raises CodeError if the text has no invite, or several."""
    found = find([text])
    _only(len(found.invites), "invite", found)
    return found.invites[0]


def read_card(text: str) -> Addressed:
    """The one card in a text. Raises CodeError if the text has no card, or several."""
    found = find([text])
    _only(len(found.cards), "card", found)
    return found.cards[0]


def _only(count: int, what: str, found: Findings) -> None:
    if count > 1:
        raise CodeError(f"{count} {what}s where one is expected")
    if found.faults:
        raise found.faults[0]
    if not count:
        raise CodeError(f"no {what} in this text: one begins with {PREFIX} and ends with {END}")


def _carried(code: str, fault: str) -> Contest | Addressed:
    """What a code without its marks carries. Raises CodeError, which tells how it begins."""
    try:
        if fault:
            raise CodeError(fault)
        kind, number = opened(code)
        if kind == INVITE:
            return contest_in(number)
        if kind in (CARD, DAYS_CARD):
            return card_in(kind, number)
        raise CodeError("neither an invite nor a card")
    except (CodeError, ContestError, PositionError) as error:
        told = type(error) if isinstance(error, CodeError) else CodeError
        beginning = f"the code that begins {PREFIX}{code[:_SHOWN]}"
        raise told(f"{beginning}: {error}") from None


def _codes(pieces: Iterable[str]) -> Iterator[tuple[str, str, int]]:
    """Each code in the text: in capitals without marks, what is wrong with it, its line."""
    kept = " "
    before = 0  # letters and digits before what is kept
    lines = _Lines()
    for piece in chain(_cut(pieces), [None]):
        is_last = piece is None
        lines.add(piece or "")
        text = _NOTHING.sub(" ", kept + (piece or "  ").translate(_CAPITALS))
        at = 1
        while start := _START.search(text, at):
            body = _BODY.match(text, start.end())
            assert body is not None  # it may be empty
            code = body[0].replace(" ", "")
            line = lines.of(before + _count(text, start.start()))
            looked_at = max(body.end(), start.end() + 4 * _LIKE)
            if len(code) > MAX_SYMBOLS:
                yield code[:_SHOWN], "longer than any", line
            elif len(text) - looked_at <= _LONGEST_MARK and not is_last:
                left = start.start() - 1
                break
            elif end := _END.match(text, body.end()):
                if len(code) >= HEAD + CHECKS:
                    yield code, "", line
                at = end.end()
                continue
            elif _is_like_a_code(text[start.end() : start.end() + 4 * _LIKE]):
                yield code[:_SHOWN], f"cut off or damaged, no {END} at its end", line
            at = body.end()
        else:
            left = max(at, len(text) - _LONGEST_MARK) - 1
        before += _count(text, left)
        kept = text[left:]
        lines.forget(before)


def _is_like_a_code(text: str) -> bool:
    """Whether what follows a prefix looks like a code, one character of which may be wrong.

    The prefix may be a mere word of the talk, after which other words come, or a date.
    """
    following = text.replace(" ", "")
    count = 2 * _LIKE if following[:_LIKE].isdigit() else _LIKE
    if len(following) < count:
        return False
    return sum(character not in ALPHABET for character in following[:count]) <= 1


def _count(text: str, end: int) -> int:
    """Letters and digits before a place of a text in which all else is a blank."""
    return end - text.count(" ", 0, end)


class _Lines:
    """In which line of a text each of its letters and digits stands, counted from 0."""

    def __init__(self) -> None:
        self._firsts = array("Q", [0])  # of each line that has any
        self._numbers = array("Q", [1])
        self._line, self._count = 1, 0

    def add(self, piece: str) -> None:
        """The text goes on."""
        for at, part in enumerate(piece.split("\n")):
            if at:
                self._line += 1
                if self._firsts[-1] == self._count:
                    self._numbers[-1] = self._line
                else:
                    self._firsts.append(self._count)
                    self._numbers.append(self._line)
            self._count += len(_NOTHING.sub("", part))

    def of(self, number: int) -> int:
        """The line of a letter or digit."""
        return self._numbers[bisect_right(self._firsts, number) - 1]

    def forget(self, number: int) -> None:
        """Nothing is asked any more of those before this one."""
        gone = bisect_right(self._firsts, number) - 1
        del self._firsts[:gone], self._numbers[:gone]


def _cut(pieces: Iterable[str]) -> Iterator[str]:
    """The same text in pieces that are neither too large nor, but for the last, small."""
    waiting: list[str] = []
    size = 0
    for piece in pieces:
        for start in range(0, len(piece), _PIECE):
            part = piece[start : start + _PIECE]
            waiting.append(part)
            size += len(part)
            if size >= _PIECE:
                yield "".join(waiting)
                waiting, size = [], 0
    yield "".join(waiting)
