"""A line told turn by turn: what each turn comes to, and where a pair lies, in words.

What is told are the stages of the line, see `game.stages`; a join that does not last, a join that
breaks and a kept slot that is opened or closed are told too.
"""

from __future__ import annotations

from collections.abc import Mapping

from game.cube import geometry, pair, symmetry
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.pair import PairPlace
from game.cube.words import corner_words, pair_words
from game.position import Position
from game.stages import PairStages, Stages, stages


def told(position: Position, line: Line) -> tuple[str, ...]:
    """For each move of the line, what it brings about: sentences, or nothing."""
    found = stages(position, line)
    return tuple(" ".join(_told_at(turn, found, position)) for turn in range(1, len(line) + 1))


def _told_at(turn: int, found: Stages, position: Position) -> list[str]:
    said = []
    for slot in position.pairs:
        name = "The pair" if len(position.pairs) == 1 else f"The {slot} pair"
        said += _told_of_pair(name, turn, found.of(slot))
    for opening in found.openings:
        if turn == opening.opened:
            said.append(f"Slot {opening.slot} is opened.")
        if turn == opening.closed:
            said.append(f"Slot {opening.slot} is closed again.")
    return said


def _told_of_pair(name: str, turn: int, found: PairStages) -> list[str]:
    if turn == found.slotted:
        return [f"{name} is home."]
    said = []
    if turn == found.freed:
        said.append("Both pieces are free." if name == "The pair" else f"{name} is free.")
    if turn in found.joins:
        said.append(f"{name} joins." if turn == found.joined else f"{name} joins, for a while.")
    if turn in found.breaks:
        said.append(f"{name} comes apart.")
    return said


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
