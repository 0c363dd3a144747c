"""The standings of a contest: every card replayed and ranked, and those that are not, with why."""

from __future__ import annotations

from collections.abc import Iterable

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from game.engine.engine import Answered, first_question
from game.foreign import shown
from game.friends.card_text import contest_name, day_name
from game.friends.contest import TIME
from game.friends.entry import ContestProgress
from game.friends.standings import PROOF, Pars, Ranked, Standings, standings
from game.play.times import written
from game.screens.contests import rows as contest_rows
from game.screens.contests.rows import Cards
from game.screens.shared import keys
from game.screens.shared.fitting import fit
from game.screens.shared.frame import FramedScreen

NONE = "No card yet: paste the chat, and all cards in it are found."
RANK_WIDTH, SOLVED_WIDTH, TURNS_WIDTH, TIME_WIDTH, CALLS_WIDTH = 5, 8, 11, 10, 9
NAME_WIDTH = 24
MAX_SHOWN = 1000
"""Rows that are shown at most."""


class StandingsScreen(FramedScreen):
    """The ranking of these cards. entered: the contest, as far as the player has played it."""

    COMMAND_SCREEN = "standings"
    SAID = "#standings-said"
    BINDINGS = keys.bindings("standings")
    CSS_PATH = "contests.tcss"

    def __init__(self, entered: ContestProgress, cards: Cards) -> None:
        super().__init__()
        self._entered, self._cards = entered, cards
        self._pars: dict[str, int] = {}
        self._made: Standings | None = None

    def body(self) -> Iterable[Widget]:
        """The rows in a scroll; what is proven."""
        yield Static(id="standings-head")
        yield VerticalScroll(Static(id="standings-rows"), id="standings")
        yield Static(id="standings-said")

    def on_mount(self) -> None:
        """Replay the cards in a thread: there may be many."""
        entered = self._entered
        self.query_one("#standings").focus()
        self._show()
        self.say(PROOF if self._cards else NONE)
        if not self._cards:
            return
        self.run_worker(self._rank, thread=True)
        for position in entered.contest.positions:
            self.app.engine.ask(first_question(position), self)

    def _rank(self) -> None:
        self.app.call_later(self._take, standings(self._entered.contest, self._cards))

    def _take(self, made: Standings) -> None:
        if self.is_attached:
            self._made = made
            self._show()

    def answered(self, answer: Answered) -> None:
        """A par is known: turns are shown against it."""
        par = getattr(answer.outcome, "par", None)
        for position in self._entered.contest.positions:
            if par is not None and first_question(position) == answer.question:
                self._pars[position.text] = par
        self._show()

    def failed(self, problem: str) -> None:
        """It goes without."""

    def on_unmount(self) -> None:
        """Nothing is to be known any more."""
        self.app.engine.forget(self)

    def on_resize(self) -> None:
        """Names have the room that is left."""
        self.call_after_refresh(self._show)

    def _show(self) -> None:
        if not self.is_attached:
            return
        entered, made = self._entered, self._made
        name = day_name(entered.day) if entered.day else contest_name(entered.contest)
        title = f"Standings: {name}"
        self.entitle(title, contest_rows.aside(title, entered.contest, self.size.width))
        if made is None:
            return
        pars = [self._pars.get(p.text) for p in entered.contest.positions]
        width = self.query_one("#standings-rows").content_size.width
        self.query_one("#standings-head", Static).update(head(made, width))
        self.query_one("#standings-rows", Static).update(table(made, pars, width))

    def action_lines(self) -> None:
        """Everybody's lines, for a player who has played all."""
        from game.screens.lines.screen import LinesScreen  # noqa: PLC0415 - imported where it is pushed

        if not self._entered.is_finished:
            self.say("Play every position first: then the lines of all are shown side by side.")
        elif self._made is not None:
            cards = [row.card for row in self._made.rows]
            self.app.push_screen(LinesScreen(contest_rows.pages(self._entered, cards)))


def head(made: Standings, width: int) -> Content:
    """The headings."""
    turns, time = f"{'turns':>{TURNS_WIDTH}}", f"{'time':>{TIME_WIDTH}}"
    measures = time + turns if made.contest.rules.by == TIME else turns + time
    name = fit("", RANK_WIDTH) + fit("player", _name_width(width))
    return Content.styled(
        f"{name}{'solved':>{SOLVED_WIDTH}}{measures}{'called':>{CALLS_WIDTH}}", "$muted"
    )


def table(made: Standings, pars: Pars, width: int) -> Content:
    """A row a card, best first; then the cards that are not ranked."""
    lines = [_row(made, row, pars, width) for row in made.rows[:MAX_SHOWN]]
    more = len(made.rows) - len(lines)
    if more:
        lines.append(Content.styled(f"and {more} more", "$muted"))
    if made.refused:
        lines.append(Content.styled("\nNot ranked", "bold"))
    for refused in made.refused[:MAX_SHOWN]:
        said = f"{shown(refused.card.name, NAME_WIDTH)} {refused.reason}"
        lines.append(Content.styled(said, "$warning"))
    return Content("\n").join(lines)


def _row(made: Standings, row: Ranked, pars: Pars, width: int) -> Content:
    name = shown(row.card.name, _name_width(width) - 2)
    count = len(made.contest.positions)
    over = row.over(pars)
    turns = str(row.all_turns) if row.solved else "-"
    if over is not None and row.solved:
        turns += "  par" if not over else f"{f'+{over}':>5}"
    else:
        turns += " " * 5
    time = written(row.time) if row.solved else "-"
    measures = [f"{turns:>{TURNS_WIDTH}}", f"{time:>{TIME_WIDTH}}"]
    if made.contest.rules.by == TIME:
        measures.reverse()
    first = row.rank == 1
    parts = (
        (f"{row.rank:>{RANK_WIDTH - 2}}  ", "$accent" if first else "$muted"),
        (fit(name, _name_width(width)), "bold" if first else ""),
        (f"{f'{row.solved} of {count}':>{SOLVED_WIDTH}}", ""),
        (measures[0], "bold" if first else ""),
        (measures[1], ""),
        (f"{_calls(row, pars):>{CALLS_WIDTH}}", "$muted"),
    )
    twice = ("\n" + " " * RANK_WIDTH + "another card has this name", "$warning")
    return Content.assemble(*parts, *([twice] if row.namesake else []))


def _calls(row: Ranked, pars: Pars) -> str:
    """ "2 right", "1 of 2": calls that were right; those made, while pars are not known."""
    if not row.calls:
        return ""
    if None in pars:
        return str(row.calls)
    right = row.right_calls(pars)
    return f"{right} right" if right == row.calls else f"{right} of {row.calls}"


def _name_width(width: int) -> int:
    """Columns of the names, which take what is left, within reason."""
    others = RANK_WIDTH + SOLVED_WIDTH + TURNS_WIDTH + TIME_WIDTH + CALLS_WIDTH
    return max(8, min(NAME_WIDTH, width - others))
