"""What a solved attempt is worth: turns against par, the marks, and one true fact when over par.

Three marks, each containing the one before:

    solved    the cross and every slot to solve are done
    at hand   no shorter way exists with the faces at the hands: the top and both sides of the
              slots in play (where those cannot solve the position at all, as at par)
    at par    no shorter way exists

and one for judgement: *called*, earned by declaring rightly, par hidden, that no shorter way
exists. After the solutions were shown only *solved* can be earned.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from game.attempt import Attempt
from game.cube import line as lines
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.words import SIDE
from game.stages import joined_at


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
        if not self.shown:
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
    return Score(turns, attempt.executed, par, at_hand, shown, call)


def one_fact(attempt: Attempt, solutions: Iterable[Line]) -> str:
    """One sentence, true of a shortest solution, that tells a player over par where to look.

    The turn at which a pair joins, if one joins it earlier; else the faces it does without or
    brings in; else the face it begins with. Turns are those of the tidied line.
    """
    own = lines.tidy(attempt.line).turns
    shortest = tuple(solutions)
    for slot in attempt.position.pairs:
        mine = joined_at(attempt.position, own, slot)
        theirs = [joined_at(attempt.position, line, slot) for line in shortest]
        best = min((turn for turn in theirs if turn is not None), default=None)
        if best is not None and mine is not None and best < mine:
            which = "the pair" if len(attempt.position.pairs) == 1 else f"the {slot} pair"
            return f"A shorter way joins {which} at turn {best}; yours joined it at turn {mine}."
    mine_faces = _faces(own)
    theirs_faces = sorted((_faces(line) for line in shortest), key=lambda f: (len(f), f))
    for faces in theirs_faces:
        if set(faces) < set(mine_faces):
            return f"A shorter way turns only {_named(faces)}."
    new = [face for face in theirs_faces[0] if face not in mine_faces]
    if new:
        return f"A shorter way also turns {_named(''.join(new))}."
    return f"A shorter way begins with {_named(shortest[0][0].name[0])}."


def _faces(line: Line) -> str:
    turned = {move.name[0] for move in line}
    return "".join(face for face in FACES if face in turned)


def _named(faces: str) -> str:
    """Faces in words: "the right and the top"."""
    named = [f"the {SIDE[face]}" for face in faces]
    return " and ".join(filter(None, [", ".join(named[:-1]), named[-1]]))
