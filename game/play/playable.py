"""What can be played: a level of a pack, an entry of the atlas, whatever else is a position."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Protocol

from game.play.position import Position


class Playable(Protocol):
    """A position, its par where that is known, and what is said of it."""

    @property
    def key(self) -> str:
        """Its name in records."""

    @property
    def position(self) -> Position:
        """The position to play."""

    @property
    def par(self) -> int | None:
        """The length of a shortest solution; None while it has not been searched."""

    @property
    def source(self) -> str:
        """Where it comes from: the title of its pack."""

    @property
    def name(self) -> str:
        """What it is called."""

    @property
    def aside(self) -> str:
        """What tells it from others of that name; nothing for most."""

    @property
    def place(self) -> str:
        """Its number where it comes from: "3 of 10"."""

    @property
    def mode(self) -> str:
        """What attempts at it are recorded as: "casual", "drill"."""

    @property
    def why(self) -> str:
        """Why it was chosen for the player, in a sentence; nothing where the player chose it."""

    def note(self, colours: Mapping[str, str]) -> str:
        """What is said once it is solved. colours: centre -> colour name."""


Beside = Callable[[Playable, int], Playable | None]
"""What comes after a puzzle (1) or before it (-1); None at the end."""
