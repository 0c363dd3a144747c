"""The drill: how the player stands, and endless positions chosen for them.

What comes follows from the tries in the records alone, so the drill can be left at any time. The
next position is chosen, and its par searched, as soon as an attempt is over.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import closing
from dataclasses import dataclass

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from game.cube.pair import SLOTS
from game.drill import STEP_WORDS, STEPS, Choice, DrillTry, History, choose, history, open_steps
from game.engine.engine import Answered, Question, first_question, whole_question
from game.errors import RecordsError
from game.keeping import attempts
from game.modes import DRILL
from game.play.playable import Playable
from game.play.position import Position
from game.prose import counted, listed
from game.records import Records, Tried
from game.screens.play.casual import CasualRules, PlayScreen
from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen
from game.screens.shared.marks import OFF, ON
from game.search.outcome import Solved

LOOKING = "Looking for the next position ..."


@dataclass(frozen=True)
class DrillPuzzle:
    """A position that the drill has chosen.

    par: None while it is not known; rating: the player's, before it.
    """

    choice: Choice
    par: int | None
    rating: float

    source = "Drill"
    mode = DRILL

    @property
    def key(self) -> str:
        """The item's."""
        return self.choice.item.key

    @property
    def position(self) -> Position:
        """The position to play."""
        return self.choice.position

    @property
    def name(self) -> str:
        """The step and the slots: "one pair at BL"."""
        item = self.choice.item
        words = STEP_WORDS[item.step]
        return words if item.slots == SLOTS else f"{words} at {listed(item.slots)}"

    @property
    def aside(self) -> str:
        """Which entry of the atlas it is, where it is one."""
        item = self.choice.item
        return item.lies[0] if item.step == STEPS[0] else ""

    @property
    def place(self) -> str:
        """The player's rating."""
        return f"rating {self.rating:.0f}"

    @property
    def why(self) -> str:
        """Why it was chosen."""
        return self.choice.why

    def note(self, colours: Mapping[str, str]) -> str:
        """Nothing is taught here."""
        return ""


class DrillScreen(FramedScreen):
    """Tells how the player stands, and leads on from one position to the next."""

    COMMAND_SCREEN = "drill"
    BINDINGS = keys.bindings("drill")
    CSS_PATH = "drill.tcss"

    def __init__(self) -> None:
        super().__init__()
        self._history: History | None = None
        self._read = 0  # number of the last attempt that is in it
        self._choice: Choice | None = None
        self._chosen_after = -1  # so many tries
        self._next: DrillPuzzle | None = None
        self._waiting: Callable[[], None] | None = None  # for the next position

    def body(self) -> Iterable[Widget]:
        """A page of text."""
        yield Static(id="drill")

    # -- how the player stands -------------------------------------------------------------------

    def on_mount(self) -> None:
        """Read all tries; many take a while."""
        self.entitle("Drill")
        self.read_again()
        self._show()

    def read_again(self) -> None:
        """Rate all tries from the first: a par has become known only now, or nothing is yet."""
        path = self.app.folders.records
        if not self.app.keeper.has_records or self.app.keeper.records.path is None:
            self._take(self._tries_after(0))
        else:
            self.run_worker(lambda: self._read_in(Records(path)), thread=True)

    def _read_in(self, records: Records) -> None:
        """Read the tries, rate them and make a choice, all in a thread."""
        try:
            with closing(records):
                tries = records.tries(DRILL)
            made = history(map(_try, tries))
            choose(made.now)  # what it stands on is worked out once
        except RecordsError as fault:
            self.app.call_later(self.say, f"The records cannot be read: {fault}.")
            return
        self.app.call_later(self._take, tries, made)

    def _take(self, tries: tuple[Tried, ...], made: History | None = None) -> None:
        """Go on from these tries, or from what they made."""
        if not self.is_attached:
            return
        self._history = made if made is not None else history(map(_try, tries))
        self._read = tries[-1].number if tries else 0
        self.go_on()

    def _tries_after(self, number: int) -> tuple[Tried, ...]:
        if not self.app.keeper.has_records:
            return ()
        return self.app.keeper.record(lambda records: records.tries(DRILL, after=number), ())

    def go_on(self) -> None:
        """An attempt is over: rate it, and choose what comes next."""
        if self._history is None:
            return
        for tried in self._tries_after(self._read):
            self._history = self._history.after(_try(tried))
            self._read = tried.number
        self._choose()

    def _choose(self) -> None:
        """Choose the next position and have its par searched, unless it is chosen already.

        Where the search may take long, the position is played without waiting for it.
        """
        assert self._history is not None
        now = self._history.now
        if self._chosen_after != now.tries:
            self._chosen_after = now.tries
            self._choice, self._next = choose(now), None
            question = self._question(self._choice)
            self.app.engine.ask(question, self)
            if question.is_large:
                self._offer(self._choice, None)
        self._show()

    def _question(self, choice: Choice) -> Question:
        first = first_question(choice.position)
        return first if first.is_large else whole_question(choice.position)

    def answered(self, answer: Answered) -> None:
        """The par of the next position is known: it can be played."""
        choice = self._choice
        if choice is None or answer.question != self._question(choice):
            return
        if isinstance(answer.outcome, Solved):
            self._offer(choice, answer.outcome.par)

    def _offer(self, choice: Choice, par: int | None) -> None:
        """This comes next, to be played at once if it was waited for."""
        assert self._history is not None
        self._next = DrillPuzzle(choice, par, self._history.now.player.rating)
        waiting, self._waiting = self._waiting, None
        if waiting is not None:
            waiting()

    def failed(self, problem: str) -> None:
        """Without the search there is no par to play against."""
        self.say(problem)

    def on_unmount(self) -> None:
        """Nothing more is asked."""
        self.app.engine.forget(self)

    # -- showing ---------------------------------------------------------------------------------

    def show_said(self) -> None:
        """The message is part of the page."""
        self._show()

    def _show(self) -> None:
        if self.is_attached:
            self.query_one("#drill", Static).update(standing_text(self._history, self.said[0]))

    # -- what the player does --------------------------------------------------------------------

    def action_play(self) -> None:
        """The next position, now or as soon as it is there."""
        puzzle = self._next
        self.say(LOOKING if puzzle is None else "")
        if puzzle is None:
            self.wait(self._play_if_here)
        else:
            self.app.push_screen(PlayScreen(DrillRules(puzzle, self)), self._back)

    def _play_if_here(self) -> None:
        if self.is_active:
            self.action_play()

    def wait(self, then: Callable[[], None]) -> None:
        """Have something done as soon as the next position is there."""
        self._waiting = then

    def beside(self, puzzle: Playable, step: int) -> DrillPuzzle | None:
        """What comes after; None while it is not known."""
        return self._next if step > 0 else None

    def _back(self, _: bool | None) -> None:
        """The player has left for now."""
        self._waiting = None
        self.go_on()


