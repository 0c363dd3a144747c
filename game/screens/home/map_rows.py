"""The rows of the map: packs with what was solved in them, levels with the player's best.

    First Turns          2/5        The Open Door +1     FR   3    3    1.2 ●●●

Each row is made for the width of its list.
"""

from __future__ import annotations

from rich.cells import cell_len
from textual.content import Content

from game.cube.pair import SLOTS
from game.packs import Pack, Puzzle
from game.records.record import Best
from game.screens.shared.clock_view import time_text
from game.screens.shared.fitting import fit
from game.screens.shared.marks import MARKS_WIDTH, earned, marks_content
from game.screens.statistics.tally import Tally

SLOT_WIDTH, PAR_WIDTH, TURNS_WIDTH, TIME_WIDTH = 6, 4, 5, 7
SHORT_WIDTH = 44
"""Rows narrower than this tell only par and marks beside the name."""
TWIN_INDENT = "  "
SHOWN = "shown"
"""In place of the marks, and as wide."""


def pack_row(pack: Pack, tally: Tally, width: int) -> Content:
    """A pack's title and how many of its levels are solved."""
    count = f"{tally.solved}/{tally.levels}"
    if tally.at_par == tally.levels:
        style = "$accent"
    elif tally.solved == tally.levels:
        style = "$success"
    else:
        style = "$muted"
    return Content.assemble(fit(pack.title, width - len(count) - 1), " ", (count, style))


def level_head(width: int) -> Content:
    """The headings over the levels."""
    return Content.styled(
        _columns("level", ("slot", "par", "best", "doing"), width) + "marks", "$muted"
    )


def level_row(
    puzzle: Puzzle, best: Best | None, width: int, *, hides_par: bool, shown: bool = False
) -> Content:
    """A level, or a twin under its level: slot, par, best turns and doing time, marks.

    shown: its solutions have been seen; that is said while it was never solved.
    """
    twins = len(puzzle.level.twins)
    name = f"{TWIN_INDENT}{twin_words(puzzle.twin)}" if puzzle.twin else puzzle.level.name
    more = f" +{twins}" if twins and not puzzle.twin else ""
    facts = (
        pairs_text(puzzle.position.pairs),
        "?" if hides_par else str(puzzle.par),
        "" if best is None or best.turns is None else str(best.turns),
        "" if best is None or best.doing_ms is None else time_text(best.doing_ms),
    )
    text = _columns(name, facts, width, more)
    style = "$muted" if puzzle.twin else ""
    if shown and not (best is not None and best.solved):
        return Content.assemble((text, style), (SHOWN, "$muted"))
    return Content.assemble((text, style), marks_content(earned(best)))


def _columns(name: str, facts: tuple[str, str, str, str], width: int, more: str = "") -> str:
    """A row up to its marks; `more` follows the name, whatever the room."""
    widths = (SLOT_WIDTH, PAR_WIDTH, TURNS_WIDTH, TIME_WIDTH)
    shown = list(zip(facts, widths, strict=True))
    if width < SHORT_WIDTH:
        shown = shown[1:2]
    room = width - sum(columns for _, columns in shown) - 1 - MARKS_WIDTH
    cut = fit(name, min(room - cell_len(more), cell_len(name)))
    right = "".join(f"{fact:>{columns}}" for fact, columns in shown)
    return f"{fit(cut + more, room)}{right} "


def pairs_text(pairs: tuple[str, ...]) -> str:
    """The slots of the pairs in play, short: "FR", "FR+BL", "all 4"."""
    if len(pairs) == len(SLOTS):
        return "all 4"
    return "+".join(pairs) if len(pairs) < 3 else f"{len(pairs)} of 4"


def twin_words(twin: str) -> str:
    """What a twin is called: "left-right twin"."""
    return f"{twin} twin"
