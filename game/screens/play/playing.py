"""The screen at which one plays, as its parts and its rules see it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from textual.timer import Timer

from game.cube.moves import Move
from game.engine.answers import Answer
from game.play.sitting import Sitting
from game.screens.play.board import Board, Shown
from game.screens.play.letters import Letters
from game.screens.shared.frame import MUTED
from game.screens.shared.host import Host


@dataclass
class Opened:
    """What the player has opened or asked for at the position in hand.

    focus: the player's own choice of colouring, None for the usual one. far, pad: the far side,
    the turn pad. reveal: the solutions. gives_up, leaves: the key was pressed once.
    """

    focus: bool | None = None
    far: bool = False
    pad: bool = False
    reveal: bool = False
    gives_up: bool = False
    leaves: bool = False


class Playing(Protocol):
    """What there is at the screen, and what it can be told to do."""

    sitting: Sitting
    opened: Opened
    letters: Letters

    @property
    def host(self) -> Host:
        """The app."""

    @property
    def board(self) -> Board:
        """The cube and what stands beside it."""

    @property
    def is_seen(self) -> bool:
        """Whether the cube is in view: no other screen is above, and the window is large enough."""

    @property
    def is_active(self) -> bool:
        """Whether no other screen is above."""

    @property
    def is_typing(self) -> bool:
        """Whether a line is being typed."""

    def open(self, sitting: Sitting) -> None:
        """Go on with another sitting."""

    def turn(self, moves: tuple[Move, ...]) -> None:
        """Make turns, as the rules admit them."""

    def after(self, move: Move | None, said: str = "") -> None:
        """The sitting has gone on by `move`; a refusal is said."""

    def show(self, move: Move | None = None, said: str = "", tone: str = MUTED) -> None:
        """Show what was done: `move` led to it, `said` goes into the message line."""

    def say(self, said: str) -> None:
        """A word of warning in the message line."""

    def hush(self) -> None:
        """Back to the standing word."""

    def speak(self) -> None:
        """Write the message line anew: what is to be said may depend on the time."""

    def refresh_picture(self, move: Move | None = None) -> None:
        """Have everything shown as it is."""

    def shown(self) -> Shown:
        """What is to be seen besides the cube."""

    def run_clock(self) -> None:
        """Let the clock run or stand, as the rules have it."""

    def show_clock(self, runs: bool) -> None:
        """Let the numbers of the clock run or stand."""

    def soon(self, act: Callable[[], None]) -> None:
        """Have something done once the picture stands."""

    def later(self, act: Callable[..., None], *values: object) -> None:
        """Have something done after all that waits."""

    def every(self, seconds: float, act: Callable[[], None], *, pause: bool = False) -> Timer:
        """Have something done again and again, while the screen stands."""

    def set_focus(self, widget: None) -> None:
        """Have no widget take the keys."""

    def hear(self, answer: Answer) -> None:
        """Take what the engine answers."""

    def leave(self, result: bool | None = None) -> None:
        """Leave the screen with this result."""
