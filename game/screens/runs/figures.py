"""The figures of a timed run: its headline, and a row a position with its picture. Pure.

    #   seeing  doing  turns   par  added  beside
    1     2.31   4.02      5     4   0.50   -0.84  ▒▒▒▒█████████▓

A row's bar is as long as the position took: seeing, doing, and what was added.
"""

from __future__ import annotations

from textual.content import Content

from game.modes import DASH
from game.play.times import mean, written
from game.prose import counted
from game.runs import Done, Run

Part = str | tuple[str, str]
Parts = list[Part]

MUTED, STRONG, VALUE, WARN = "$muted", "bold", "$accent", "$warning"
SEEN, DONE, ADDED = "▒", "█", "░"
"""How seeing, doing and what was added are drawn in the bar."""
POINTER = "▸"
BAR_LEAST = 8
WITHOUT_BESIDE = 60
"""Columns up to which the comparison with the best gives way to the bar."""


def signed(hundredths: int) -> str:
    """A difference: "+0.84", "-1.20"."""
    return f"{'-' if hundredths < 0 else '+'}{written(abs(hundredths))}"


def headline(run: Run, beside: Run | None, *, is_record: bool) -> Content:
    """What the run came to; how it stands beside the best of its kind before it."""
    rows: list[Parts] = [_outcome(run), _sums(run)]
    said = _verdict(run, beside, is_record)
    if said:
        rows.append([(said, VALUE if is_record else MUTED)])
    return _lines(rows)


def _outcome(run: Run) -> Parts:
    if not run.is_finished:
        return [(f"Left after {counted(len(run.done), 'position')}", STRONG)]
    if run.terms.mode != DASH:
        return [(f"{counted(run.solved, 'position')} in time".capitalize(), f"{STRONG} {VALUE}")]
    if run.solved < len(run.done):
        whole = f"{run.solved} of {len(run.done)} solved"
        return [(f"No time: {whole}", STRONG)]
    return [(f"{written(run.total)} s", f"{STRONG} {VALUE}")]


def _sums(run: Run) -> Parts:
    added = f"{run.added / 100:.2f}" if run.is_settled else "not yet known"
    parts: Parts = [("on the clock ", MUTED), written(run.clock), (" + added ", MUTED), added]
    solved = [done for done in run.done if done.solved]
    if solved:
        parts += [("   a position: seeing ", MUTED), written(mean([d.seeing for d in solved]))]
        parts += [(", doing ", MUTED), written(mean([d.doing for d in solved]))]
    return parts


def _verdict(run: Run, beside: Run | None, is_record: bool) -> str:
    if not run.is_finished:
        return ""
    if not run.is_settled:
        return "Par is still being searched; the result waits for it."
    if run.breaks:
        return "It was left and taken up again, so it is not compared with others."
    if beside is None or beside.score is None:
        return "The first of its kind." if is_record else ""
    return _beside(run, beside, is_record)


def _beside(run: Run, best: Run, is_record: bool) -> str:
    """A run beside the best one before it."""
    if run.terms.mode == DASH:
        less = f"{written(best.total - run.total)} s" if is_record else f"{written(best.total)} s"
    else:
        more = run.solved - best.solved
        less = counted(more, "position") if is_record else counted(best.solved, "position")
        if is_record and not more:
            return "Your best of its kind: as many, but sooner."
    return f"Your best of its kind, by {less}." if is_record else f"Your best: {less}."


def table(run: Run, beside: Run | None, width: int, *, marked: int | None = None) -> Content:
    """A row a position: number, times, turns, par, what was added, the difference, a bar.

    marked: the row with the pointer.
    """
    splits = beside.splits if beside is not None and width > WITHOUT_BESIDE else ()
    head = f"{'':>2}{'seeing':>8}{'doing':>8}{'turns':>7}{'par':>5}{'added':>7}"
    head += f"{'beside':>8}" if splits else ""
    rows: list[Parts] = [[(head, MUTED)]]
    room = max(BAR_LEAST, width - len(head) - 2)
    longest = max((d.clock + d.added(run.terms.added) for d in run.done), default=0)
    for at, done in enumerate(run.done):
        rows.append(_row(run, at, done, splits, POINTER if at == marked else " "))
        rows[-1] += ["  ", *_bar(done, done.added(run.terms.added), longest, room)]
    return _lines(rows)


def _row(run: Run, at: int, done: Done, splits: tuple[int, ...], sign: str) -> Parts:
    par = "?" if done.par is None and done.solved else "-" if done.par is None else str(done.par)
    added = done.added(run.terms.added)
    parts: Parts = [
        (f"{at + 1:>2}", MUTED),
        (sign, VALUE),
        f"{written(done.seeing):>7}{written(done.doing):>8}",
    ]
    if not run.counts[at]:
        is_lost = run.terms.inspection and done.took_inspection
        word = "too late" if done.solved else "lost: 17 s" if is_lost else "unsolved"
        parts.append((f"{word:>12}{'':>7}", WARN))
    else:
        over = WARN if done.over else ""
        parts += [(f"{done.turns:>7}", over), (f"{par:>5}", MUTED)]
        parts.append((f"{f'{added / 100:.2f}' if added else '-':>7}", over or MUTED))
    if splits:
        told = signed(run.splits[at] - splits[at]) if at < len(splits) else ""
        parts.append((f"{told:>8}", "$success" if told.startswith("-") else MUTED))
    return parts


def _bar(done: Done, added: int, longest: int, room: int) -> Parts:
    """Seeing, doing and what was added, one after another."""
    if not longest:
        return []
    ends = [room * part / longest for part in (done.seeing, done.clock, done.clock + added)]
    seen, clock, whole = (round(end) for end in ends)
    return [
        (SEEN * seen, MUTED),
        (DONE * (clock - seen), VALUE),
        (ADDED * (whole - clock), WARN),
    ]


def legend() -> Content:
    """What the parts of a bar are."""
    parts = ((SEEN, MUTED), " seeing  ", (DONE, VALUE), " doing  ", (ADDED, WARN), " added")
    return Content.assemble(*parts)


def _lines(rows: list[Parts]) -> Content:
    return Content("\n").join(Content.assemble(*row) for row in rows)
