"""A position of a contest, played once: its clock runs on from when it was first shown."""

from __future__ import annotations

from collections.abc import Callable

from game.card_text import contest_name, day_name
from game.contest import TIME, Result
from game.entries import Entry
from game.screens.clock_view import ClockView
from game.screens.round import Round, RoundScreen
from game.screens.sitting import Sitting

SHOWN_BEFORE = "This position was shown before: its clock has run on since."


class ContestRoundScreen(RoundScreen):
    """Plays the next position of an entry that is kept.

    gone: seconds since it was first shown; seen: called when it is shown; then: called with what
    came of it.
    """

    LEAVES = "Leave? q again: you can come back to this position, but its clock runs on."
    PAUSED = "The cube is hidden; its clock runs on."

    def __init__(
        self,
        entry: Entry,
        gone: int,
        seen: Callable[[], None],
        then: Callable[[Result], None],
    ) -> None:
        self._gone = gone
        self._seen = seen
        self._over = then
        super().__init__(_round(entry, gone), self._take)

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


def _round(entry: Entry, gone: int) -> Round:
    entered = entry.entered
    contest = entered.contest
    number, count = entered.number, len(contest.positions)
    return Round(
        position=contest.positions[number],
        source=day_name(entered.day) if entered.day else contest_name(contest),
        name=f"{number + 1} of {count}",
        mode=entry.mode,
        run=entry.run,
        inspects=contest.rules.inspection,
        calls=True,
        counts_down=contest.rules.by == TIME and not gone,
        said=SHOWN_BEFORE if gone else "",
    )
