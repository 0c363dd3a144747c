"""Times in hundredths of a second: cut, rounded and written as the WCA Regulations say (9f).

9f1: a result of up to ten minutes is cut to the hundredth, a mean rounded to it. 9f2: over ten
minutes both are rounded to the second, a half upwards.
"""

from __future__ import annotations

from collections.abc import Sequence

TEN_MINUTES = 60_000
MAX_HUNDREDTHS = 2**26 - 1
"""Hundredths of a second of a time at most: more than a week."""


def cut(ms: int) -> int:
    """Milliseconds as hundredths, what is beyond them cut off; no more than a result can have."""
    return min(ms // 10, MAX_HUNDREDTHS)


def cut_both(seeing_ms: int, doing_ms: int) -> tuple[int, int]:
    """Seeing and doing in hundredths, which add up to the whole time, cut once."""
    seeing = cut(seeing_ms)
    return seeing, cut(seeing_ms + doing_ms) - seeing


def result(hundredths: int) -> int:
    """A time as it stands in a result: over ten minutes rounded to the second."""
    return _over_ten_minutes(hundredths)


def mean(times: Sequence[int]) -> int:
    """The mean of some times, rounded to the hundredth, a half upwards; at least one time."""
    return _over_ten_minutes((2 * sum(times) + len(times)) // (2 * len(times)))


def written(hundredths: int) -> str:
    """12.67, 1:02.34, 12:05: minutes where there are any, no hundredths over ten minutes."""
    time = result(hundredths)
    minutes, rest = divmod(time, 6000)
    if hundredths > TEN_MINUTES:
        return f"{minutes}:{rest // 100:02}"
    seconds = f"{rest // 100}.{rest % 100:02}"
    return f"{minutes}:{seconds:>05}" if minutes else seconds


def _over_ten_minutes(hundredths: int) -> int:
    return (hundredths + 50) // 100 * 100 if hundredths > TEN_MINUTES else hundredths
