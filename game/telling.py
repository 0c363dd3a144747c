"""A line told turn by turn: what each turn comes to, and where a pair lies, in words.

joins     the pair's pieces come side by side as in their solved slot, for good or for a while
free      no piece of the pair is in a wrong place below the top layer from here on
home      the pair is in its slot, and stays there
opened    a kept slot, when a turn of the top moves one of its pieces; closed once it is whole
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from game.cube import geometry, pair, symmetry
from game.cube import line as lines
from game.cube.cube import Cube
from game.cube.line import Line
from game.cube.pair import PairPlace
from game.cube.words import pair_words
from game.position import Position


def told(position: Position, line: Line) -> tuple[str, ...]:
    """For each move of the line, what it brings about: one or two sentences, or nothing."""
    cubes = [position.cube]
    for move in line:
        cubes.append(cubes[-1].turn((move,)))
    sentences: list[list[str]] = [[] for _ in line]
    for slot in position.pairs:
        name = "The pair" if len(position.pairs) == 1 else f"The {slot} pair"
        _tell_pair(name, slot, cubes, sentences)
    for slot in position.kept:
        _tell_kept(slot, cubes, line, sentences)
    return tuple(" ".join(each) for each in sentences)


def _tell_pair(name: str, slot: str, cubes: Sequence[Cube], sentences: list[list[str]]) -> None:
    free = [_is_free(cube, slot) for cube in cubes]
    joined = [pair.is_joined(cube, slot) for cube in cubes]
    home = [pair.is_pair_solved(cube, slot) for cube in cubes]
    for turn, said in enumerate(sentences, 1):
        if turn == _for_good(home):
            said.append(f"{name} is home.")
            continue
        if turn == _for_good(free) and not free[0]:
            said.append("Both pieces are free." if name == "The pair" else f"{name} is free.")
        if joined[turn] and not joined[turn - 1]:
            ever = turn == _for_good(joined)
            said.append(f"{name} joins." if ever else f"{name} joins, for a while.")
        if joined[turn - 1] and not joined[turn]:
            said.append(f"{name} comes apart.")


def _tell_kept(slot: str, cubes: Sequence[Cube], line: Line, sentences: list[list[str]]) -> None:
    whole = [pair.is_pair_solved(cube, slot) for cube in cubes]
    is_open = False
    for turn, said in enumerate(sentences, 1):
        before = cubes[turn - 1]
        faces = {move.name[0] for move in lines.tidy((line[turn - 1],), before.grip).turns}
        lifted = any(pair.in_top(place) for place in pair.pair_place(before, slot))
        if "U" in faces and lifted and not is_open:
            is_open = True
            said.append(f"Slot {slot} is opened.")
        elif is_open and turn == _for_good(whole):
            said.append(f"Slot {slot} is closed again.")


def _is_free(cube: Cube, slot: str) -> bool:
    """Whether each piece of the pair is in the top layer or at home."""
    places = pair.pair_place(cube, slot)
    homes = pair.SLOT[slot].home
    return all(pair.in_top(place) or place == at for place, at in zip(places, homes, strict=True))


def _for_good(flags: Sequence[bool]) -> int | None:
    """The first index from which all flags are set; None when the last is not."""
    if not flags[-1]:
        return None
    return max((i + 1 for i, flag in enumerate(flags) if not flag), default=0)


def where(cube: Cube, slot: str, colours: Mapping[str, str]) -> str:
    """Where the slot's pair lies, as it is seen in the cube's grip; nothing in a tilted grip.

    colours: centre -> colour name. The slot is the one whose centres these are, wherever it is.
    """
    grip = cube.grip
    if grip not in symmetry.VERTICAL:
        return ""
    turn = geometry.whole(grip)
    place = PairPlace(*(turn[i] for i in pair.pair_place(cube, slot)))
    seen = {symmetry.face_image(face, grip): colour for face, colour in colours.items()}
    return pair_words(place, symmetry.slot_image(slot, grip), seen)
