"""Hints, a ladder of four rungs, always from where the player now stands and as the cube is held.

    1  what to look at     where the pair lies that comes next
    2  what to aim for     its next stage, and where its pieces come to lie then
    3  the next turn
    4  the whole line

The line behind them is a shortest one from here: of all of them the easiest on the hands as the
cube is held now. The pair that comes next is the one that it slots first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from game.coach.prompt import key_words
from game.coach.telling import where
from game.cube import geometry, symmetry
from game.cube import line as lines
from game.cube.cube import PIECE_OF, Cube
from game.cube.ease import effort
from game.cube.line import Line
from game.cube.moves import line_text
from game.cube.pair import SLOT
from game.play.attempt import RUNGS, Attempt
from game.play.stages import STAGES, PairStages, cubes_along, pair_stages
from game.prose import counted

TITLES = ("where it lies", "the aim", "the next turn", "the whole line")
"""What each rung tells."""
AIMS = ("free both pieces", "line them up", "bring them together", "bring the pair home")
"""What to do next, stage by stage."""


@dataclass(frozen=True)
class Hint:
    """One rung of the ladder.

    marks: places on the cube as it is held. cube, made: where the player stood, as held, and the
    turns up to there; rest: the shortest line from there; both lines by centres.
    """

    rung: int
    words: str
    marks: frozenset[int]
    cube: Cube
    made: Line
    rest: Line

    @property
    def title(self) -> str:
        """ "Hint 2 of 4: the aim"."""
        return f"Hint {self.rung} of {RUNGS}: {TITLES[self.rung - 1]}"


def hint(
    attempt: Attempt, rung: int, solutions: Sequence[Line], colours: Mapping[str, str]
) -> Hint:
    """The hint of a rung, 1 to `RUNGS`, for an attempt that is not solved.

    solutions: the shortest ones from where it stands, at least one, turns named by centres.
    colours: centre -> colour name.
    """
    grip = attempt.cube.grip
    rest = min(solutions, key=lambda line: effort(lines.held(line, grip)))
    way = lines.held(rest, grip)
    cubes = cubes_along(attempt.cube, way)
    stages = _next_pair(attempt, cubes)
    marks: frozenset[int] = frozenset()
    if rung == 1:
        words = _look(attempt, stages, colours)
    elif rung == 2:
        words, marks = _aim(attempt, cubes, stages, colours)
    elif rung == 3:
        words = f"Turn {way[0].name}: press {key_words(way[0])}."
    else:
        words = f"From here: {line_text(way)}."
    return Hint(rung, words, marks, attempt.cube, lines.tidy(attempt.line).turns, rest)


def next_rung(last: Hint | None, attempt: Attempt) -> int:
    """The rung that comes when a hint is asked for.

    Where the cube is as it was at the last hint, one up. After turns that the line of that hint
    begins with, or in another grip, the same again, from the new place; else the first.
    """
    if last is None:
        return 1
    if attempt.cube == last.cube:
        return min(last.rung + 1, RUNGS)
    since = lines.tidy((*lines.inverse(last.made), *lines.tidy(attempt.line).turns)).turns
    return last.rung if lines.rest(since, last.rest) is not None else 1


def _next_pair(attempt: Attempt, cubes: Sequence[Cube]) -> PairStages | None:
    """The pair in play that comes home first of those that are not; None when all are."""
    found = [pair_stages(cubes, slot) for slot in attempt.position.pairs]
    left = [stages for stages in found if stages.slotted]
    return min(left, key=lambda stages: stages.slotted or 0, default=None)


def _look(attempt: Attempt, stages: PairStages | None, colours: Mapping[str, str]) -> str:
    if stages is None:
        return "Every pair is home. What was moved on the way is to be brought back."
    said = where(attempt.cube, stages.slot, colours)
    if not said:
        return f"The cross is not below: {_upright(attempt.cube)} brings it there. Then ask again."
    several = len(attempt.position.pairs) > 1
    return f"First the {stages.slot} pair: {said}." if several else f"{said[0].upper()}{said[1:]}."


def _upright(cube: Cube) -> str:
    """The shortest rotation that brings the cross below."""
    back = geometry.transpose(cube.grip)
    ways = (lines.rotation_line(geometry.compose(back, grip)) for grip in symmetry.VERTICAL)
    return line_text(min(ways, key=len))


def _aim(
    attempt: Attempt,
    cubes: Sequence[Cube],
    stages: PairStages | None,
    colours: Mapping[str, str],
) -> tuple[str, frozenset[int]]:
    if stages is None:
        left = counted(len(cubes) - 1, "turn")
        return f"{left.capitalize()} from here everything is whole.", frozenset()
    turn, aim = min(
        (turn, aim) for turn, aim in zip(stages.turns, range(len(STAGES)), strict=True) if turn
    )
    then = cubes[turn]
    pieces = (PIECE_OF[home] for home in SLOT[stages.slot].home)
    marks = frozenset(then.where[i] for piece in pieces for i in piece)
    said = where(then, stages.slot, colours) if STAGES[aim] != "slotted" else ""
    several = len(attempt.position.pairs) > 1
    words = f"The {stages.slot} pair: {AIMS[aim]}" if several else AIMS[aim].capitalize()
    words += f", {counted(turn, 'turn')} from here"
    return f"{words}: {said}." if said else f"{words}.", marks
