"""Is there a shorter way? Facts for one position, each with the faces to which it is limited.

    any way           every face that may turn
    both sides        the top and both sides of the slots in play
    the right side    the top, and the right-hand side of each of these slots
    the left side     the top, and the left-hand side of each

Right and left are those of someone who looks at the slot's own edge: F is the left-hand side of the
slot FR, R its right-hand side, and of BR it is the left-hand one.

A question is a search by these faces; its fact tells what the search has proven, and no more.

And how much is it worth to look at all pairs at once? Beside par stands the best total *pair by
pair*, see `game.search.pair_by_pair`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from game.cube import geometry
from game.cube.geometry import FACES, NORMAL
from game.play.position import Position
from game.prose import listed, tallied

if TYPE_CHECKING:
    from game.search.outcome import Outcome
    from game.search.pair_by_pair import PairByPair


class Way(NamedTuple):
    """A question about a position. label: what is asked, in words; faces: those that may turn."""

    label: str
    faces: str

    @property
    def limits(self) -> str:
        """The faces: "only R and U"."""
        if self.faces == FACES:
            return "any face"
        return f"only {listed(self.faces)}"


Asked: TypeAlias = "tuple[Way, Outcome | None]"
"""A question, and what its search has found; None while it is not over."""


def ways(position: Position) -> tuple[Way, ...]:
    """The questions that differ at this position, the widest first."""
    sides = (
        ("in any way", position.faces),
        ("on both sides", position.hand_faces),
        ("on the right side", _on_hand(position, 1)),
        ("on the left side", _on_hand(position, 0)),
    )
    found: dict[str, Way] = {}
    for label, faces in sides:
        if faces:
            found.setdefault(faces, Way(label, faces))
    return tuple(found.values())


def way_words(outcome: Outcome | None) -> str:
    """What a search has proven, in a few words. None: it is not over yet."""
    from game.search.outcome import NoneUpTo, Solved, Stopped  # noqa: PLC0415 - with an answer

    match outcome:
        case None:
            return "being searched"
        case Solved(par, solutions, complete):
            turns = tallied(par, "turn")
            least = "" if complete else "at least "
            return f"{turns}, {least}{tallied(len(solutions), 'way')}"
        case NoneUpTo(turns):
            return f"none of up to {turns} turns"
        case Stopped(at_least):
            return f"none under {at_least} turns; stopped there"
        case _:
            return "impossible"


def is_by_pairs(position: Position) -> bool:
    """Whether there is a best total pair by pair: of two pairs or more, every face turning."""
    return len(position.pairs) > 1 and position.faces == FACES


def pairs_words(found: PairByPair, par: int | None) -> str:
    """The best total pair by pair, in a line without full stop. par: None if it is not known."""
    begin = "Cross first, then pair by pair" if found.cross else "Pair by pair"
    order = ", ".join(found.order)
    told = f"{begin}, solved pairs kept: {found.total} turns, order {order}"
    return told if par is None else f"{told}; all at once: {par}"


def sides_of(slot: str) -> tuple[str, str]:
    """The left-hand and the right-hand side of a slot, as seen by who looks at its edge."""
    one, other = slot[0], slot[1]
    outward = geometry.add(NORMAL[one], NORMAL[other])
    rightward = geometry.cross(NORMAL["U"], outward)
    return (other, one) if geometry.dot(NORMAL[one], rightward) > 0 else (one, other)


def _on_hand(position: Position, side: int) -> str:
    """The top and the sides at one hand of the slots in play, where they may turn."""
    at_hand = {"U", *(sides_of(slot)[side] for slot in position.pairs)}
    return "".join(face for face in position.faces if face in at_hand)
