"""The playing screen: what keys, clicks and typed lines do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from game.packs import Puzzle
from game.packs.opening import following, preceding
from game.play.playable import Beside, Playable
from game.screens import keeping
from game.screens.play.coached_screen import CoachedScreen
from game.screens.play.key_labels import after
from game.screens.play.sitting_screen import WARN
from game.screens.shared import keys

if TYPE_CHECKING:
    from game.screens.play.result_panel import ResultPanel


GIVES_UP = "Give up? g again shows the solutions; this position is then marked as shown."


class PlayScreen(CoachedScreen):
    """Plays a puzzle, and those beside it: of a pack, unless `beside` finds others."""

    BINDINGS = keys.bindings("play")

    def __init__(self, puzzle: Playable, beside: Beside | None = None) -> None:
        super().__init__(puzzle)
        self._beside = beside or self._beside_in_packs

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Why a puzzle was chosen is told only where it was."""
        if action == "why" and not self.sitting.puzzle.why:
            return False
        return super().check_action(action, parameters)

    def _keep(self) -> None:
        """Keep the attempt, which is over."""
        keeping.keep(self.app, self.sitting)

    # -- the end of an attempt -------------------------------------------------------------------

    def action_go(self) -> None:
        """What comes naturally: show par, try again, or the next level."""
        if self.sitting.is_calling:
            self._decide(called=False)
        elif self.sitting.outcome:
            if after(self.sitting) == "next":
                self.action_next()
            else:
                self.action_again()

    def action_call(self) -> None:
        """No shorter way exists, says the player."""
        if self.sitting.is_calling:
            self._decide(called=True)
        elif not self.sitting.outcome:
            self._show(said="Solve it first; the call comes after, where par is hidden.")

    def _decide(self, *, called: bool) -> None:
        self.sitting.called = called
        keeping.amend(self.app, self.sitting)
        self._show()

    def action_again(self) -> None:
        """Another attempt, from the start and with a new clock."""
        sitting = self.sitting
        if not sitting.outcome:
            if not sitting.attempt.events:
                return
            sitting.abandon(self.app.moment)
            self._keep()
        self._open(keeping.take_up(self.app, sitting.puzzle))

    def action_show(self) -> None:
        """Show every shortest solution; before the end that is giving up, and asked twice."""
        sitting = self.sitting
        if not sitting.outcome and not self._gives_up:
            self._gives_up = True
            self._show(said=GIVES_UP, tone=WARN)
            return
        if not sitting.outcome:
            sitting.give_up(self.app.moment)
            self._keep()
            self._run_clock()
        elif sitting.is_calling:
            self._decide(called=False)
        keeping.mark_shown(self.app, sitting)
        self._reveal = True
        self._show()

    def action_read_on(self) -> None:
        """See more of what is told of a position that is over."""
        self._scroll(1)

    def action_read_back(self) -> None:
        """See again what came before."""
        self._scroll(-1)

    def _scroll(self, rows: int) -> None:
        from game.screens.play.result_panel import ResultPanel  # noqa: PLC0415 - there by then

        if self.sitting.outcome:
            self.query_one(ResultPanel).scroll_relative(y=rows, animate=False)

    def on_result_panel_chosen(self, message: ResultPanel.Chosen) -> None:
        """Watch a solution turn by turn."""
        from game.screens.lines.watch import WatchScreen  # noqa: PLC0415 - imported where it is pushed

        self.app.push_screen(
            WatchScreen(self.sitting.position, self.sitting.solutions, message.number)
        )

    def action_why(self) -> None:
        """Why this position, of all that there are."""
        self._show(said=self.sitting.puzzle.why)

    # -- going elsewhere -------------------------------------------------------------------------

    def _beside_in_packs(self, puzzle: Playable, step: int) -> Puzzle | None:
        """The puzzle of a pack after this one, or before it."""
        if not isinstance(puzzle, Puzzle):
            return None
        find = following if step > 0 else preceding
        return find(self.app.packs, puzzle)

    def action_next(self) -> None:
        """The next level; after the last of a stretch comes the map."""
        puzzle = self._beside(self.sitting.puzzle, 1)
        if puzzle is None:
            self._leave(to_map=True)
        else:
            self._leave_for(puzzle)

    def action_previous(self) -> None:
        """The level before."""
        puzzle = self._beside(self.sitting.puzzle, -1)
        if puzzle is None:
            self._show(said="This is the first one here.")
        else:
            self._leave_for(puzzle)

    def action_help(self) -> None:
        """Every key."""
        self.app.show_help("play")

    def action_back(self) -> None:
        """Close what was opened last; otherwise leave, with the attempt in hand."""
        if self.reading.wide:
            self.action_wide()
        elif self._closes():
            self.set_focus(None)
            self._show()
        else:
            self._leave(to_map=False)

    def _closes(self) -> bool:
        """Close the innermost of what is open; whether there was any."""
        if self._asks_ways:
            self._asks_ways = False
        elif self._reveal:
            self._reveal = False
        elif self._pad and not self.sitting.outcome:
            self._pad = False
        else:
            return False
        return True

    def _leave(self, *, to_map: bool) -> None:
        keeping.put_aside(self.app, self.sitting)  # before the next screen looks what is in hand
        self.dismiss(to_map)
