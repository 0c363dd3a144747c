"""Numbers and lists in plain English."""

from __future__ import annotations

from collections.abc import Iterable

_NUMERALS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def numeral(count: int) -> str:
    """A count in words, "no" to "ten"; in digits beyond."""
    return _NUMERALS[count] if count < len(_NUMERALS) else str(count)


def counted(count: int, noun: str) -> str:
    """ "one turn", "two turns"."""
    return f"{numeral(count)} {noun}{'' if count == 1 else 's'}"


def tallied(count: int, noun: str, plural: str = "") -> str:
    """The same in digits: "1 turn", "2 turns". plural: where it is more than the noun and an s."""
    return f"{count} {noun if count == 1 else plural or noun + 's'}"


def listed(words: Iterable[str]) -> str:
    """ "a", "a and b", "a, b and c"; at least one."""
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last