class DrillRules(CasualRules):
    """Plays what the drill chooses, one after another."""

    def __init__(self, puzzle: DrillPuzzle, drill: DrillScreen) -> None:
        super().__init__(puzzle, drill.beside)
        self._drill = drill

    def keep(self) -> None:
        """Keep the attempt, and have the drill rate it and choose what comes next."""
        attempts.keep(self.host.keeper, self.sitting, self.host.settings, self._drill.read_again)
        self._drill.go_on()

    def word(self) -> str:
        """Why this one, until the first turn."""
        said, sitting = super().word(), self.sitting
        return said if said or sitting.attempt.events or sitting.outcome else sitting.puzzle.why

    def key_label(self, action: str) -> str | None:
        """None is passed over, so the key for that is left out until the end."""
        is_out = action == "next" and not self.sitting.outcome
        return "" if is_out else super().key_label(action)

    def next(self) -> None:
        """The next one, once this one is over: none is passed over."""
        if not self.sitting.outcome:
            self.playing.show(said="Solve it, or press g to give up: then the drill goes on.")
        elif self._drill.beside(self.sitting.puzzle, 1) is None:
            self.playing.show(said=LOOKING)
            self._drill.wait(self._next_if_here)
        else:
            super().next()

    def _next_if_here(self) -> None:
        if self.playing.is_active and self.sitting.outcome:
            super().next()

    def previous(self) -> None:
        """What is behind is behind."""
        self.playing.show(said="The drill only goes on.")


def _try(tried: Tried) -> DrillTry:
    return DrillTry(tried.puzzle, tried.position, tried.at_par, tried.ms)


def standing_text(made: History | None, said: str) -> Content:
    """The page: what the drill is, how the player stands, which steps are open."""
    lines: list[list[str | tuple[str, str]]] = [
        ["Endless positions, chosen for you: what you lose comes more often,"],
        ["and nothing is forgotten. Leave whenever you like; it goes on from there."],
        [],
    ]
    if made is None:
        lines.append([("Looking up how you stand ...", "$muted")])
        return _joined(lines)
    now = made.now
    rating = f"{now.player.rating:.0f}"
    lines += [
        [("Rating     ", "$muted"), (rating, "bold $accent"),
         (f"  ±{2 * now.player.deviation:.0f}", "$muted")],
        [("Tried      ", "$muted"), counted(now.tries, "position")],
        [],
    ]  # fmt: skip
    opened = open_steps(now)
    for step in STEPS:
        is_open = step in opened
        sign = (ON, "$accent") if is_open else (OFF, "$muted")
        words = STEP_WORDS[step]
        lines.append([sign, f" {words}" if is_open else (f" {words}, later", "$muted")])
    lines += [[], [(said, "$warning")]]
    return _joined(lines)


def _joined(lines: Iterable[Iterable[str | tuple[str, str]]]) -> Content:
    return Content("\n").join(Content.assemble(*line) for line in lines)
