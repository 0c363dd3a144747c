"""The player's line beside the shortest ones: where they part, and where the turns went.

Everything said is a fact about tidied lines and their stages (`game.play.stages`), chosen and never
guessed. Turns are counted from 1 in the player's tidied line, as they count against par.

    needless   turns of a line without which it is a shortest one
    together   how many of its first turns begin a shortest one too; turns of one axis that follow
               each other may come in either order
    needed     a stage is reached later than needed when every shortest line reaches it earlier;
               how much later, is held against the latest of them
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import permutations

from game.cube import line as lines
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import Move, line_text
from game.cube.words import SIDE
from game.play.position import Position
from game.play.stages import STAGES, PairStages, Stages, stages
from game.prose import counted, listed, numeral


@dataclass(frozen=True)
class Comparison:
    """A player's line beside the nearest shortest one; number: its place among those given.

    own, nearest: their stages. together, needless: see above; needless is empty where the line
    does not hold the nearest one.
    """

    own: Stages
    nearest: Stages
    number: int
    together: int
    needless: tuple[int, ...]


def compare(position: Position, line: Line, solutions: Sequence[Line]) -> Comparison:
    """A line that solves the position beside the shortest line nearest to it.

    The nearest is one that the line holds with needless turns in between, else the one that it
    goes together with longest. solutions: shortest ones, at least one, turns named by centres.
    """
    own = lines.tidy(line).turns

    def nearness(number: int) -> tuple[bool, int]:
        solution = solutions[number]
        return bool(_needless(own, solution)), _together(own, solution)

    number = max(range(len(solutions)), key=nearness)
    nearest = solutions[number]
    return Comparison(
        stages(position, own),
        stages(position, nearest),
        number,
        _together(own, nearest),
        _needless(own, nearest),
    )


def compared_words(seen: Comparison) -> str:
    """Where the lines part, in one sentence, for someone who may see the nearest one."""
    if seen.needless:
        moves = [seen.own.line[turn - 1] for turn in seen.needless]
        which = listed([str(turn) for turn in seen.needless])
        turns = "turn" if len(moves) == 1 else "turns"
        undoing = ", which undo each other," if _cancel(moves) else ""
        return f"Without {turns} {which} ({line_text(moves)}){undoing} yours is a shortest one."
    if not seen.together:
        return "It parts from yours at the first turn."
    same = "turn is" if seen.together == 1 else f"{numeral(seen.together)} turns are"
    return f"Its first {same} yours too; then they part."


def _together(own: Line, solution: Line) -> int:
    turn = 0
    while turn < len(own) and lines.rest(own[: turn + 1], solution) is not None:
        turn += 1
    return turn


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
    return () if left else tuple(reversed(needless))


def _cancel(moves: Iterable[Move]) -> bool:
    return not lines.tidy(moves).turns


# -- one fact ------------------------------------------------------------------------------------


def fact(position: Position, line: Line, solutions: Iterable[Line]) -> str:
    """One true sentence for a player over par that tells no turn of a shortest line.

    First where the turns went, then what the shortest lines have in common that the player's
    has not, last how far it went with one of them. solutions: all the shortest ones.
    """
    own = stages(position, lines.tidy(line).turns)
    shortest = [stages(position, solution) for solution in solutions]
    for tell in (_held, _opened, _order, _late, _slow, _slotted, _faces):
        said = tell(own, shortest)
        if said:
            return said
    return _parting(own, shortest)


def _held(own: Stages, shortest: Sequence[Stages]) -> str:
    """The line holds a shortest one."""
    for other in shortest:
        needless = _needless(own.line, other.line)
        if needless:
            moves = [own.line[turn - 1] for turn in needless]
            how = "undo each other" if _cancel(moves) else "are not needed"
            how = "is not needed" if len(moves) == 1 else how
            return f"Your line holds a shortest one: {numeral(len(moves))} of its turns {how}."
    return ""


def _opened(own: Stages, shortest: Sequence[Stages]) -> str:
    """A kept slot was opened more often than any shortest line opens it."""
    for slot in dict.fromkeys(opening.slot for opening in own.openings):
        times = _openings(own, slot)
        most = max(_openings(other, slot) for other in shortest)
        if times > most:
            was = "" if times == 1 else f" {_times(times)}"
            more = f" more than {_times(most)}" if most else ""
            return f"Slot {slot} was opened{was}; no shortest way opens it{more}."
    return ""


def _order(own: Stages, shortest: Sequence[Stages]) -> str:
    """Two pairs are slotted in the other order on every shortest line."""
    for first, second in permutations(_slots(own), 2):
        if _is_before(own, first, second) and all(
            _is_before(other, second, first) for other in shortest
        ):
            return f"Every shortest way slots {second} before {first}."
    return ""


def _late(own: Stages, shortest: Sequence[Stages]) -> str:
    """A pair was freed or joined later than needed."""
    found = (_later(own, shortest, slot, stage) for slot in _slots(own) for stage in STAGES[0::2])
    return next(filter(None, found), "")


def _slotted(own: Stages, shortest: Sequence[Stages]) -> str:
    """One pair of several was slotted later than needed; of one pair it would say nothing new."""
    slots = _slots(own) if len(own.pairs) > 1 else []
    return next(filter(None, (_later(own, shortest, slot, "slotted") for slot in slots)), "")


def _later(own: Stages, shortest: Sequence[Stages], slot: str, stage: str) -> str:
    """How much later than needed a pair came to a stage; nothing where it did not."""
    at = STAGES.index(stage)
    turn = own.of(slot).turns[at]
    needed = [other.of(slot).turns[at] for other in shortest]
    latest = max((turn for turn in needed if turn is not None), default=None)
    if turn is None or latest is None or turn <= latest:
        return ""
    if stage == "freed" and turn == own.of(slot).slotted:  # it was free only when it was home
        return ""
    again = " for good" if stage == "joined" and own.of(slot).breaks else ""
    later = f"{counted(turn - latest, 'turn')} later than needed"
    return f"{_name(own, slot)} was {stage}{again} at turn {turn}, {later}."


def _slow(own: Stages, shortest: Sequence[Stages]) -> str:
    """A pair took more turns from its join to its slot than on any shortest line."""
    for slot in _slots(own):
        took = _way_home(own.of(slot))
        most = max(_way_home(other.of(slot)) for other in shortest)
        if took > most:
            more = f"more than {numeral(most)}" if most else "any"
            took_turns = f"{_name(own, slot)} took {counted(took, 'turn')} from join to slot"
            return f"{took_turns}; no shortest way takes {more}."
    return ""


def _faces(own: Stages, shortest: Sequence[Stages]) -> str:
    """A shortest line does without faces, or every one turns a face that stood still."""
    mine = _turned(own.line)
    theirs = [_turned(other.line) for other in shortest]
    fewest = min(theirs, key=len)
    if set(fewest) < set(mine):
        return f"A shortest way turns only {_named(fewest)}."
    new = [face for face in fewest if face not in mine and all(face in faces for faces in theirs)]
    return f"Every shortest way turns {_named(new)} too." if new else ""


def _parting(own: Stages, shortest: Sequence[Stages]) -> str:
    together = max(_together(own.line, other.line) for other in shortest)
    if not together:
        return "No shortest way begins as yours does."
    turns = "turn begins" if together == 1 else f"{numeral(together)} turns begin"
    return f"Your first {turns} a shortest way; the next turn leaves it."


def _slots(found: Stages) -> list[str]:
    return [pair.slot for pair in found.pairs]


def _name(own: Stages, slot: str) -> str:
    return "The pair" if len(own.pairs) == 1 else f"The {slot} pair"


def _way_home(pair: PairStages) -> int:
    """Turns from the join to the slot; 0 where the line does not come to both."""
    return (pair.slotted or 0) - (pair.joined or 0)


def _is_before(found: Stages, first: str, second: str) -> bool:
    one, other = found.of(first).slotted, found.of(second).slotted
    return one is not None and other is not None and one < other


def _openings(found: Stages, slot: str) -> int:
    return sum(opening.slot == slot for opening in found.openings)


def _turned(line: Line) -> str:
    turned = {move.name[0] for move in line}
    return "".join(face for face in FACES if face in turned)


def _named(faces: Iterable[str]) -> str:
    """Faces in words: "the right and the top"."""
    return listed([f"the {SIDE[face]}" for face in faces])


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{numeral(count)} times")
