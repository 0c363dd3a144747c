"""What a drill rates: its items, each a kind of position small enough to be practised.

    step       an item is                                        there are   key
    one        a cell of the atlas at a slot, the others kept        164   one/FR/a3
    astray     a group of cells with a piece in another slot,
               at a slot; the slot that holds the piece is open         12   astray/FR/edge astray
    two        two slots, and whether a piece of each pair is
               trapped below the top layer; the others kept             24   two/FR+BL/free+trapped
    workshop   the same with the other two slots open                   24   workshop/FR+BL/...
    three      three slots, and how many pairs are free: none, one
               or more; the other kept                                  12   three/FR+FL+BL/one free
    four       all slots, and the same                                   3   four/.../none free

A twin is an item of its own: the diagonal mirror image of a cell is another cell at the same
slot, and the other mirrors and rotations lead to other slots. An item starts from its measured
difficulty; of two pairs that is the sum, since they are measured one after the other, of more the
mean of a few deals.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import combinations, product
from statistics import fmean

from game.atlas import CELLS, Spot, named
from game.cube import pair
from game.cube.geometry import whole
from game.cube.pair import SLOTS, PairPlace
from game.cube.symmetry import to_slot
from game.deal.deal import deal_at
from game.deal.dice import Dice
from game.drill import measured
from game.drill.rating import CENTRE, Rating
from game.packs.difficulty import hidden
from game.play.position import Position
from game.play.stages import is_trapped

STEPS = ("one", "astray", "two", "workshop", "three", "four")
"""From easy to hard."""
STEP_WORDS = {
    "one": "one pair",
    "astray": "one pair, a piece astray",
    "two": "two pairs",
    "workshop": "two pairs, the others open",
    "three": "three pairs",
    "four": "four pairs",
}
LIES = ("free", "trapped")
FREE = ("none free", "one free", "more free")
"""Of three pairs or four: how many of them have no piece trapped."""
HIDDEN = 0.25
"""Difficulty of a hidden piece, as in `game.packs.difficulty`."""
POINTS_A_TURN = 100
"""Rating points for a turn of difficulty: the one who wins half wins 64 of 100 one turn down."""
START_DEVIATION = 250
"""How sure the start is: players differ by turns, so what one does soon outweighs it."""


@dataclass(frozen=True)
class Item:
    """One thing to practise.

    lies: how the pair of each slot lies: an entry's name, a group's, or one of `LIES`; of three
    pairs or four one of `FREE`.
    """

    step: str
    slots: tuple[str, ...]
    lies: tuple[str, ...]

    @property
    def key(self) -> str:
        """Its name in records."""
        return f"{self.step}/{'+'.join(self.slots)}/{'+'.join(self.lies)}"

    def deal(self, seed: str) -> Position:
        """The position of this item that belongs to a seed."""
        dice = Dice(seed)
        if len(self.slots) > 1:
            return self._pairs(dice)
        names = [cell.name for cell in CELLS if cell.group.value == self.lies[0]]
        cell = named(dice.pick(names) if self.step == "astray" else self.lies[0])
        return Spot(cell, self.slots[0], dice.pick(cell.turns)).position

    def _pairs(self, dice: Dice) -> Position:
        others = [slot for slot in SLOTS if slot not in self.slots]
        while True:
            position = deal_at(self.slots, others if self.step == "workshop" else (), dice)
            if lies_of(position, self.slots) == self.lies:
                return position

    @property
    def start(self) -> Rating:
        """Its rating before anybody has met it."""
        points = POINTS_A_TURN * (_difficulties()[self.key] - _middle())
        return Rating(CENTRE + points, START_DEVIATION)


def lies_of(position: Position, slots: tuple[str, ...]) -> tuple[str, ...]:
    """Whether a piece of each slot's pair is trapped; of three pairs or four, how many are free."""
    places = ((pair.pair_place(position.cube, slot), slot) for slot in slots)
    trapped = [is_trapped(place, slot) for place, slot in places]
    if len(slots) > 2:
        return (FREE[min(trapped.count(False), len(FREE) - 1)],)
    return tuple(LIES[each] for each in trapped)


@cache
def items() -> dict[str, Item]:
    """Every item by its key, step by step."""
    return {item.key: item for item in _items()}


def items_of(step: str) -> tuple[Item, ...]:
    """The items of a step."""
    return tuple(item for item in items().values() if item.step == step)


def _items() -> Iterator[Item]:
    for slot, cell in product(SLOTS, measured.CELLS):
        yield Item("one", (slot,), (cell,))
    for slot, group in product(SLOTS, measured.GROUPS):
        yield Item("astray", (slot,), (group,))
    for step in ("two", "workshop"):
        for slots, lies in product(combinations(SLOTS, 2), product(LIES, repeat=2)):
            yield Item(step, slots, lies)
    for step, pairs in (("three", 3), ("four", 4)):
        for in_play, free in product(combinations(SLOTS, pairs), FREE):
            yield Item(step, in_play, (free,))


# -- what they start from ------------------------------------------------------------------------


@cache
def _difficulties() -> dict[str, float]:
    """The difficulty of each item by its key."""
    return {key: _difficulty(item) for key, item in items().items()}


@cache
def _middle() -> float:
    """The mean difficulty of the first step, which is rated `CENTRE`."""
    return fmean(_difficulty(item) for item in items_of("one"))


def _difficulty(item: Item) -> float:
    if item.step == "one":
        cell = named(item.lies[0])
        seen = (Spot(cell, item.slots[0], turn).position for turn in cell.turns)
        return measured.CELLS[cell.name] + HIDDEN * fmean(map(hidden, seen))
    if item.step == "astray":
        return measured.GROUPS[item.lies[0]]
    if item.lies[0] in FREE:
        return measured.MANY[item.step][item.lies[0]]
    return sum(_mean_of(slot, lie) for slot, lie in zip(item.slots, item.lies, strict=True))


@cache
def _mean_of(slot: str, lie: str) -> float:
    """The mean difficulty of the cells at a slot that lie free, or trapped."""
    turn = whole(to_slot(slot))
    found = []
    for item in items_of("one"):
        place = PairPlace(*(turn[i] for i in named(item.lies[0]).place))
        if item.slots == (slot,) and LIES[is_trapped(place, slot)] == lie:
            found.append(_difficulty(item))
    return fmean(found)
