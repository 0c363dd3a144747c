"""What a pressed letter means: capitals, wide turns, and noticing Caps Lock.

    r          the face clockwise        R, Shift+r    the other way
    w then r   the wide turn

A terminal that only sends characters cannot tell Caps Lock from Shift. So capitals can be read
the other way round (`flipped`), and when several turns in a row went the other way by their case
the player is told how. A terminal that tells Shift apart sends `shift+r`: always the other way.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from game.cube.moves import MOVES, Move

SUSPICIOUS = 4
"""Turns in a row, all the other way by their case, after which Caps Lock is suspected."""


@dataclass(frozen=True)
class Letters:
    """How the next letter is read.

    flipped: capitals are plain turns and small letters go the other way. wide: the next face turn
    is a wide one. backs: turns in a row that went the other way by their case.
    """

    flipped: bool = False
    wide: bool = False
    backs: int = 0

    def press(self, key: str) -> tuple[Move, Letters]:
        """The move that a key of a turn means, and how the next one is read.

        key: a letter of a face, slice or rotation, in either case, or `shift+` and the letter.
        """
        letter = key.removeprefix("shift+")
        told = key != letter
        back = told or letter.isupper() != self.flipped
        move, after = self.turn(letter.lower(), back)
        return move, replace(after, backs=self.backs + 1 if back and not told else 0)

    def turn(self, letter: str, back: bool) -> tuple[Move, Letters]:
        """The move of a letter when its direction is known, as for a click."""
        name = letter if letter in "xyz" else letter.upper()
        if self.wide and name in "FBRLUD":
            name += "w"
        return MOVES[name + ("'" if back else "")], replace(self, wide=False, backs=0)

    @property
    def is_suspicious(self) -> bool:
        """Whether just now so many turns in a row went the other way that Caps Lock may be why."""
        return self.backs == SUSPICIOUS

    def toggle_wide(self) -> Letters:
        """With the prefix for wide turns set, or taken back."""
        return replace(self, wide=not self.wide)

    def toggle_flipped(self) -> Letters:
        """With capitals read the other way round than now."""
        return replace(self, flipped=not self.flipped, backs=0)


def is_foreign(character: str | None) -> bool:
    """Whether a key typed a letter of another script, which no command can have."""
    return (
        character is not None
        and len(character) == 1
        and character.isalpha()
        and not character.isascii()
    )
