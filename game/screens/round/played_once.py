"""A position that is played once: its clock runs on from when it was first shown."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from game.cube.moves import Move
from game.keeping.steady import asleep
from game.play.inspection import Inspection
from game.play.result import Result
from game.play.sitting import Sitting
from game.screens.round.rules import Round, RoundRules

LEAST_SLEEP = 0.5
"""Seconds that a computer sleeps at least: less is how two clocks are read one after the other."""
SHOWN_BEFORE = "It was shown before: its clock has run on since."
UNSURE = "It was shown before; this computer's clock went back, so how long ago cannot be known."


def shown_before(*, is_unsure: bool) -> str:
    """What is said of a position that was shown before. is_unsure: see `SteadyClock`."""
    return UNSURE if is_unsure else SHOWN_BEFORE


class PlayedOnceRules(RoundRules):
    """Plays one position, of which it is kept when it was first shown.

    gone: seconds since then; seen: called when it is shown; then: called with what came of it.
    """

    LEAVES = "Leave? q again: you can come back to this position, but its clock runs on."
    PAUSED = "The cube is hidden; its clock runs on."
    PAUSES = "hide"  # the clock cannot be stopped: the cube can only be hidden

    def __init__(
        self,
        round_: Round,
        gone: int,
        seen: Callable[[], None],
        then: Callable[[Result], None],
    ) -> None:
        self._gone = gone
        self._asleep = asleep()
        self._seen = seen
        self._over = then
        super().__init__(round_, self._take)

    def _take(self, result: Result) -> None:
        """One at a time: the next is begun when the player says so."""
        self._over(result)

    def mounted(self) -> None:
        """It is shown, unless a curtain is before it."""
        if not self.round.counts_down:
            self._seen()
        super().mounted()

    def begin(self, goes_on: bool | None) -> None:
        """The curtain has risen: now it is shown."""
        if goes_on:
            self._seen()
        super().begin(goes_on)

    def take_up(self) -> Sitting:
        """A new sitting, on whose clock is what has gone since it was first shown."""
        sitting = super().take_up()
        sitting.take_up((), 1000 * self._gone)
        return sitting

    def inspect(self) -> None:
        """Inspection began when it was first shown."""
        self.inspection = Inspection(self.host.clock() - self._gone)

    def look(self) -> None:
        """Time goes on without a key, asleep too."""
        self._wake()
        super().look()

    def admits(self, moves: tuple[Move, ...]) -> bool:
        """As in every round, with the time counted that the computer has slept."""
        self._wake()
        return super().admits(moves)

    def _wake(self) -> None:
        now = asleep()
        slept, self._asleep = now - self._asleep, now
        if slept < LEAST_SLEEP or self.is_covered:
            return
        if self.inspection is not None and self.inspects:
            self.inspection = replace(self.inspection, since=self.inspection.since - slept)
        else:
            self.sitting.slept(slept)

    def run_clock(self) -> None:
        """From when it is first shown time runs, whatever hides the cube: help, a small window."""
        if self.is_covered or self.inspects:
            return
        if self.sitting.outcome:
            self.sitting.pause(self.host.clock())
        else:
            self.sitting.resume(self.host.clock())
        self.playing.show_clock(self.playing.is_active and not self.sitting.outcome)
