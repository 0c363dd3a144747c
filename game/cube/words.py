"""Where a pair lies, in words: all 24 x 24 states, each told apart from every other.

corner above its slot, white to the right; edge in the top layer at the back, green up
"""

from __future__ import annotations

from collections.abc import Mapping

from game.cube.colours import HOME_COLOURS
from game.cube.geometry import CENTRES, STICKERS, UNMOVED, Matrix
from game.cube.pair import SLOT, PairPlace, in_top
from game.cube.symmetry import VERTICAL, slot_image

TOWARDS = {
    "U": "up",
    "D": "down",
    "F": "to the front",
    "B": "to the back",
    "R": "to the right",
    "L": "to the left",
}
SIDE = {"F": "front", "B": "back", "R": "right", "L": "left", "U": "top", "D": "bottom"}
AT_SIDE = {"F": "at the front", "B": "at the back", "R": "on the right", "L": "on the left"}


def corner_words(place: int, slot: str, colours: Mapping[str, str] = HOME_COLOURS) -> str:
    """Where a slot's corner lies and where its cross colour looks. place: of its cross sticker."""
    column = slot_column(place)
    if in_top(place):
        where = "above its slot" if column == slot else f"above {column}"
    else:
        where = "in its slot" if column == slot else f"in slot {column}"
    return f"corner {where}, {colours['D']} {TOWARDS[STICKERS[place].face]}"


def edge_words(place: int, slot: str, colours: Mapping[str, str] = HOME_COLOURS) -> str:
    """Where a slot's edge lies and where one of its colours looks. place: of its home sticker."""
    x, y, z = STICKERS[place].place
    face = STICKERS[place].face
    if y == 0:
        column = slot_column(place)
        where = "in its slot" if column == slot else f"in slot {column}"
    else:
        side = next(f for f in "FBRL" if _leans(f, x, z))
        where = f"in the {'top' if y == 1 else 'bottom'} layer {AT_SIDE[side]}"
    colour = colours[STICKERS[SLOT[slot].home.edge].face]
    return f"edge {where}, {colour} {TOWARDS[face]}"


def pair_words(place: PairPlace, slot: str, colours: Mapping[str, str] = HOME_COLOURS) -> str:
    """Both pieces of a slot, in one sentence without a full stop."""
    corner = corner_words(place.corner, slot, colours)
    return f"{corner}; {edge_words(place.edge, slot, colours)}"


def slot_column(place: int) -> str:
    """The slot in whose column (top layer included) a corner or a middle-layer edge lies."""
    x, _, z = STICKERS[place].place
    return ("F" if z == 1 else "B") + ("R" if x == 1 else "L")


def _leans(face: str, x: int, z: int) -> bool:
    """Whether an edge place in the top or bottom layer lies at that side."""
    normal = STICKERS[CENTRES[face]].normal
    return (x, z) == (normal[0], normal[2])


def slot_words(slot: str, grip: Matrix = UNMOVED, colours: Mapping[str, str] = HOME_COLOURS) -> str:
    """A slot in words, as it is seen in a grip: "front right".

    Where the cross is not below there is no front right; then by its colours: "green-orange".
    """
    if grip in VERTICAL:
        return " ".join(SIDE[face] for face in slot_image(slot, grip))
    return "-".join(colours[face] for face in slot)
