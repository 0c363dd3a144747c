"""What comes of a position that was played in a round: its times, its result, its call."""

from __future__ import annotations

from game.play.inspection import LOSES_MS, seeing_ms
from game.play.result import Result
from game.play.sitting import GAVE_UP, LOST, SOLVED, Sitting
from game.play.times import cut_both


def times_ms(sitting: Sitting, moment: float, inspected: int) -> tuple[int, int]:
    """Milliseconds until the first turn, and from there to the end, however it ended.

    moment: of the end; inspected: milliseconds before the clock ran. A position that was lost took
    all the time that there is to inspect it: so an hourglass ends where nobody plays on.
    """
    if sitting.outcome == LOST:
        return LOSES_MS, 0
    attempt = sitting.attempt
    end = (attempt.solved_ms if attempt.is_solved else sitting.ms(moment)) or 0
    seeing = attempt.seeing_ms if attempt.seeing_ms is not None else end
    gave_up = sitting.outcome == GAVE_UP
    return seeing_ms(seeing, inspected, gave_up=gave_up), end - seeing


def result(sitting: Sitting, times: tuple[int, int], added: int) -> Result:
    """What is handed on. times: of `times_ms`; added: seconds that inspection costs."""
    seeing, doing = cut_both(*times)
    return Result(
        line=sitting.attempt.written,
        seeing=seeing,
        doing=doing,
        called=bool(sitting.called),
        solved=sitting.outcome == SOLVED,
        inspection=added,
    )


def call_text(sitting: Sitting, par: int | None) -> str:
    """The call as it is kept: whether it is right, as far as that is known."""
    from game.records import CLAIMED  # noqa: PLC0415 - SQLite when it is needed

    if not sitting.called:
        return ""
    if par is None:
        return CLAIMED
    return "right" if sitting.attempt.turns <= par else "wrong"
