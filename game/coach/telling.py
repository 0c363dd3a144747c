"""A line told turn by turn: what each turn comes to, and where a pair lies, in words.

What is told are the stages of the line, see `game.play.stages`; a join that does not last, a join
that breaks and a kept slot that is opened or closed are told too.
"""

from __future__ import annotations

from collections.abc import Mapping

from game.cube import geometry, pair, symmetry
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.pair import PairPlace
from game.cube.words import corner_words, pair_words
from game.play.position import Position
from game.play.stages import PairStages, Stages, stages
from game.prose import listed


def told(position: Position, line: Line) -> tuple[str, ...]:
    """For each move of the line, what it brings about: sentences, or nothing."""
    found = stages(position, line)
    return tuple(" ".join(_told_at(turn, found, position)) for turn in range(1, len(line) + 1))


HOME, FREE, JOINS, JOINS_FOR_NOW, PARTED = range(5)
_OF_ONE = ("is home", "is free", "joins", "joins, for a while", "comes apart")
_OF_SEVERAL = ("are home", "are free", "join", "join, for a while", "come apart")


def _told_at(turn: int, found: Stages, position: Position) -> list[str]:
    happened: dict[int, list[str]] = {}
    for slot in position.pairs:
        for event in _events(turn, found.of(slot)):
            happened.setdefault(event, []).append(slot)
    alone = len(position.pairs) == 1
    said = [_sentence(event, slots, alone) for event, slots in happened.items()]
    for opening in found.openings:
        if turn == opening.opened:
            said.append(f"Slot {opening.slot} is opened.")
        if turn == opening.closed:
            said.append(f"Slot {opening.slot} is closed again.")
    return said


def _events(turn: int, found: PairStages) -> list[int]:
    """What happens to a pair at a turn."""
    if turn == found.slotted:
        return [HOME]
    events = [FREE] if turn == found.freed else []
    if turn in found.joins:
        events.append(JOINS if turn == found.joined else JOINS_FOR_NOW)
    if turn in found.breaks:
        events.append(PARTED)
    return events


def _sentence(event: int, slots: list[str], alone: bool) -> str:
    """What happens to these pairs. alone: whether only one is in play."""
    if alone:
        return "Both pieces are free." if event == FREE else f"The pair {_OF_ONE[event]}."
    if len(slots) == 1:
        return f"The {slots[0]} pair {_OF_ONE[event]}."
    return f"The {listed(slots)} pairs {_OF_SEVERAL[event]}."


def where(cube: Cube, slot: str, colours: Mapping[str, str]) -> str:
    """Where the slot's pair lies, as it is seen in the cube's grip; nothing in a tilted grip.

    Of a joined pair the corner tells it all. colours: centre -> colour name. The slot is the one
    whose centres these are, wherever it is.
    """
    grip = cube.grip
    if grip not in symmetry.VERTICAL:
        return ""
    turn = geometry.whole(grip)
    place = PairPlace(*(turn[i] for i in pair.pair_place(cube, slot)))
    held = symmetry.slot_image(slot, grip)
    seen = {symmetry.face_image(face, grip): colour for face, colour in colours.items()}
    if pair.is_joined(cube, slot):
        return f"joined, {corner_words(place.corner, held, seen)}"
    return pair_words(place, held, seen)
