"""What the playing screen's keys are called, state by state: pure."""

from __future__ import annotations

from game.play.sitting import SOLVED, Sitting

_TURNING = ("undo", "restart", "type", "pad", "far")
"""What is of no use once an attempt is over."""


def key_label(action: str, sitting: Sitting, *, reveal: bool) -> str | None:
    """The label of a command now; None as usual, and nothing where it is left out.

    reveal: whether the solutions are in view.
    """
    left_out: tuple[str, ...] = ("go", "call", "again")
    renamed: dict[str, str] = {}
    if sitting.is_calling:
        left_out, renamed = (*_TURNING, "show", "hint", "again", "next"), {"go": "show par"}
    elif sitting.outcome:
        goes = "watch" if reveal else after(sitting)
        left_out = (*_TURNING, "call", goes)
        renamed = {"go": goes, "show": "" if reveal else "show", "hint": "shorter way?"}
    return "" if action in left_out else renamed.get(action)


def after(sitting: Sitting) -> str:
    """What Enter does after an attempt: "next" when nothing is left to find, else "again".

    While par is not known there is nothing to stay for: it is added to the record later.
    """
    score = sitting.score
    is_done = sitting.outcome == SOLVED and (score is None or score.at_par)
    return "next" if is_done else "again"
