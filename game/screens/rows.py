"""The rows of the map: packs with what was solved in them, levels with the player's best.

    First Turns          2/5        The Open Door +1     FR   3    3    1.2 ●●●

Each row is made for the width of its list.
"""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size
from textual.content import Content

from game.cube.pair import SLOTS
from game.packs import Pack, Puzzle
from game.records.record import Best
from game.screens.clock_view import time_text
from game.screens.marks import MARKS_WIDTH, earned, marks_content
from game.screens.tally import Tally

SLOT_WIDTH, PAR_WIDTH, TURNS_WIDTH, TIME_WIDTH = 6, 4, 5, 7
FIXED_WIDTH = SLOT_WIDTH + PAR_WIDTH + TURNS_WIDTH + TIME_WIDTH + 1 + MARKS_WIDTH
TWIN_INDENT = "  "


def fit(text: str, width: int) -> str:
    """The text in exactly that many columns, its end replaced by dots where it is too long."""
    if cell_len(text) <= width:
        return set_cell_size(text, width)
    return set_cell_size(text, max(0, width - 2)) + ".."[: max(0, width)]


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
    name = fit("level", width - FIXED_WIDTH)
    columns = (("slot", SLOT_WIDTH), ("par", PAR_WIDTH), ("best", TURNS_WIDTH))
    text = "".join(f"{head:>{columns_}}" for head, columns_ in columns)
    return Content.styled(f"{name}{text}{'doing':>{TIME_WIDTH}} marks", "$muted")


def level_row(puzzle: Puzzle, best: Best | None, width: int, *, hides_par: bool) -> Content:
    """A level, or a twin under its level: slot, par, best turns and doing time, marks."""
    if puzzle.twin:
        name, more = f"{TWIN_INDENT}{twin_words(puzzle.twin)}", ""
    else:
        name, more = puzzle.level.name, f" +{len(puzzle.level.twins)}" * bool(puzzle.level.twins)
    room = width - FIXED_WIDTH
    shown = fit(name, min(room - len(more), cell_len(name)))
    rest = " " * (room - cell_len(shown) - len(more))
    par = "?" if hides_par else str(puzzle.par)
    turns = "" if best is None or best.turns is None else str(best.turns)
    time = "" if best is None or best.doing_ms is None else time_text(best.doing_ms)
    return Content.assemble(
        (shown, "$muted" if puzzle.twin else ""),
        (f"{more}{rest}{pairs_text(puzzle.position.pairs):>{SLOT_WIDTH}}", "$muted"),
        f"{par:>{PAR_WIDTH}}{turns:>{TURNS_WIDTH}}{time:>{TIME_WIDTH}} ",
        marks_content(earned(best)),
    )


def pairs_text(pairs: tuple[str, ...]) -> str:
    """The slots of the pairs in play, short: "FR", "FR+BL", "all 4"."""
    if len(pairs) == len(SLOTS):
        return "all 4"
    return "+".join(pairs) if len(pairs) < 3 else f"{len(pairs)} of 4"


def twin_words(twin: str) -> str:
    """What a twin is called: "left-right twin"."""
    return f"{twin} twin"
