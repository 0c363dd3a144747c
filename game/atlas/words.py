"""Short words for rows and columns of the atlas, where a table has no room for whole sentences."""

from __future__ import annotations

from collections.abc import Mapping

from game.cube.cube import PIECE_OF
from game.cube.geometry import STICKERS
from game.cube.pair import SLOT, in_top, slot_at
from game.cube.words import SIDE, slot_column

Colours = Mapping[str, str]
"""Centre -> colour name."""


def looks(place: int) -> str:
    """Where a sticker looks: "up", "front"."""
    face = STICKERS[place].face
    return {"U": "up", "D": "down"}.get(face, SIDE[face])


def corner_column(place: int, slot: str) -> str:
    """Where a slot's corner is, whatever its twist: "above", "in slot", "in BL".

    A corner in the top layer is above its own slot, as cells are listed.
    """
    if in_top(place):
        return "above"
    column = slot_column(place)
    return "in slot" if column == slot else f"in {column}"


def corner_short(place: int, slot: str, colours: Colours) -> str:
    """Where a slot's corner is and where its cross colour looks: "above, white up"."""
    return f"{corner_column(place, slot)}, {colours['D']} {looks(place)}"


def edge_short(place: int, slot: str, colours: Colours) -> str:
    """Where a slot's edge is and where one of its colours looks: "front, green up".

    place: of the sticker whose home is the slot's edge sticker. In the top layer the colour that is
    up is told, in a slot that of the edge sticker.
    """
    own, other = (colours[STICKERS[home].face] for home in edge_homes(slot))
    if in_top(place):
        return f"{SIDE[side_of(place)]}, {own if looks(place) == 'up' else other} up"
    where = slot_at(place)
    return f"{'in slot' if where == slot else f'in {where}'}, {own} {looks(place)}"


def side_of(place: int) -> str:
    """The side of the top layer at which an edge lies."""
    (side,) = (STICKERS[p].face for p in PIECE_OF[place] if STICKERS[p].face != "U")
    return side


def edge_homes(slot: str) -> tuple[int, int]:
    """The homes of the stickers of a slot's edge, the one that is looked at leading."""
    home = SLOT[slot].home.edge
    (other,) = (sticker for sticker in PIECE_OF[home] if sticker != home)
    return home, other
