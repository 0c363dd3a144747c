"""What a solved attempt is worth: turns against par, and the marks.

Three marks, each containing the one before:

    solved    the cross and every slot to solve are done
    at hand   no shorter way exists with the faces at the hands: the top and both sides of the
              slots in play (where those cannot solve the position at all, as at par)
    at par    no shorter way exists

and one for judgement: *called*, earned by declaring rightly, par hidden, that no shorter way
exists. After a hint, or once the solutions were shown, only *solved* can be earned.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from game.play.attempt import Attempt


class Mark(Enum):
    """What a solved attempt can earn."""

    SOLVED = "solved"
    AT_HAND = "at hand"
    AT_PAR = "at par"
    CALLED = "called"


class Call(Enum):
    """Whether the player declared that no shorter way exists, and was right."""

    NONE = ""
    RIGHT = "right"
    WRONG = "wrong"


@dataclass(frozen=True)
class Score:
    """A solved attempt held against par. at_hand is None while that is still being searched."""

    turns: int
    executed: int
    par: int
    at_hand: bool | None
    shown: bool
    hinted: bool
    call: Call

    @property
    def over(self) -> int:
        """Turns used beyond par; never negative."""
        return self.turns - self.par

    @property
    def at_par(self) -> bool:
        """Whether no shorter way exists."""
        return self.over == 0

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The marks earned, in the order of `Mark`."""
        earned = [Mark.SOLVED]
        if not (self.shown or self.hinted):
            earned += [Mark.AT_HAND] * bool(self.at_hand)
            earned += [Mark.AT_PAR] * self.at_par
            earned += [Mark.CALLED] * (self.call is Call.RIGHT)
        return tuple(earned)


def score(
    attempt: Attempt, par: int, hand_par: int | None, *, shown: bool = False, called: bool = False
) -> Score:
    """The score of a solved attempt.

    hand_par: the shortest length with the faces at the hands, or par where those cannot solve it;
    None when it is not known yet. Raises ValueError for an attempt that is not solved.
    """
    if not attempt.is_solved:
        raise ValueError("only a solved attempt has a score")
    turns = attempt.turns
    at_hand: bool | None = True if turns == par else None
    if hand_par is not None:
        at_hand = turns <= hand_par
    call = Call.NONE
    if called:
        call = Call.RIGHT if turns == par else Call.WRONG
    return Score(turns, attempt.executed, par, at_hand, shown, attempt.is_hinted, call)
