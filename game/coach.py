"""The player's line beside the shortest ones: where they part and where the turns went.

Everything said is a fact about tidied lines and their stages, and is checked against the cube; a
sentence is chosen, never guessed. Turns are counted from 1 in the player's tidied line.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from game.cube import line as lines
from game.cube.line import Line
from game.cube.moves import Move, line_text
from game.position import Position
from game.stages import PairStages, Stages, stages


@dataclass(frozen=True)
class Comparison:
    """A player's line beside the nearest shortest one.

    own, nearest: their stages. together: the number of turns that they have in common at the
    start. needless: the turns (from 1) without which the own line is a shortest one, or empty.
    """

    own: Stages
    nearest: Stages
    together: int
    needless: tuple[int, ...]

    @property
    def over(self) -> int:
        """Turns used beyond par."""
        return len(self.own.turns) - len(self.nearest.turns)


def compare(position: Position, line: Line, solutions: Iterable[Line]) -> Comparison:
    """A line that solves the position beside the shortest line nearest to it.

    The nearest is the one that the line holds with needless turns in between, else the one that
    shares most turns at the start. solutions: shortest ones, at least one, by centres.
    """
    own = stages(position, line)
    shortest = tuple(solutions)
    for solution in shortest:
        needless = _needless(own.turns, solution)
        if needless:
            together = _together(own.turns, solution)
            return Comparison(own, stages(position, solution), together, needless)
    nearest = max(shortest, key=lambda solution: _together(own.turns, solution))
    return Comparison(own, stages(position, nearest), _together(own.turns, nearest), ())


def _together(own: Line, other: Line) -> int:
    """How many turns two tidied lines share at the start; turns of one axis in either order."""
    shared = 0
    for a, b in zip(_by_axis(own), _by_axis(other), strict=False):
        shared += len(a & b)
        if a != b:
            break
    return shared


def _by_axis(line: Line) -> list[set[Move]]:
    """The turns in groups that follow each other about one axis."""
    groups: list[set[Move]] = []
    last = None
    for move in line:
        if move.axis != last:
            groups.append(set())
        groups[-1].add(move)
        last = move.axis
    return groups


def _needless(own: Line, solution: Line) -> tuple[int, ...]:
    """The turns of `own` besides those that make up the solution in order; empty when they don't.

    Taken from the end, so that turns made in vain at first are the ones that are named.
    """
    left = list(solution)
    needless = []
    for turn in range(len(own), 0, -1):
        if left and own[turn - 1] == left[-1]:
            left.pop()
        else:
            needless.append(turn)
    return tuple(reversed(needless)) if not left else ()


def where_turns_went(position: Position, line: Line, solutions: Iterable[Line]) -> str:
    """One true sentence for a player over par: what the extra turns did.

    In this order: needless turns; kept slots opened more often; a pair freed, joined or slotted
    later than needed; where the lines part. It tells no turn of a shortest line.
    """
    seen = compare(position, line, solutions)
    if seen.needless:
        return _needless_words(seen)
    opened = _opened_words(seen)
    if opened:
        return opened
    late = _late_words(seen, len(position.pairs) > 1)
    if late:
        return late
    return f"{_started(seen)}; from there {_count(_rest(seen))} are enough."


def _needless_words(seen: Comparison) -> str:
    moves = line_text([seen.own.turns[turn - 1] for turn in seen.needless])
    which = _listed([str(turn) for turn in seen.needless])
    turns = "turn" if len(seen.needless) == 1 else "turns"
    return f"Without {turns} {which} ({moves}) your line is a shortest one."


def _opened_words(seen: Comparison) -> str:
    own = Counter(opening.slot for opening in seen.own.openings)
    need = Counter(opening.slot for opening in seen.nearest.openings)
    for slot, times in own.items():
        if times > need[slot]:
            needed = "without opening it" if not need[slot] else f"opening it {_times(need[slot])}"
            return f"Slot {slot} was opened {_times(times)}; a shorter way does {needed}."
    return ""


def _late_words(seen: Comparison, several: bool) -> str:
    """The first stage reached later than on the nearest shortest line."""
    needed = {stage.slot: stage for stage in seen.nearest.pairs}
    for mine in seen.own.pairs:
        name = f"The {mine.slot} pair" if several else "The pair"
        for word in ("freed", "joined", "slotted"):
            turn, least = getattr(mine, word), getattr(needed[mine.slot], word)
            if turn is not None and least is not None and turn > least:
                spare = turn - least
                later = f"{_number(spare)} turn{'s' if spare > 1 else ''} later than needed"
                return f"{name} was {word} at turn {turn}, {later}."
    return ""


def _started(seen: Comparison) -> str:
    if not seen.together:
        return "The first turn leaves the shortest way"
    return f"The shortest way is left after turn {seen.together}"


def _rest(seen: Comparison) -> int:
    return len(seen.nearest.turns) - seen.together


def shortest_fact(position: Position, line: Line, solutions: Iterable[Line]) -> str:
    """One true sentence about a shorter way that keeps it a puzzle: when it joins a pair."""
    own = {stage.slot: stage for stage in stages(position, line).pairs}
    best: dict[str, PairStages] = {}
    for solution in solutions:
        for stage in stages(position, solution).pairs:
            if stage.joined is not None and (
                stage.slot not in best or stage.joined < (best[stage.slot].joined or 0)
            ):
                best[stage.slot] = stage
    for slot, stage in best.items():
        mine = own[slot].joined
        if mine is not None and stage.joined is not None and stage.joined < mine:
            which = "the pair" if len(position.pairs) == 1 else f"the {slot} pair"
            return f"A shorter way joins {which} at turn {stage.joined}; yours at turn {mine}."
    return ""


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{_number(count)} times")


def _number(count: int) -> str:
    words = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    return words[count] if count < len(words) else str(count)


def _count(turns: int) -> str:
    return f"{_number(turns)} turn{'' if turns == 1 else 's'}"


def _listed(words: Sequence[str]) -> str:
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))


def tidied(line: Line) -> Line:
    """The line's turns as they count against par."""
    return lines.tidy(line).turns
