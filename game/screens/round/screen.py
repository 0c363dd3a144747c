"""One position after another of a run, a match or a contest, played against the clock.

No hint, no solution and no par is shown. What comes of each position is kept in the records at
once and handed on as a `Result`; the answer is what is played next, or None.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from textual.timer import Timer

from game.cube.moves import Move
from game.engine.engine import Answered, first_question
from game.play.inspection import LOSES_MS, LOST_WORDS, WARNINGS, inspection_words, seconds_added
from game.play.position import Position
from game.play.result import MAX_MOVES, Result
from game.play.sitting import LOST, Sitting
from game.screens.play.board import Board, Shown
from game.screens.play.hands import HandsScreen
from game.screens.play.sitting_screen import WARN
from game.screens.round.curtain import CurtainScreen
from game.screens.round.ending import call_text, result, times_ms
from game.screens.shared import keys

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


class RoundScreen(HandsScreen):
    """Plays a round and those that follow. Its result: False when the player left before the end.

    then: takes the result of each and gives the next round, or None at the end.
    """

    COMMAND_SCREEN = "round"
    LEAVES = "Leave? q again: what is finished is kept, this position is not."
    PAUSED = "The clock stands."
    BINDINGS = keys.bindings("round")

    def __init__(self, round_: Round, then: Callable[[Result], Round | None]) -> None:
        super().__init__(round_)
        self.round = round_
        self._then = then
        self._is_covered = round_.counts_down
        self._inspects_since: float | None = None
        self._warned = 0  # seconds of inspection after which a word was said
        self._inspected = 0  # milliseconds, once inspection is over
        self._added: int | None = None  # seconds that inspection costs; None: nothing inspected
        self._opened = 0.0  # the moment from which on keys are meant for this position
        self._leaves = False  # `q` was pressed once
        self._looks: Timer | None = None

    def on_mount(self) -> None:
        """Look at the clock from time to time."""
        self._looks = self.set_interval(LOOK_SECONDS, self._look)
        if self._is_covered:
            self.query_one(Board).visible = False
            self.call_after_refresh(self._count_down)

    @property
    def is_covered(self) -> bool:
        """Whether the position has not been shown yet."""
        return self._is_covered

    # -- one position after another --------------------------------------------------------------

    def _take_up(self) -> Sitting:
        """Nothing is ever in hand here."""
        position = self.round.position
        shown = self.app.record(lambda records: records.was_shown(position.text), False)
        return Sitting(
            self.round, datetime.now().astimezone(), shown=shown, must_call=self.round.calls
        )

    def _put_aside(self) -> None:
        """What is left before its end is lost."""

    def _greet(self) -> None:
        """Nobody is prompted here."""

    def _open(self, sitting: Sitting) -> None:
        self._inspects_since, self._warned, self._added, self._inspected = None, 0, None, 0
        self._leaves = False
        self._opened = self.app.clock()
        super()._open(sitting)
        if self.round.said and not self.round.inspects:
            self._show(said=self.round.said)
        if self.round.inspects and not self._is_covered:
            self._inspects_since = self.app.clock()

    def _ask(self) -> None:
        """Have par searched, to be known once it may be told."""
        self.app.engine.ask(first_question(self.sitting.position), self)

    def answered(self, answer: Answered) -> None:
        """Par is known: attempts that were kept without it learn it."""
        par = getattr(answer.outcome, "par", None)
        text = self.sitting.position.text
        if par is not None and answer.question == first_question(self.sitting.position):
            self.app.record(lambda records: records.learn_par(text, par), None)

    def _finish(self) -> None:
        """The position is over and everything about it is said: on to the next."""
        is_lost = self.sitting.outcome == LOST
        following = self._then(result(self.sitting, self._times_ms, self._added or 0))
        if following is None:
            if is_lost:
                self.app.notify(LOST_WORDS, severity="warning", markup=False)
            self.dismiss(True)
        else:
            self.round = replace(following, said=LOST_WORDS) if is_lost else following
            self._is_covered = following.counts_down
            self.query_one(Board).visible = not self._is_covered
            self._open(self._take_up())
            if self._is_covered:
                self._count_down()

    # -- the clock -------------------------------------------------------------------------------

    def _run_clock(self) -> None:
        if not self._is_covered and self._inspects_since is None:
            super()._run_clock()

    def _count_down(self) -> None:
        curtain = CurtainScreen(f"{self.round.source}  {self.round.name}", "It begins in", COUNT)
        self.app.push_screen(curtain, self._begin)

    def _begin(self, goes_on: bool | None) -> None:
        """The curtain has risen for the first time."""
        if not goes_on:
            self.call_later(self._leave)
            return
        self._is_covered = False
        self.query_one(Board).visible = True
        if self.round.inspects:
            self._inspects_since = self.app.clock()
            self._word()
        self.call_after_refresh(self._run_clock)

    def _leave(self) -> None:
        self.dismiss(False)

    def _look(self) -> None:
        """Time goes on without a key."""
        if self._is_covered or self.sitting.outcome or not self.is_attached:
            return
        now = self.app.clock()
        if self._inspects_since is not None:
            self._look_at_inspection(int((now - self._inspects_since) * 1000))
        elif not self._is_over(now):
            self.query_one(Board).place(self.round.status(self.sitting.ms(now)))

    def _look_at_inspection(self, ms: int) -> None:
        passed = [second for second in WARNINGS if second * 1000 <= ms]
        if len(passed) > self._warned:
            self._warned = len(passed)
            self.app.bell()
        if ms >= LOSES_MS:
            self._start(self.app.clock())
            return
        if not self._gives_up and not self._leaves:
            self._said = ("", "")
        self._word()

    def _start(self, moment: float) -> bool:
        """Inspection ends, with the first turn or with its time; whether the position is begun."""
        assert self._inspects_since is not None
        self._end_inspection(moment)
        self._added = seconds_added(self._inspected)
        self._said = ("", "")
        if self._added is None:
            self.sitting.lose(moment)
            self._keep()
            self._finish()
            return False
        self.sitting.resume(moment)
        self.call_after_refresh(self._run_clock)
        return True

    def _end_inspection(self, moment: float) -> None:
        if self._inspects_since is not None:
            self._inspected = int((moment - self._inspects_since) * 1000)
            self._inspects_since = None

    def _is_over(self, moment: float) -> bool:
        """Whether nothing can be done here: it was ended, or time is up and ends it now.

        Nor can what was meant for the position before, which time has ended meanwhile.
        """
        if moment < self._opened:
            return True
        if self.sitting.outcome or self._inspects_since is not None:
            return bool(self.sitting.outcome)
        if (left := self.round.left_ms) is None or self.sitting.ms(moment) < left:
            return False
        self.sitting.abandon(moment)
        self._keep()
        self._finish()
        return True

    # -- what the player does --------------------------------------------------------------------

    def _turn(self, line: Iterable[Move]) -> None:
        """Make turns, unless it is too late; the first one ends inspection."""
        moves, moment = tuple(line), self.app.moment
        self._leaves = False
        if self._is_over(moment):
            return
        if len(self.sitting.attempt.line) + len(moves) > MAX_MOVES:
            self._say(TOO_LONG)
            return
        begins = self._inspects_since is not None and any(m.name[0] not in "xyz" for m in moves)
        if not begins or self._start(moment):
            super()._turn(moves)

    def _after(self, move: Move | None, said: str = "") -> None:
        super()._after(move, said)
        if self.sitting.outcome and not self.sitting.is_calling:
            self._finish()

    def action_redo(self) -> None:
        """Make a turn again that was taken back, unless it is too late."""
        if not self._is_over(self.app.moment):
            super().action_redo()

    def action_pause(self) -> None:
        """Hide the cube."""
        if self._inspects_since is not None:
            self._say("Inspection cannot be paused.")
        elif not self.sitting.outcome:
            title = f"{self.round.source}  {self.round.name}"
            self.app.push_screen(CurtainScreen(title, self.PAUSED), self._back_from_pause)

    def _back_from_pause(self, goes_on: bool | None) -> None:
        if not goes_on:
            self.action_back()

    def action_give_up(self) -> None:
        """Leave the position unsolved; asked twice."""
        if self.sitting.outcome:
            return
        if not self._gives_up:
            self._gives_up = True
            self._show(said=GIVES_UP, tone=WARN)
            return
        self._end_inspection(self.app.moment)
        self.sitting.give_up(self.app.moment)
        self._keep()
        self._finish()

    def action_go(self) -> None:
        """Once solved: on without a call."""
        if self.sitting.is_calling:
            self._decide(called=False)

    def action_call(self) -> None:
        """No shorter way exists, says the player."""
        if self.sitting.is_calling:
            self._decide(called=True)
        else:
            asked = "Solve it first; the call comes after." if self.round.calls else NO_CALLS
            self._show(said=asked)

    def _decide(self, *, called: bool) -> None:
        self.sitting.called = called
        number, call = self.sitting.number, call_text(self.sitting, self._par())
        if number is not None and called:
            self.app.record(lambda records: records.amend(number, called=call), None)
        self._finish()

    def action_help(self) -> None:
        """Every key; the clock stands meanwhile, save that of inspection."""
        self.app.show_help(self.COMMAND_SCREEN)

    def action_back(self) -> None:
        """Close what is open, then leave; asked twice."""
        if self.reading.wide:
            self.action_wide()
        elif self._pad:
            self.action_pad()
        elif self._gives_up:
            self._gives_up = False
            self._show()
        elif not self._leaves:
            self._leaves = True
            self._show(said=self.LEAVES, tone=WARN)
        else:
            self._leave()

    # -- showing ---------------------------------------------------------------------------------

    def _shown(self) -> Shown:
        return replace(super()._shown(), par=False, best="")

    def _standing_word(self) -> str:
        if self._inspects_since is not None:
            ms = int((self.app.clock() - self._inspects_since) * 1000)
            said = self.round.said if ms < SAID_MS else ""
            return f"{inspection_words(ms)}   {said}".rstrip()
        return super()._standing_word()

    def key_label(self, action: str) -> str | None:
        """What is asked once it is solved has the bar for itself."""
        asks = action in ("go", "call")
        if self._is_typing or asks != self.sitting.is_calling:
            return ""
        return "" if action == "pause" and self._inspects_since is not None else None

    @property
    def key_ranks(self) -> Mapping[str, int]:
        """What ends or hides the position is shown before what only looks at it."""
        return {**super().key_ranks, "give_up": 2, "far": 4}

    # -- what comes of it ------------------------------------------------------------------------

    def _keep(self) -> None:
        record = self._record()
        self.sitting.number = self.app.record(lambda records: records.add(record), None)
        if record.par is None:
            self.app.late_pars.follow(self.sitting.position)

    def _par(self) -> int | None:
        return getattr(self.app.engine.known(first_question(self.sitting.position)), "par", None)

    def _record(self) -> Record:
        """What is kept; of an attempt that did not solve too, the time until its end."""
        settings, round_ = self.app.settings, self.round
        record = self.sitting.record(settings.far_side, round_.player or settings.player)
        seeing, doing = self._times_ms
        return replace(
            record,
            par=self._par(),
            at_hand=None,
            called=call_text(self.sitting, self._par()),
            run="" if round_.run is None else str(round_.run),
            inspection=self._added,
            seeing_ms=seeing,
            doing_ms=doing,
        )

    @property
    def _times_ms(self) -> tuple[int, int]:
        return times_ms(self.sitting, self.app.moment, self._inspected)
