"""A timed run: it plays the positions one after another, and shows what the run came to.

Par is searched while the run goes on; what is not known at its end is filled in when it is.
"""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from textual.containers import VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

from game.cube import line as lines
from game.deal.selection import Selection
from game.engine.engine import first_question
from game.errors import PairwrightError, SelectionError
from game.keeping import attempts, runs
from game.keeping.entries import result_of
from game.keeping.runs import NumberedRun
from game.play.position import Position, parse_position
from game.play.result import Result
from game.play.times import written
from game.prose import counted
from game.runs import Done, Run, is_record, pace_words
from game.screens.round.rules import Round, RoundRules
from game.screens.round.screen import RoundScreen
from game.screens.runs import figures as run_figures
from game.screens.shared import keys
from game.screens.shared.clock_view import time_text
from game.screens.shared.frame import FramedScreen

if TYPE_CHECKING:
    pass


class RunScreen(FramedScreen):
    """Plays a run to its end and shows it. beside: the best run of its kind so far.

    closes: it is not played on but shown as it is, as one without a selection is.
    """

    COMMAND_SCREEN = "run"
    BINDINGS = keys.bindings("run")
    CSS_PATH = "runs.tcss"

    def __init__(
        self,
        entry: NumberedRun,
        selection: Selection | None,
        beside: Run | None,
        *,
        closes: bool = False,
    ) -> None:
        super().__init__()
        self.entry = entry
        self.beside = beside
        self._selection = selection
        self._words = selection.words if selection is not None else entry.run.terms.selection
        self._closes = closes
        self._is_ended = False
        self._marked = 0  # the row whose line is shown when it is asked for

    def body(self) -> Iterable[Widget]:
        """The headline over a row a position."""
        yield Static(id="run-headline")
        with VerticalScroll(id="run-scroll", can_focus=False):
            yield Static(id="run-table")
        yield Static(id="run-legend")

    @property
    def run_(self) -> Run:
        """The run as far as it is played."""
        return self.entry.run

    def on_mount(self) -> None:
        """Play it, or show it."""
        self.app.keeper.take(self.entry.number)
        self.entitle(self.run_.terms.mode.capitalize(), self._words)
        if self._selection is None or self._closes or self.run_.is_finished:
            self._end()
            return
        self._positions = self._selection.positions(self.run_.seed)
        begun = len(self.run_.done)
        if self._selection.most is None:  # one that was left has been seen
            begun += self.run_.breaks
        for _ in range(begun):
            next(self._positions, None)
        first = self._next("", counts_down=True)
        if first is not None:
            rules = RoundRules(first, self._take)
            self.app.push_screen(RoundScreen(rules), partial(self._played, rules))
        else:
            self._end()

    # -- playing ---------------------------------------------------------------------------------

    def _next(self, said: str, *, counts_down: bool = False) -> Round | None:
        """The next position; None at the end, or if the selection cannot give another."""
        try:
            position = next(self._positions, None)
        except SelectionError as fault:
            self.app.notify(str(fault), severity="warning", markup=False)
            return None
        if position is None:
            return None
        self._position = position
        self._ask(position)
        run, terms = self.run_, self.run_.terms
        number = len(run.done) + 1
        left = run.left
        return Round(
            position,
            source=terms.mode.capitalize(),
            name=f"{number} of {terms.amount}" if left is None else f"position {number}",
            mode=terms.mode,
            run=self.entry.number,
            inspects=terms.inspection,
            counts_down=counts_down,
            left_ms=None if left is None else 10 * left,
            said=said,
            status=self._status,
        )

    def _status(self, ms: int) -> str:
        """The clock of the whole run, what is added to it, the pace."""
        run, now = self.run_, ms // 10
        pace = pace_words(run, self.beside, now)
        if run.left is None:
            time = time_text(10 * run.clock + ms)
            time += f" + {written(run.added)}" if run.added else ""
        else:
            time = f"{time_text(max(0, 10 * run.left - ms))} left, {run.solved} solved"
        return f"{pace}   {time}" if pace else time

    def _take(self, result: Result) -> Round | None:
        """A position is over: on to the next, unless the run is over."""
        position = self._position
        outcome = self.app.engine.known(first_question(position))
        done = Done(
            position.text,
            lines.obtm(result.line),
            getattr(outcome, "par", None),
            result.seeing,
            result.doing,
            result.inspection,
            result.solved,
        )
        self._set(self.run_.plus(done))
        if self.run_.is_finished:
            return None
        return self._next(_said_of(done))

    def _played(self, rules: RoundRules, to_the_end: bool | None) -> None:
        if to_the_end:
            self._end()
            return
        if rules.is_covered and not (self.run_.done or self.run_.breaks):
            runs.drop(self.app.keeper, self.entry)
        self.call_later(self.action_back)

    def _end(self) -> None:
        """The run is over: no more of it comes."""
        runs.end(self.app.keeper, self.entry)
        self._is_ended = True
        for done in self.run_.done:
            if done.par is None:
                self._ask(parse_position(done.position))
        self._show()

    # -- par, when it is known -------------------------------------------------------------------

    def _ask(self, position: Position) -> None:
        self.app.keeper.follow(position, partial(self._learn, position.text))

    def _learn(self, position: str, par: int | None) -> None:
        """A par is known: it counts from now on."""
        if par is not None:
            self._set(self.run_.knowing({position: par}))
            self._show()

    def on_unmount(self) -> None:
        """It can be gone on with elsewhere."""
        self.app.keeper.release(self.entry.number)

    def _set(self, run: Run) -> None:
        self.entry = replace(self.entry, run=run)

    # -- showing ---------------------------------------------------------------------------------

    def on_resize(self) -> None:
        """Bars are as long as their room."""
        self.call_after_refresh(self._show)

    def _show(self) -> None:
        if not (self.stands and self._is_ended):
            return
        run, width = self.run_, self.query_one("#run-scroll").scrollable_content_region.width
        record = is_record(run, self.beside)
        head = run_figures.headline(run, self.beside, is_record=record)
        self.query_one("#run-headline", Static).update(head)
        table = run_figures.table(run, self.beside, width, marked=self._marked)
        self.query_one("#run-table", Static).update(table)
        self.query_one("#run-legend", Static).update(run_figures.legend())

    # -- what the player does --------------------------------------------------------------------

    def action_down(self) -> None:
        """The next row."""
        self._mark(self._marked + 1)

    def action_up(self) -> None:
        """The row before."""
        self._mark(self._marked - 1)

    def _mark(self, row: int) -> None:
        self._marked = max(0, min(len(self.run_.done) - 1, row))
        scroll = self.query_one("#run-scroll", VerticalScroll)
        top = self._marked + 1 - scroll.size.height // 2  # a row of headings is above
        scroll.scroll_to(y=max(0, top), animate=False, immediate=True)
        self._show()

    def action_line(self) -> None:
        """The marked row's line beside a shortest one, which then has been seen."""
        from game.screens.lines.columns import PlayerLine  # noqa: PLC0415 - when it is shown
        from game.screens.lines.screen import LinesScreen, Page  # noqa: PLC0415 - likewise

        record = runs.played(self.app.keeper, self.entry, self._marked)
        if record is None:
            return
        with suppress(PairwrightError):  # a record that cannot be replayed has no line
            position, result = parse_position(record.position), result_of(record)
            played = PlayerLine(position, record.player or "you", result.line, result)
            attempts.mark_position_shown(self.app.keeper, record.position)
            page = Page(f"Position {self._marked + 1}", position, (played,), record.par)
            self.app.push_screen(LinesScreen([page]))

    def action_again(self) -> None:
        """Another run on the same terms."""
        if self._selection is None:
            return
        run = Run(self.run_.terms, runs.new_seed())
        best, _ = runs.best_of(self.app.keeper, run.terms.kind, run.terms.mode)
        self.app.switch_screen(RunScreen(runs.begin(self.app.keeper, run), self._selection, best))

    def allows(self, action: str) -> bool:
        """What can no longer be had is not played again."""
        if action == "line":
            return self.entry.number is not None and bool(self.run_.done)
        return action != "again" or self._selection is not None


def _said_of(done: Done) -> str:
    """What a position came to, said over the next one."""
    if not done.solved:
        return "Not solved."
    over = "" if done.over is None else f", {done.over} over par" if done.over else ", at par"
    return f"{written(done.clock)} s in {counted(done.turns, 'turn')}{over}."
