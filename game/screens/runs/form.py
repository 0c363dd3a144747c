"""Timed runs: the terms of the next one, and one that was left."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from datetime import date

from textual.content import Content

from game.cube.cube import SOLVED
from game.deal.selection import FromDay, first_positions
from game.errors import SelectionError
from game.keeping import runs
from game.modes import DASH
from game.play.position import Position, position_of
from game.play.times import written
from game.prose import counted
from game.runs import Run, RunTerms
from game.screens.runs.rows import Setup, setup_for
from game.screens.runs.screen import RunScreen
from game.screens.shared import keys
from game.screens.shared.form import FormScreen
from game.screens.shared.frame import WARN
from game.screens.shared.selection_rows import Chosen, FormRow

ELSEWHERE = "A run, of the kind {mode}, is being played in another window."


class RunsScreen(FormScreen):
    """Sets up a run; offers one that was left."""

    COMMAND_SCREEN = "runs"
    BINDINGS = keys.bindings("runs")

    setup: Setup
    """What is chosen so far; at first the terms of the last run."""

    def __init__(self) -> None:
        super().__init__()
        self._left: runs.NumberedRun | None = None
        self._is_elsewhere = False  # that run is being played in another window
        self._bests: dict[str, tuple[Run | None, int]] = {}  # kind -> as the records have it

    def on_mount(self) -> None:
        """The terms of the last run; this comes before the form is shown."""
        self._left = runs.left_open(self.app.keeper)
        self.setup = self._as_before()
        self.entitle("Timed runs")

    def on_screen_resume(self) -> None:
        """A run may have been left, or played to its end."""
        self._left = runs.left_open(self.app.keeper)
        left = self._left.number if self._left is not None else None
        self._is_elsewhere = self.app.keeper.is_elsewhere(left)
        self._bests.clear()
        self.show_form()

    def _as_before(self) -> Setup:
        chosen = Chosen(self.app.packs, date.today())
        last = self._left.run if self._left is not None else runs.last(self.app.keeper)
        if last is None:
            return Setup(chosen)
        try:
            return setup_for(last.terms, runs.selection_of(self.app.packs, last), chosen)
        except SelectionError:
            return Setup(chosen)

    # -- the form --------------------------------------------------------------------------------

    def rows(self) -> Sequence[FormRow]:
        """The terms."""
        return self.setup.rows()

    def step(self, key: str, step: int) -> None:
        """Change one."""
        self.setup = self.setup.stepped(key, step)

    def sample(self) -> Position | None:
        """One of the kind; of the day's five none is shown before."""
        selection = self.setup.selection
        if isinstance(selection, FromDay):
            return position_of(SOLVED)
        return next(iter(first_positions(selection, "sample", 1)), None)

    def first_words(self) -> Content:
        """A run that was left."""
        left = self._left
        if left is None:
            return Content("")
        if self._is_elsewhere:
            return Content.styled(ELSEWHERE.format(mode=left.run.terms.mode), "$warning")
        return Content.assemble(
            (f"{left_words(left.run)}\n", "$warning"),
            ("u", "bold $accent"), " goes on with it   ",
            ("x", "bold $accent"), " closes it as it is",
        )  # fmt: skip

    def last_words(self) -> Content:
        """The best run on these terms."""
        terms = self.setup.terms
        best, played = self._best_of(terms)
        if not played:
            return Content.styled("No run on these terms yet", "$muted")
        if best is None:
            runs = counted(played, "run").capitalize()
            return Content.styled(f"{runs} on these terms, none that counts", "$muted")
        result = f"{written(best.total)} s"
        if terms.mode != DASH:
            result = counted(best.solved, "position")
        return Content.assemble(
            ("Your best  ", "$muted"), (result, "bold"), (f" in {counted(played, 'run')}", "$muted")
        )

    def _best_of(self, terms: RunTerms) -> tuple[Run | None, int]:
        """The best run on these terms, and how many there are; looked up once."""
        if terms.kind not in self._bests:
            self._bests[terms.kind] = runs.best_of(self.app.keeper, terms.kind, terms.mode)
        return self._bests[terms.kind]

    # -- what the player does --------------------------------------------------------------------

    def action_begin(self) -> None:
        """A run on these terms."""
        setup = self.setup
        run = Run(setup.terms, runs.new_seed())
        self._play(runs.begin(self.app.keeper, run))

    def action_go_on(self) -> None:
        """Take the run up that was left."""
        if self._left is not None and self.app.keeper.take(self._left.number):
            self._play(runs.taken_up(self.app.keeper, self._left))

    def _play(self, entry: runs.NumberedRun) -> None:
        best, _ = self._best_of(entry.run.terms)
        try:
            selection = runs.selection_of(self.app.packs, entry.run)
        except SelectionError as fault:
            self.say(f"{fault}. x closes the run as it is.", WARN)
            return
        self.app.push_screen(RunScreen(entry, selection, best))

    def action_close_run(self) -> None:
        """Close the run that was left, and show what it came to."""
        left = self._left
        if left is None:
            return
        selection = None
        with suppress(SelectionError):
            selection = runs.selection_of(self.app.packs, left.run)
        self.app.push_screen(RunScreen(left, selection, None, closes=True))

    def allows(self, action: str) -> bool:
        """Only a run that was left is taken up or closed."""
        is_there = self._left is not None and not self._is_elsewhere
        return action not in ("go_on", "close_run") or is_there


def left_words(run: Run) -> str:
    """What run was left: "A dash was left after 2 of 5 positions."."""
    done = len(run.done)
    if run.terms.mode == DASH:
        return f"A dash was left after {done} of {counted(run.terms.amount, 'position')}."
    return f"An hourglass was left after {counted(done, 'position')}."
