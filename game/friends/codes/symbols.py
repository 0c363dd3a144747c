"""A whole number as symbols of an alphabet of 31, with check symbols, between two marks.

    EPAIR   V1 0B7K2Y5 ... 7K3Q   OVER
    prefix  symbols               end mark

The symbols are the digits and the consonants: 31, a prime, so they are the numbers of a field. The
first says what is carried, the second is the version; the last four are chosen so that all of them,
as coefficients of a polynomial, make it zero at the first four powers of a root (I. S. Reed and G.
Solomon, 1960). One symbol that is another adds a multiple of a power of the root, which is never
zero: so it is always noticed, as are four of thirty running; of other damage, one in a million is
not. The count of symbols is even, so that one character which is no longer a symbol, or newly one,
is always noticed too. Prefix and end mark hold two vowels or more: one wrong character among the
symbols makes neither.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from game.errors import CodeError, CodeNewer

PREFIX, END = "EPAIR", "OVER"
ALPHABET = "0123456789BCDFGHJKLMNPQRSTVWXYZ"
FIELD = len(ALPHABET)
ROOT = 3
"""Its powers are all the numbers of the field but nought."""
CHECKS = 4
HEAD = 2
"""Symbols before the number: what is carried, and the version."""
VERSION = 1
MAX_SYMBOLS = 50_000
"""Symbols at most; the longest line at every one of the most positions takes less."""

_NUMBER = {character: number for number, character in enumerate(ALPHABET)}
_AT_ONCE = 6
"""Symbols that are taken from a large number together: 31^6 still is a small one."""


def sealed(kind: str, number: int) -> str:
    """A number that is not negative as a code of a kind, which is a character of the alphabet."""
    digits = _digits(number)
    symbols = [_NUMBER[kind], VERSION, *([0] if len(digits) % 2 else []), *digits]
    symbols += checks(symbols, FIELD, ROOT, CHECKS)
    return PREFIX + "".join(ALPHABET[symbol] for symbol in symbols) + END


def opened(text: str) -> tuple[str, int]:
    """The kind and the number of a code, handed in without its marks, in capitals.

    Raises CodeError for anything damaged, and CodeNewer for a code of a later version.
    """
    if len(text) > MAX_SYMBOLS:
        raise CodeError(f"{len(text)} characters; a code has at most {MAX_SYMBOLS}")
    try:
        symbols = [_NUMBER[character] for character in text]
    except KeyError as error:
        raise CodeError(f"{error.args[0]!r} cannot be in a code") from None
    whole = len(symbols) >= HEAD + CHECKS and len(symbols) % 2 == 0
    if not whole or checks(symbols[:-CHECKS], FIELD, ROOT, CHECKS) != symbols[-CHECKS:]:
        raise CodeError("a character of the code is wrong, missing or too many")
    if symbols[1] > VERSION:
        raise CodeNewer("a later version of Pairwright wrote this code")
    if symbols[1] < VERSION:
        raise CodeError("no version of Pairwright writes such a code")
    return text[0], _number(symbols[HEAD:-CHECKS])


def checks(symbols: Iterable[int], field: int, root: int, count: int) -> list[int]:
    """The symbols to put after these: the whole is then zero at root, root^2 ... root^count.

    What remains of the polynomial, divided by the one with these zeros, is taken from nought.
    field: a prime; root: one of its primitive roots; symbols: numbers below `field`.
    """
    divisor = [1]  # its coefficients, that of the highest power first
    for power in range(1, count + 1):
        zero = pow(root, power, field)
        by_x, by_zero = [*divisor, 0], [0, *divisor]
        divisor = [(a - zero * b) % field for a, b in zip(by_x, by_zero, strict=True)]
    rest = [0] * count
    for symbol in symbols:
        lead = symbol + rest[0]
        shifted = (*rest[1:], 0)
        rest = [(a - lead * b) % field for a, b in zip(shifted, divisor[1:], strict=True)]
    return [-number % field for number in rest]


def _digits(number: int) -> list[int]:
    """The number in base 31, the highest digit first."""
    found: list[int] = []
    while number:
        number, block = divmod(number, FIELD**_AT_ONCE)
        for _ in range(_AT_ONCE):
            block, digit = divmod(block, FIELD)
            found.append(digit)
    while found and not found[-1]:
        found.pop()
    return found[::-1]


def _number(digits: Sequence[int]) -> int:
    """The number that has these digits in base 31."""
    number = 0
    first = len(digits) % _AT_ONCE
    for start in range(first - _AT_ONCE, len(digits), _AT_ONCE):
        block = 0
        for digit in digits[max(0, start) : start + _AT_ONCE]:
            block = block * FIELD + digit
        number = number * FIELD**_AT_ONCE + block
    return number
