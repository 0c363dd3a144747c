"""A position that is played once: its clock runs on from when it was first shown."""

from __future__ import annotations

from collections.abc import Callable

from game.play.result import Result
from game.play.sitting import Sitting
from game.screens.round.screen import Round, RoundScreen
from game.screens.shared.clock_view import ClockView

SHOWN_BEFORE = "It was shown before: its clock has run on since."


class OnceScreen(RoundScreen):
    """Plays one position, of which it is kept when it was first shown.

    gone: seconds since then; seen: called when it is shown; then: called with what came of it.
    """

    LEAVES = "Leave? q again: you can come back to this position, but its clock runs on."
    PAUSED = "The cube is hidden; its clock runs on."

    def __init__(
        self,
        round_: Round,
        gone: int,
        seen: Callable[[], None],
        then: Callable[[Result], None],
    ) -> None:
        self._gone = gone
        self._seen = seen
        self._over = then
        super().__init__(round_, self._take)

    def _take(self, result: Result) -> None:
        """One at a time: the next is begun when the player says so."""
        self._over(result)

    def on_mount(self) -> None:
        """It is shown, unless a curtain is before it."""
        if not self.round.counts_down:
            self._seen()

    def _begin(self, goes_on: bool | None) -> None:
        if goes_on:
            self._seen()
        super()._begin(goes_on)

    def _take_up(self) -> Sitting:
        sitting = super()._take_up()
        sitting.take_up((), 1000 * self._gone)
        return sitting

    def _run_clock(self) -> None:
        """From when it is first shown time runs, whatever hides the cube: help, a small window."""
        if self._is_covered or self._inspects_since is not None:
            return
        if self.sitting.outcome:
            self.sitting.pause(self.app.clock())
        else:
            self.sitting.resume(self.app.clock())
        self.query_one(ClockView).run(self.is_active and not self.sitting.outcome)

    def key_label(self, action: str) -> str | None:
        """The clock cannot be stopped: the cube can only be hidden."""
        label = super().key_label(action)
        return "hide" if action == "pause" and label is None else label

    def _open(self, sitting: Sitting) -> None:
        super()._open(sitting)
        if self._inspects_since is not None:
            self._inspects_since -= self._gone
