"""Numbers, times and lists in plain English."""

from __future__ import annotations

from collections.abc import Iterable

_NUMERALS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def numeral(count: int) -> str:
    """A count in words, "no" to "ten"; in digits beyond."""
    return _NUMERALS[count] if count < len(_NUMERALS) else str(count)


def counted(count: int, noun: str) -> str:
    """ "one turn", "two turns"."""
    return f"{numeral(count)} {noun}{'' if count == 1 else 's'}"


def listed(words: Iterable[str]) -> str:
    """ "a", "a and b", "a, b and c"; at least one."""
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def seconds_text(hundredths: int) -> str:
    """Hundredths of a second as "3.41" or "1:02.34"; from an hour on as "1:00:02.34"."""
    minutes, rest = divmod(hundredths, 6000)
    seconds = f"{rest // 100}.{rest % 100:02}"
    if not minutes:
        return seconds
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:>05}" if hours else f"{minutes}:{seconds:>05}"
