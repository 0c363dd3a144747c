"""Pace: how a run stands beside the best one of its kind, while it goes on."""

from __future__ import annotations

from collections.abc import Iterable

from game.modes import DASH
from game.play.times import written
from game.prose import counted
from game.runs.run import Run


def best(runs: Iterable[Run]) -> Run | None:
    """The best of some runs of one kind; None where none is ranked."""
    ranked = [run for run in runs if run.score is not None]
    return min(ranked, key=lambda run: run.score or (0, 0), default=None)


def is_record(run: Run, before: Run | None) -> bool:
    """Whether a run is ranked, and better than the best one before it."""
    if run.score is None:
        return False
    return before is None or before.score is None or run.score < before.score


def pace_words(run: Run, beside: Run | None, now: int) -> str:
    """How a run stands after `now` hundredths at the position in hand; nothing without another."""
    if beside is None:
        return ""
    if run.terms.mode == DASH:
        behind = time_behind(run, beside, now)
        if behind is None:
            return ""
        return _told(f"{written(abs(behind))} s", behind)
    behind = positions_behind(run, beside, now)
    return _told(counted(abs(behind), "position"), behind)


def time_behind(run: Run, beside: Run, now: int) -> int | None:
    """How much later a dash is than another at the same position; less than nothing: earlier.

    From the position before, until more time has passed than the other had at the end of this one.
    None before anything can be told.
    """
    over, splits = len(run.done), beside.splits
    total = run.total + now
    if over < len(splits) and total > splits[over]:
        return total - splits[over]
    return run.total - splits[over - 1] if 0 < over <= len(splits) else None


def positions_behind(run: Run, beside: Run, now: int) -> int:
    """How many positions fewer an hourglass has than another had at the same time."""
    time = run.total + now
    in_time = zip(beside.splits, beside.counts, strict=True)
    return sum(counts and split <= time for split, counts in in_time) - run.solved


def _told(much: str, behind: int) -> str:
    if not behind:
        return "level with your best"
    return f"{much} {'behind' if behind > 0 else 'ahead of'} your best"
