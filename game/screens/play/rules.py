"""What a position is played for: the rules that the playing screen is handed.

The screen shows, turns and keeps the clock; whatever differs between playing a level, the drill, a
run or a contest is asked of the rules.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping

from game.cube.moves import Move
from game.engine.answers import Advanced, Answered, AnsweredByPairs, Preparing
from game.play.playable import Playable
from game.play.sitting import Sitting
from game.screens.play.board import Shown
from game.screens.play.playing import Playing
from game.screens.shared.host import Host

WIDE = "Wide: the next face turns two layers; w takes it back."
FLIPPED = "Capitals are plain turns; k turns that round."


class Rules:
    """The rules for the screen `playing`, which is known from `begin` on. puzzle: the first one."""

    playing: Playing

    def __init__(self, puzzle: Playable) -> None:
        self.puzzle = puzzle

    @property
    def host(self) -> Host:
        """The app."""
        return self.playing.host

    @property
    def sitting(self) -> Sitting:
        """What is being played."""
        return self.playing.sitting

    # -- one sitting after another ---------------------------------------------------------------

    @abstractmethod
    def take_up(self) -> Sitting:
        """The first sitting."""

    def mounted(self) -> None:
        """The first sitting is about to be shown."""

    def furnished(self) -> None:
        """The first picture stands, and so does what it did not need."""

    @abstractmethod
    def opened(self) -> str:
        """A sitting is opened: ask the engine about it. What is said at first, if anything."""

    @abstractmethod
    def put_aside(self) -> None:
        """The screen is left, or goes to another puzzle: keep what is to be kept."""

    # -- turning ---------------------------------------------------------------------------------

    def admits(self, moves: tuple[Move, ...]) -> bool:
        """Whether these turns may be made now; where not, why is said."""
        return True

    def may_go_on(self) -> bool:
        """Whether anything may still be done at this sitting."""
        return True

    @abstractmethod
    def keep(self) -> None:
        """The attempt is over: keep it."""

    def gone_on(self) -> None:
        """The sitting has gone on, and that is shown."""

    # -- the clock -------------------------------------------------------------------------------

    def run_clock(self) -> None:
        """Time runs while the cube is in view and the attempt goes on."""
        runs = self.playing.is_seen and not self.sitting.outcome
        if runs:
            self.sitting.resume(self.host.clock())
        else:
            self.sitting.pause(self.host.clock())
        self.playing.show_clock(runs)

    # -- what the engine finds -------------------------------------------------------------------

    def answered(self, answer: Answered) -> None:
        """A search has ended."""

    def advanced(self, answer: Advanced) -> None:
        """Par is longer than was known."""

    def answered_by_pairs(self, answer: AnsweredByPairs) -> None:
        """The best total pair by pair is known."""

    def prepared(self, answer: Preparing) -> None:
        """A search waits for the large tables."""

    def failed(self, problem: str) -> None:
        """There will be no answers."""
        self.playing.say(problem)

    # -- showing ---------------------------------------------------------------------------------

    def shown(self, shown: Shown) -> Shown:
        """What is to be seen besides the cube, with what the rules add to it."""
        return shown

    def word(self) -> str:
        """What the message line says when there is nothing new to say."""
        if self.playing.letters.wide:
            return WIDE
        return self.advice() or (FLIPPED if self.playing.letters.flipped else self.remark())

    def advice(self) -> str:
        """What a player needs to know now."""
        return ""

    def remark(self) -> str:
        """What may be said where nothing else is."""
        return ""

    @abstractmethod
    def key_label(self, action: str) -> str | None:
        """What the key bar calls a command now; None as usual, nothing where it is left out."""

    @property
    def key_ranks(self) -> Mapping[str, int]:
        """Where the far side has to be asked for, its key is shown before others."""
        return {"far": 2, "restart": 7} if self.host.settings.far_side == "asked" else {}

    def offers(self, action: str) -> bool:
        """Whether there is such a command now."""
        return True

    # -- what the player asks --------------------------------------------------------------------

    @abstractmethod
    def go(self) -> None:
        """What comes naturally."""

    @abstractmethod
    def decide(self, *, called: bool) -> None:
        """Once solved: a shorter way does not exist, or it is let be."""

    @abstractmethod
    def call(self) -> None:
        """No shorter way exists, says the player."""

    @abstractmethod
    def back(self) -> None:
        """Close what was opened last; otherwise leave."""
