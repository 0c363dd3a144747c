"""What is said when an attempt is over: turns against par, marks, one fact, the solutions."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static

from game.cube.ease import easiest_grip
from game.cube.line import Line
from game.cube.moves import line_text
from game.score import Score, one_fact
from game.screens.clock_view import time_text
from game.screens.lists import ChoiceList
from game.screens.marks import OFF, ON
from game.screens.side_words import mark_rows, turns_words, verdict_words
from game.screens.sitting import Sitting

Parts = list[str | tuple[str, str]]

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
        yield Static(id="note")

    def show(self, sitting: Sitting, note: str, *, reveal: bool, searching: str) -> None:
        """Say what the attempt has come to. searching: said where solutions are not known yet."""
        verdict = _verdict(sitting, reveal, searching)
        self.query_one("#verdict", Static).update(Content.assemble(*verdict))
        listing = self.query_one("#solutions", ChoiceList)
        listing.display = reveal and bool(sitting.solutions)
        if listing.display and self._listed != sitting.solutions:
            self._listed = sitting.solutions
            listing.set_options(map(solution_text, sitting.solutions))
            listing.highlighted = 0
        if listing.display and not listing.has_focus:
            listing.focus()
        is_told = reveal or (sitting.score is not None and sitting.score.at_par)
        said = note if is_told and not sitting.is_calling else ""
        self.query_one("#note", Static).update(Content(said))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Watch it."""
        event.stop()
        self.post_message(self.Chosen(event.option_index))


def solution_text(solution: Line) -> str:
    """A solution in its easiest grip, a rotation written first where there is one."""
    return line_text(easiest_grip(solution))


def _verdict(sitting: Sitting, reveal: bool, searching: str) -> Parts:
    if sitting.is_calling:
        return _question(sitting)
    score = sitting.score
    parts: Parts = []
    if score is None:
        parts += [(f"The shortest takes {turns_words(sitting.par)}", "bold $accent"), "\n"]
    else:
        parts += _scored(sitting, score)
        if score.over and not reveal and sitting.solutions:
            parts += ["\n", one_fact(sitting.attempt, sitting.solutions)]
    wants_solutions = reveal or (score is not None and score.over > 0)
    if wants_solutions and not sitting.solutions:
        parts += ["\n", (searching, "$muted")]
    elif reveal:
        one = len(sitting.solutions) == 1
        kind = "The only shortest way." if one else "Every shortest way, easiest first."
        parts += [(f"\n{kind}\nEnter watches {'it' if one else 'the one marked'}.", "$muted")]
    return parts


def _question(sitting: Sitting) -> Parts:
    """What is asked before par is told."""
    return [
        (f"Solved in {turns_words(sitting.attempt.turns)}", "bold $accent"),
        "\n\nDoes a shorter way exist?\n\n",
        ("c", "bold $accent"),
        "      No: I call it\n",
        ("Enter", "bold $accent"),
        "  Maybe: show me par",
    ]


def _scored(sitting: Sitting, score: Score) -> Parts:
    """Headline, marks and times."""
    parts: Parts = [(verdict_words(score), "bold $accent"), "\n\n"]
    for earned, words in mark_rows(score):
        sign, style = SIGNS[earned]
        parts += [(f"{sign} ", style), (words, "" if earned else "$muted"), "\n"]
    if score.shown:
        parts += [("The solutions were shown before.\n", "$muted")]
    attempt = sitting.attempt
    times = (
        ("seeing", attempt.seeing_ms),
        ("side", attempt.first_side_ms),
        ("doing", attempt.doing_ms),
    )
    parts += ["\n"]
    for label, ms in times:
        parts += [(f"{label} ", "$muted"), f"{time_text(ms)}  "]
    return [*parts, "\n"]
