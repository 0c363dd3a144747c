"""The marks of a puzzle as one short sign: solved, at hand, at par, and called rightly.

    ●●○ ●     solved, at hand, not at par; called rightly

The same signs stand before the marks in words, when an attempt is over.
"""

from __future__ import annotations

from collections.abc import Collection

from textual.content import Content

from game.play.score import Mark
from game.records.record import Best

MARKS_WIDTH = 5
ON, OFF = "●", "○"
"""The signs of a mark that was earned, and of one that was not."""


def earned(best: Best | None) -> tuple[Mark, ...]:
    """The marks ever earned at a position."""
    if best is None:
        return ()
    flags = (best.solved, best.at_hand, best.at_par, best.called)
    return tuple(mark for mark, has in zip(Mark, flags, strict=True) if has)


def marks_content(marks: Collection[Mark]) -> Content:
    """Three signs, a space, and the sign of a right call or a space."""
    three = (m for m in Mark if m is not Mark.CALLED)
    parts = [(ON, "$accent") if mark in marks else (OFF, "$muted") for mark in three]
    return Content.assemble(*parts, " ", (ON if Mark.CALLED in marks else " ", "$accent"))
