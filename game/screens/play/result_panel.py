"""What is said when an attempt is over: turns against par, marks, one fact, the solutions."""

from __future__ import annotations

from functools import lru_cache

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static

from game.coach.comparison import compare, compared_words, fact
from game.coach.ways import Asked, pairs_words, way_words
from game.cube import line as lines
from game.cube.line import Line
from game.cube.moves import line_text
from game.play.score import Score
from game.play.sitting import SOLVED, Sitting
from game.play.stages import stages
from game.screens.shared.board_words import mark_rows, turns_words, verdict_words
from game.screens.shared.clock_view import time_text
from game.screens.shared.lists import ChoiceList
from game.screens.shared.marks import OFF, ON
from game.screens.shared.solution_row import solution_row
from game.screens.shared.stage_rows import stage_table

Parts = list[str | tuple[str, str]]

MANY = 3
"""Pairs in play from which on the note comes before the table of stages."""
LOOKING = "Looking for every shortest way ..."
SIGNS = {True: (ON, "$accent"), False: (OFF, "$muted"), None: ("?", "$muted")}
"""How a mark is drawn: earned, not earned, not known yet."""


class ResultPanel(VerticalScroll):
    """The panel beside the cube, in the place of what was asked."""

    can_focus = False

    class Chosen(Message):
        """The player wants to watch this solution of those shown."""

        def __init__(self, number: int) -> None:
            super().__init__()
            self.number = number

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._listed: tuple[Line, ...] = ()

    def compose(self) -> ComposeResult:
        """The verdict, the solutions once shown, the level's note, which may tell them."""
        yield Static(id="verdict")
        yield ChoiceList(eager=True, id="solutions")
        yield Static(id="compared")
        yield Static(id="ways")
        yield Static(id="note")

    def show(
        self,
        sitting: Sitting,
        note: str,
        *,
        reveal: bool,
        searching: str,
        ways: tuple[Asked, ...] = (),
        par: bool = True,
    ) -> None:
        """Say what the attempt has come to.

        searching: why solutions are not known yet, where there is a word to say. ways: what was
        asked of shorter ways.
        par: whether par is spoken of; without it nothing but the call is asked.
        """
        is_told = reveal or (sitting.score is not None and sitting.score.at_par)
        parts: dict[str, Parts] = {
            "#verdict": _headline(sitting) if ways else _verdict(sitting, reveal, searching, par),
            "#compared": [] if ways or not par else _compared(sitting, reveal),
            "#ways": _ways(ways),
            "#note": [note] if is_told and par and not (ways or sitting.is_calling) else [],
        }
        for selector, rows in parts.items():
            self.query_one(selector).display = bool(rows)
            self.query_one(selector, Static).update(Content.assemble(*rows))
        self._order(len(sitting.position.pairs) >= MANY)
        listing = self.query_one("#solutions", ChoiceList)
        listing.display = reveal and bool(sitting.solutions) and not ways
        if listing.display and self._listed != sitting.solutions:
            self._listed = sitting.solutions
            listing.set_options(map(solution_row, sitting.solutions))
            listing.highlighted = 0
        if listing.display and not listing.has_focus:
            listing.focus()

    def _order(self, many: bool) -> None:
        """Of many pairs the stages take so much room that they come last, under the note."""
        parts = list(self.children)
        note, table = self.query_one("#note"), self.query_one("#compared")
        if (parts.index(note) < parts.index(table)) != many:
            first, second = (note, table) if many else (table, note)
            self.move_child(second, after=first)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Watch it."""
        event.stop()
        self.post_message(self.Chosen(event.option_index))


_fact = lru_cache(maxsize=16)(fact)
_compare = lru_cache(maxsize=16)(compare)
"""Kept, since a result is shown again whenever something more is found."""


def _headline(sitting: Sitting) -> Parts:
    score, par = sitting.score, sitting.par
    if score is not None:
        words = verdict_words(score)
    elif sitting.outcome == SOLVED:
        words = f"Solved in {turns_words(sitting.attempt.turns)}"
    else:
        words = "Given up" if par is None else f"The shortest takes {turns_words(par)}"
    return [(words, "bold $accent")]


def _verdict(sitting: Sitting, reveal: bool, searching: str, par: bool) -> Parts:
    if sitting.is_calling or not par:
        return _question(sitting, par)
    score = sitting.score
    parts = _headline(sitting)
    if sitting.outcome == SOLVED and not reveal:
        parts += _waiting(sitting) if score is None else _marks(sitting, score)
        parts += _times(sitting)
        if score is not None and score.over and sitting.knows_all:
            parts += ["\n\n", _fact(sitting.position, sitting.attempt.line, sitting.solutions)]
    parts += _by_pairs(sitting)
    is_at_par = score is not None and score.at_par
    is_waiting = sitting.outcome == SOLVED and score is None
    if not sitting.solutions and (reveal or not is_at_par):
        words = searching or ("" if is_waiting else LOOKING)
        parts += ["\n\n", (words, "$muted")]
    elif reveal:
        one = len(sitting.solutions) == 1
        watches = f"Enter watches {'it' if one else 'the one marked'}."
        parts += [(f"\n\n{_kind(sitting)}\n{watches}", "$muted")]
    return parts


def _kind(sitting: Sitting) -> str:
    """What the solutions in view are."""
    if not sitting.knows_all:
        return "A shortest way; others are being looked for."
    one = len(sitting.solutions) == 1
    return "The only shortest way." if one else "Every shortest way, easiest first."


def _waiting(sitting: Sitting) -> Parts:
    """Said in place of the marks."""
    known = f": {sitting.at_least} or more" if sitting.at_least else ""
    return [(f"\n\nPar is still being searched{known}. Go on if you like: the record gets it.", "")]


def _by_pairs(sitting: Sitting) -> Parts:
    """The best total pair by pair, beside par."""
    found, par = sitting.by_pairs, sitting.par
    return [] if found is None or par is None else [f"\n\n{pairs_words(found, par)}."]


def _question(sitting: Sitting, par: bool) -> Parts:
    """What is asked before par is told, or before it goes on without."""
    return [
        (f"Solved in {turns_words(sitting.attempt.turns)}", "bold $accent"),
        "\n\nDoes a shorter way exist?\n\n",
        ("c", "bold $accent"),
        "      No: I call it\n",
        ("Enter", "bold $accent"),
        f"  Maybe: {'show me par' if par else 'go on'}",
    ]


def _marks(sitting: Sitting, score: Score) -> Parts:
    """The marks, and why there are no more."""
    parts: Parts = ["\n"]
    faces = (sitting.position.faces, sitting.position.hand_faces)
    for earned, words in mark_rows(score, *faces):
        sign, style = SIGNS[earned]
        parts += ["\n", (f"{sign} ", style), (words, "" if earned else "$muted")]
    if score.hinted:
        parts += [("\nWith a hint only solving counts.", "$muted")]
    if score.shown:
        parts += [("\nThe solutions were shown before.", "$muted")]
    return parts


def _times(sitting: Sitting) -> Parts:
    """How long it took."""
    parts: Parts = []
    attempt = sitting.attempt
    times = (
        ("\n\nseeing ", attempt.seeing_ms),
        ("  doing ", attempt.doing_ms),
        ("\nfirst side turn ", attempt.first_side_ms),
    )
    for label, ms in times:
        parts += [(label, "$muted"), time_text(ms)]
    return parts


def _compared(sitting: Sitting, reveal: bool) -> Parts:
    """The stages of the player's line; once the solutions are in view, beside the nearest one."""
    position, score = sitting.position, sitting.score
    if score is None or sitting.is_calling or not position.pairs:
        return []
    if not (reveal and score.over and sitting.solutions):
        own = stages(position, lines.tidy(sitting.attempt.line).turns)
        return [("\n".join(stage_table([("yours", own)])), "$muted")]
    seen = _compare(position, sitting.attempt.line, sitting.solutions)
    nearest = f"Nearest to yours: {line_text(sitting.solutions[seen.number])}. "
    which = nearest if len(sitting.solutions) > 1 else ""
    table = stage_table([("yours", seen.own), ("nearest", seen.nearest)])
    return [f"{which}{compared_words(seen)}\n", ("\n".join(table), "$muted")]


def _ways(ways: tuple[Asked, ...]) -> Parts:
    """Each question with its limits, and under it what the search has proven."""
    parts: Parts = [("Is there a shorter way?", "bold $accent")] if ways else []
    for way, outcome in ways:
        parts += [f"\n{way.label}", (f", {way.limits}", "$muted"), f"\n  {way_words(outcome)}"]
    return parts
