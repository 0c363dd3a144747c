"""Inspection before a start, by the WCA Regulations, A3 and A4 (version of 1 April 2026).

A start in less than 15 seconds is good; from 15.00 on two seconds are added; from 17.00 on there
is no result. The one who inspects is warned after 8 and after 12 seconds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

ADDS_MS, LOSES_MS = 15_000, 17_000
"""Milliseconds of inspection: from the first on a start costs, from the second on it is lost."""
PENALTY = 2
"""Seconds added for a start between 15 and 17 seconds after inspection began (WCA A4d1)."""
LOST_WORDS = f"Lost: over {LOSES_MS // 1000} seconds of inspection."
"""What is said after a position that was lost in its inspection."""
WARNINGS = (8, 12)
"""Seconds after which a word is said."""


def seconds_added(ms: int) -> int | None:
    """Seconds that a start after so many milliseconds of inspection costs; None: it is lost."""
    if ms >= LOSES_MS:
        return None
    return PENALTY if ms >= ADDS_MS else 0


def seeing_ms(ms: int, inspected: int, *, gave_up: bool) -> int:
    """Milliseconds of seeing, where `ms` are on the clock and so many were inspected before.

    Inspection is free for whoever goes on to play the position. One that is given up costs what
    was inspected of it too: else one could look at position after position and wait for easy ones.
    """
    return ms + inspected if gave_up else ms


def inspection_words(ms: int) -> str:
    """What is said to the one who inspects."""
    seconds = ms // 1000
    if ms >= ADDS_MS:
        return f"Inspection {seconds} s: {PENALTY} seconds are added"
    said = [f"{second} seconds" for second in WARNINGS if second <= seconds < second + 2]
    return f"Inspection {seconds} s" + (f": {said[0]}!" if said else "")


@dataclass(frozen=True)
class Inspection:
    """One inspection, as its clock sees it. Moments are seconds that only grow.

    since: the moment at which it began; warned: how many of the warnings were given; ended: the
    moment at which it ended, None while it goes on; starts: whether it ended with a start.
    """

    since: float
    warned: int = 0
    ended: float | None = None
    starts: bool = True

    def ms(self, moment: float) -> int:
        """Milliseconds that it has taken, up to this moment or to its end."""
        return int(((moment if self.ended is None else self.ended) - self.since) * 1000)

    @property
    def goes_on(self) -> bool:
        """Whether it has not ended."""
        return self.ended is None

    def is_too_late(self, moment: float) -> bool:
        """Whether there is no time left to start in."""
        return self.goes_on and self.ms(moment) >= LOSES_MS

    def warn(self, moment: float) -> Inspection:
        """With the warnings that are due by now; another value than before if one was due."""
        passed = sum(second * 1000 <= self.ms(moment) for second in WARNINGS)
        return self if passed <= self.warned else replace(self, warned=passed)

    def end(self, moment: float, *, starts: bool = True) -> Inspection:
        """Ended at this moment, unless it has ended before. starts: False where it is given up."""
        return self if not self.goes_on else replace(self, ended=moment, starts=starts)

    @property
    def taken_ms(self) -> int:
        """Milliseconds that it took; 0 while it goes on."""
        return 0 if self.ended is None else self.ms(self.ended)

    @property
    def added(self) -> int | None:
        """Seconds that the start costs; None where it is lost, or there was none."""
        return None if self.ended is None or not self.starts else seconds_added(self.taken_ms)
