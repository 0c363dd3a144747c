"""The stages of a line as signs under its turns, and as a small table. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from game.play.stages import STAGES, PairStages, Stages

SIGNS = {"freed": "▴", "lined up": "=", "joined": "&", "slotted": "▾"}
"""The sign under the turn that leads to a stage; that of *joined* stands while a pair is joined."""
_NEVER = "-"
_JOINED = "joined"


def signs_of(found: Stages) -> list[str]:
    """For each move the sign under it, or nothing: of the stage that comes last in `STAGES`."""
    signs = [""] * len(found.line)
    reached: list[tuple[int, str]] = []
    for pair in found.pairs:
        reached += [(turn, stage) for turn, stage in zip(pair.turns, STAGES, strict=True) if turn]
        ends = (*pair.breaks, len(signs) + 1)
        for start, end in zip(pair.joins, ends, strict=False):
            reached += [(turn, "joined") for turn in range(max(start, 1), end)]
    for turn, stage in sorted(reached, key=lambda item: STAGES.index(item[1])):
        signs[turn - 1] = SIGNS[stage]
    return signs


def named_joined(row: str, width: int) -> str:
    """A row of signs with the word beside the first sign of a joined pair that leaves it room.

    width: columns that the row may take.
    """
    for at, sign in enumerate(row):
        after = at + 2
        end = after + len(_JOINED)
        if sign == SIGNS[_JOINED] and end <= width and not row[at + 1 : end + 1].strip():
            return f"{row[: at + 1]} {_JOINED}{row[end:]}"
    return row


def stage_table(lines: Iterable[tuple[str, Stages]]) -> list[str]:
    """The turns at which the pairs in play of each named line come to their stages.

    Of one pair each line has a row, under a heading; of several, each line has a heading of its
    own, and under it a row for each pair. 0 is the start; what a line does not come to is a dash,
    and so is *freed* where nothing was trapped.
    """
    named = list(lines)
    if any(len(found.pairs) > 1 for _, found in named):
        rows = [
            [_row(name, STAGES), *(_row(f"  {pair.slot}", _turns(pair)) for pair in found.pairs)]
            for name, found in named
        ]
        return [row for part in rows for row in part]
    pairs = [_row(name, _turns(pair)) for name, found in named for pair in found.pairs]
    return [_row("turn", STAGES), *pairs]


def _turns(pair: PairStages) -> list[str]:
    freed, *others = pair.turns
    return [_NEVER if turn is None else str(turn) for turn in (freed or None, *others)]


def _row(name: str, cells: Iterable[str]) -> str:
    ends = (f"{cell:>{len(stage)}}" for cell, stage in zip(cells, STAGES, strict=True))
    return f"{name:<8}" + " ".join(ends)
