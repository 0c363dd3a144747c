"""The one idea of each pack that comes with the program, as a condition on where pieces lie.

A condition is asked of a position and a slot of it in play (unsolved at the start, to be solved).
"""

from __future__ import annotations

from collections.abc import Callable

from game.cube import pair
from game.cube.geometry import STICKERS
from game.cube.moves import FACE_MOVES, turned_face
from game.cube.pair import SLOTS
from game.play.position import Position

Condition = Callable[[Position, str], bool]


# -- what the conditions are made of -------------------------------------------------------------


def _alone(position: Position) -> bool:
    """One pair in play, and every other slot kept."""
    return len(position.pairs) == 1 and not position.open


def _corner_above(position: Position, slot: str) -> bool:
    return pair.in_top(pair.pair_place(position.cube, slot).corner)


def _edge_above(position: Position, slot: str) -> bool:
    return pair.in_top(pair.pair_place(position.cube, slot).edge)


def _both_above(position: Position, slot: str) -> bool:
    return _corner_above(position, slot) and _edge_above(position, slot)


def _cross_colour_up(position: Position, slot: str) -> bool:
    return STICKERS[pair.pair_place(position.cube, slot).corner].face == "U"


def _touching(position: Position, slot: str) -> bool:
    """Whether the pieces lie side by side: their places differ by one step along one axis."""
    corner, edge = (STICKERS[i].place for i in pair.pair_place(position.cube, slot))
    step = tuple(a - b for a, b in zip(corner, edge, strict=True))
    return sum(map(abs, step)) == 1


def _joined(position: Position, slot: str) -> bool:
    return pair.is_joined(position.cube, slot)


def _joined_by_a_side(position: Position, slot: str) -> bool:
    """Whether one turn of one side face joins the pair."""
    sides = (move for move in FACE_MOVES if turned_face(move) in "FBRL")
    return any(pair.is_joined(position.cube.turn((move,)), slot) for move in sides)


def _astray(position: Position, slot: str) -> bool:
    place = pair.pair_place(position.cube, slot)
    return pair.is_astray(pair.placement(place, slot))


def _at_home(position: Position, slot: str) -> tuple[bool, bool]:
    """Whether the corner and the edge lie in their own slot, whichever way round."""
    corner, edge = (
        not pair.in_top(i) and pair.slot_at(i) == slot for i in pair.pair_place(position.cube, slot)
    )
    return corner, edge


# -- the packs -----------------------------------------------------------------------------------


def _first_turns(position: Position, slot: str) -> bool:
    """One pair in play, both pieces in the top layer, the other three slots kept."""
    return _alone(position) and _both_above(position, slot)


def _side_by_side(position: Position, slot: str) -> bool:
    """Both in the top layer and joined."""
    return _first_turns(position, slot) and _joined(position, slot)


def _one_turn_apart(position: Position, slot: str) -> bool:
    """Both in the top layer, cross colour sideways, not joined; one turn of a side joins them."""
    return (
        _first_turns(position, slot)
        and not _cross_colour_up(position, slot)
        and not _joined(position, slot)
        and _joined_by_a_side(position, slot)
    )


def _across_the_top(position: Position, slot: str) -> bool:
    """Both in the top layer, cross colour sideways, not touching; no turn of a side joins them."""
    return (
        _first_turns(position, slot)
        and not _cross_colour_up(position, slot)
        and not _touching(position, slot)
        and not _joined_by_a_side(position, slot)
    )


def _uneasy_neighbours(position: Position, slot: str) -> bool:
    """Both in the top layer, cross colour sideways, touching but not joined."""
    return (
        _first_turns(position, slot)
        and not _cross_colour_up(position, slot)
        and _touching(position, slot)
        and not _joined(position, slot)
    )


def _face_up(position: Position, slot: str) -> bool:
    """Both in the top layer, cross colour up, not touching."""
    return (
        _first_turns(position, slot)
        and _cross_colour_up(position, slot)
        and not _touching(position, slot)
    )


def _under_one_lid(position: Position, slot: str) -> bool:
    """Both in the top layer, cross colour up, touching."""
    return (
        _first_turns(position, slot)
        and _cross_colour_up(position, slot)
        and _touching(position, slot)
    )


def _edge_at_home(position: Position, slot: str) -> bool:
    """The edge in its own slot, either way round; the corner in the top layer."""
    home = _at_home(position, slot) == (False, True)
    return _alone(position) and home and _corner_above(position, slot)


def _corner_at_home(position: Position, slot: str) -> bool:
    """The corner in its own slot, any way round; the edge in the top layer."""
    home = _at_home(position, slot) == (True, False)
    return _alone(position) and home and _edge_above(position, slot)


def _home_but_wrong(position: Position, slot: str) -> bool:
    """Both in their own slot and the pair not solved; another slot may be open."""
    return len(position.pairs) == 1 and _at_home(position, slot) == (True, True)


def _gone_astray(position: Position, slot: str) -> bool:
    """One pair in play, and every slot but its own that holds a piece of it is open."""
    held = {pair.slot_at(i) for i in pair.pair_place(position.cube, slot)} - {"", slot}
    one = len(position.pairs) == 1
    return one and _astray(position, slot) and set(position.open) == held


def _the_workshop(position: Position, slot: str) -> bool:
    """One pair in play, one other slot open, and no piece of the pair in it."""
    one = len(position.pairs) == len(position.open) == 1
    return one and not _astray(position, slot)


def _two_faces(position: Position, slot: str) -> bool:
    """One pair in play, every other slot kept; only the top and one side of its slot may turn."""
    return _alone(position) and position.faces in (slot[0] + "U", slot[1] + "U")


def _two_at_once(position: Position, slot: str) -> bool:
    """Two pairs in play, none of their pieces in another slot; the other two slots kept."""
    return len(position.pairs) == 2 and not position.open and not _astray(position, slot)


def _three_at_once(position: Position, slot: str) -> bool:
    """The cross done, three pairs in play, the fourth slot kept."""
    return (
        pair.is_cross_solved(position.cube)
        and len(position.pairs) == len(SLOTS) - 1
        and not position.open
    )


def _four_at_once(position: Position, slot: str) -> bool:
    """The cross done, and all four pairs in play."""
    return pair.is_cross_solved(position.cube) and position.pairs == SLOTS


def _cross_and_all(position: Position, slot: str) -> bool:
    """The cross not done, and all four pairs in play."""
    return not pair.is_cross_solved(position.cube) and position.pairs == SLOTS


CONDITIONS: dict[str, Condition] = {
    "00-first-turns": _first_turns,
    "01-side-by-side": _side_by_side,
    "02-one-turn-apart": _one_turn_apart,
    "03-across-the-top": _across_the_top,
    "04-uneasy-neighbours": _uneasy_neighbours,
    "05-face-up": _face_up,
    "06-under-one-lid": _under_one_lid,
    "07-edge-at-home": _edge_at_home,
    "08-corner-at-home": _corner_at_home,
    "09-home-but-wrong": _home_but_wrong,
    "10-gone-astray": _gone_astray,
    "11-the-workshop": _the_workshop,
    "12-two-faces": _two_faces,
    "13-two-at-once": _two_at_once,
    "14-three-at-once": _three_at_once,
    "15-four-at-once": _four_at_once,
    "16-cross-and-all": _cross_and_all,
}
"""Pack id -> its condition; the docstring of each states it."""
