"""The rules of a round: one position after another of a run, a match or a contest, by the clock.

No hint, no solution and no par is shown. What comes of each position is kept in the records at
once and handed on as a `Result`; the answer is what is played next, or None.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from textual.timer import Timer

from game.cube.moves import Move
from game.engine.questions import first_question
from game.play.inspection import LOST_WORDS, Inspection, inspection_words
from game.play.position import Position
from game.play.result import MAX_MOVES, Result
from game.play.sitting import LOST, Sitting
from game.screens.play.board import Shown
from game.screens.play.rules import Rules
from game.screens.round.curtain import CurtainScreen
from game.screens.round.ending import call_text, result, times_ms
from game.screens.shared.frame import WARN

if TYPE_CHECKING:
    from game.records import Record

COUNT = 3
"""Seconds that are counted down before the first position."""
SAID_MS = 3000
"""How long what became of the position before stands beside the seconds of inspection."""
LOOK_SECONDS = 0.1
"""Between two looks at the clock, for inspection and the time that is left."""
GIVES_UP = "Give up? g again leaves it unsolved, Escape goes on."
TOO_LONG = "A line can be no longer: undo turns, or give up."
NO_CALLS = "No call is asked for here."


@dataclass(frozen=True)
class Round:
    """A position to play. source, name: its heading, like "Dash" and "3 of 5 · Ada".

    mode, run, player: kept with the attempt; run: its number in the records, None where it has
    none. inspects: inspection comes first. calls: once solved, it is asked whether no shorter way
    exists. counts_down: before it is shown. left_ms: milliseconds until time is up; None: no end.
    said: in the message line at first. status: how things stand after so many milliseconds at
    this position, said at the right of the title.
    """

    position: Position
    source: str
    name: str
    mode: str
    run: int | None = None
    player: str = ""
    inspects: bool = False
    calls: bool = False
    counts_down: bool = False
    left_ms: int | None = None
    said: str = ""
    status: Callable[[int], str] = lambda ms: ""
    key: str = ""

    par = None
    aside = why = ""

    @property
    def place(self) -> str:
        """How things stand at first."""
        return self.status(0)

    def note(self, colours: Mapping[str, str]) -> str:
        """Nothing is taught here."""
        return ""


class RoundRules(Rules):
    """Plays a round and those that follow. Its result: False when the player left before the end.

    then: takes the result of each and gives the next round, or None at the end.
    """

    LEAVES = "Leave? q again: what is finished is kept, this position is not."
    PAUSED = "The clock stands."
    PAUSES: str | None = None
    """What the key that hides the cube is called; None as in the table of keys."""

    def __init__(self, round_: Round, then: Callable[[Result], Round | None]) -> None:
        super().__init__(round_)
        self.round = round_
        self.inspection: Inspection | None = None
        self.looks: Timer | None = None
        """Looks at the clock from time to time."""
        self._then = then
        self._is_covered = round_.counts_down
        self._opened_at = 0.0  # the moment from which on keys are meant for this position

    @property
    def is_covered(self) -> bool:
        """Whether the position has not been shown yet."""
        return self._is_covered

    @property
    def inspects(self) -> bool:
        """Whether the position is being inspected."""
        return self.inspection is not None and self.inspection.goes_on

    # -- one position after another --------------------------------------------------------------

    def mounted(self) -> None:
        """Look at the clock from time to time; begin behind a curtain where that is asked for."""
        self.looks = self.playing.every(LOOK_SECONDS, self.look)
        self._cover(self._is_covered)
        if self._is_covered:
            self.playing.soon(self._count_down)

    def _cover(self, is_covered: bool) -> None:
        self._is_covered = is_covered
        self.playing.board.visible = not is_covered

    def _count_down(self) -> None:
        curtain = CurtainScreen(self._title, "It begins in", COUNT)
        self.host.push_screen(curtain, self.begin)

    @property
    def _title(self) -> str:
        return f"{self.round.source}  {self.round.name}"

    def take_up(self) -> Sitting:
        """A new sitting: nothing is ever in hand here."""
        position, now = self.round.position, datetime.now().astimezone()
        shown = self.host.keeper.record(lambda records: records.was_shown(position.text), False)
        return Sitting(self.round, now, shown=shown, must_call=self.round.calls)

    def opened(self) -> str:
        """Have par searched, to be known once it may be told."""
        self._opened_at = self.host.clock()
        self.inspection = None
        if self.round.inspects and not self._is_covered:
            self.inspect()
        self.host.engine.ask(first_question(self.sitting.position), self.playing)
        return "" if self.round.inspects else self.round.said

    def inspect(self) -> None:
        """Inspection begins."""
        self.inspection = Inspection(self.host.clock())

    def put_aside(self) -> None:
        """What is left before its end is lost."""

    def begin(self, goes_on: bool | None) -> None:
        """The curtain has risen for the first time."""
        if not goes_on:
            self.playing.later(self.playing.leave, False)  # the curtain is to go first
            return
        self._cover(False)
        if self.round.inspects:
            self.inspect()
            self.playing.speak()
        self.playing.soon(self.playing.run_clock)

    def _finish(self) -> None:
        """The position is over and everything about it is said: on to the next."""
        is_lost = self.sitting.outcome == LOST
        added = (self.inspection.added if self.inspection is not None else None) or 0
        following = self._then(result(self.sitting, self._times_ms, added))
        if following is None:
            if is_lost:
                self.host.notify(LOST_WORDS, severity="warning", markup=False)
            self.playing.leave(True)
        else:
            self.round = replace(following, said=LOST_WORDS) if is_lost else following
            self._cover(following.counts_down)
            self.playing.open(self.take_up())
            if self._is_covered:
                self._count_down()

    # -- the clock -------------------------------------------------------------------------------

    def run_clock(self) -> None:
        """It stands while the position is covered or inspected."""
        if not self._is_covered and not self.inspects:
            super().run_clock()

    def look(self) -> None:
        """Time goes on without a key."""
        if self._is_covered or self.sitting.outcome:
            return
        now = self.host.clock()
        if self.inspects:
            self._look_at_inspection(now)
        elif not self._is_too_late(now):
            self.playing.board.place(self.round.status(self.sitting.ms(now)))

    def _look_at_inspection(self, now: float) -> None:
        assert self.inspection is not None
        warned = self.inspection.warn(now)
        if warned != self.inspection:
            self.inspection = warned
            self.host.bell()
        if self.inspection.is_too_late(now):
            self._start(now)
        elif self.playing.opened.gives_up or self.playing.opened.leaves:
            self.playing.speak()
        else:
            self.playing.hush()

    def _start(self, moment: float) -> bool:
        """Inspection ends, with the first turn or with its time; whether the position is begun."""
        assert self.inspection is not None
        self.inspection = self.inspection.end(moment)
        self.playing.hush()
        if self.inspection.added is None:
            self.sitting.lose(moment)
            self.keep()
            self._finish()
            return False
        self.sitting.resume(moment)
        self.playing.soon(self.playing.run_clock)
        return True

    def _is_too_late(self, moment: float) -> bool:
        """Whether nothing can be done here: it was ended, or time is up and ends it now.

        Nor can what was meant for the position before, which time has ended meanwhile.
        """
        if moment < self._opened_at:
            return True
        if self.sitting.outcome or self.inspects:
            return bool(self.sitting.outcome)
        if (left := self.round.left_ms) is None or self.sitting.ms(moment) < left:
            return False
        self.sitting.abandon(moment)
        self.keep()
        self._finish()
        return True

    # -- what the player does --------------------------------------------------------------------

    def admits(self, moves: tuple[Move, ...]) -> bool:
        """Turns may be made unless it is too late; the first one ends inspection."""
        moment = self.host.moment
        self.playing.opened.leaves = False
        if self._is_too_late(moment):
            return False
        if len(self.sitting.attempt.line) + len(moves) > MAX_MOVES:
            self.playing.say(TOO_LONG)
            return False
        begins = self.inspects and any(move.name[0] not in "xyz" for move in moves)
        return not begins or self._start(moment)

    def may_go_on(self) -> bool:
        """Whether it is not too late."""
        return not self._is_too_late(self.host.moment)

    def gone_on(self) -> None:
        """Solved, and no call is asked for: on to the next."""
        if self.sitting.outcome and not self.sitting.is_calling:
            self._finish()

    def pause(self) -> None:
        """Hide the cube."""
        if self.inspects:
            self.playing.say("Inspection cannot be paused.")
        elif not self.sitting.outcome:
            self.host.push_screen(CurtainScreen(self._title, self.PAUSED), self._back_from_pause)

    def _back_from_pause(self, goes_on: bool | None) -> None:
        if not goes_on:
            self.back()

    def give_up(self) -> None:
        """Leave the position unsolved; asked twice."""
        if self.sitting.outcome:
            return
        if not self.playing.opened.gives_up:
            self.playing.opened.gives_up = True
            self.playing.show(said=GIVES_UP, tone=WARN)
            return
        if self.inspection is not None:
            self.inspection = self.inspection.end(self.host.moment, starts=False)
        self.sitting.give_up(self.host.moment)
        self.keep()
        self._finish()

    def go(self) -> None:
        """Once solved: on without a call."""
        if self.sitting.is_calling:
            self.decide(called=False)

    def call(self) -> None:
        """No shorter way exists, says the player."""
        if self.sitting.is_calling:
            self.decide(called=True)
        else:
            asked = "Solve it first; the call comes after." if self.round.calls else NO_CALLS
            self.playing.show(said=asked)

    def decide(self, *, called: bool) -> None:
        """Keep the call, or that there was none, and go on."""
        self.sitting.called = called
        number, call = self.sitting.number, call_text(self.sitting, self._par())
        if number is not None and called:
            self.host.keeper.record(lambda records: records.amend(number, called=call), None)
        self._finish()

    def back(self) -> None:
        """Close what is open, then leave; asked twice."""
        opened = self.playing.opened
        if opened.pad:
            opened.pad = False
            self.playing.show()
        elif opened.gives_up:
            opened.gives_up = False
            self.playing.show()
        elif not opened.leaves:
            opened.leaves = True
            self.playing.show(said=self.LEAVES, tone=WARN)
        else:
            self.playing.leave(False)

    # -- showing ---------------------------------------------------------------------------------

    def shown(self, shown: Shown) -> Shown:
        """Without par."""
        return replace(shown, par=False)

    def word(self) -> str:
        """The seconds of inspection before all else."""
        if self.inspection is None or not self.inspects:
            return super().word()
        ms = self.inspection.ms(self.host.clock())
        said = self.round.said if ms < SAID_MS else ""
        return f"{inspection_words(ms)}   {said}".rstrip()

    def key_label(self, action: str) -> str | None:
        """What is asked once it is solved has the bar for itself."""
        asks = action in ("go", "call")
        if asks != self.sitting.is_calling:
            return ""
        if action == "pause":
            return "" if self.inspects else self.PAUSES
        return None

    @property
    def key_ranks(self) -> Mapping[str, int]:
        """What ends or hides the position is shown before what only looks at it."""
        return {**super().key_ranks, "give_up": 2, "far": 4}

    # -- what comes of it ------------------------------------------------------------------------

    def keep(self) -> None:
        """Keep the attempt; par is added to it later where it is not known."""
        record = self._record()
        self.sitting.number = self.host.keeper.record(lambda records: records.add(record), None)
        if record.par is None:
            self.host.keeper.follow(self.sitting.position)

    def _par(self) -> int | None:
        return getattr(self.host.engine.known(first_question(self.sitting.position)), "par", None)

    def _record(self) -> Record:
        """What is kept; of an attempt that did not solve too, the time until its end."""
        settings, round_ = self.host.settings, self.round
        record = self.sitting.record(settings.far_side, round_.player or settings.player)
        seeing, doing = self._times_ms
        return replace(
            record,
            par=self._par(),
            at_hand=None,
            called=call_text(self.sitting, self._par()),
            run="" if round_.run is None else str(round_.run),
            inspection=self.inspection.added if self.inspection is not None else None,
            seeing_ms=seeing,
            doing_ms=doing,
        )

    @property
    def _times_ms(self) -> tuple[int, int]:
        inspected = self.inspection.taken_ms if self.inspection is not None else 0
        return times_ms(self.sitting, self.host.moment, inspected)
