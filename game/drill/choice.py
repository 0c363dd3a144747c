"""Which item comes next, and why.

Two of three times one is drawn by weight: most likely are those that the player is expected to win
one time in five, so weak ones come more often than strong ones, and hopeless ones seldom. The
third time it is the one that has waited longest. So nothing is forgotten: while the same steps
stay open, each of their n items comes at least once in 3 n positions. None comes again within
`APART` positions.

A step is open once the player is expected to win one in `ODDS` against its average item, taken to
be two deviations weaker than rated; the first always is.

What comes follows from the tries alone. So whoever leaves and comes back finds the same position.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from statistics import fmean

from game.deal.dice import Dice
from game.drill.item import STEPS, Item, items_of
from game.drill.rating import Rating, expected
from game.drill.standing import Standing
from game.play.position import Position
from game.prose import counted

EVERY = 3
"""Every third position goes to the item that has waited longest."""
APART = 3
ODDS = 10
PARTS = 1_000_000
"""Weights are whole numbers, since dice are exact: this many parts of one."""


@dataclass(frozen=True)
class Choice:
    """The item that comes next, one position of it, and why it is this one, in a line."""

    item: Item
    position: Position
    why: str


def choose(standing: Standing) -> Choice:
    """What comes after the tries so far."""
    pool = [item for step in open_steps(standing) for item in items_of(step)]
    fresh = [item for item in pool if not _is_recent(item, standing)]
    dice = Dice(f"drill {standing.tries}")
    if standing.tries % EVERY == EVERY - 1:
        item = _longest_waiting(fresh, standing, dice)
        why = _waited(item, standing)
    else:
        item = fresh[dice.weighted([_weight(item, standing) for item in fresh])]
        why = _weakness(item, pool, standing)
    return Choice(item, item.deal(f"drill {standing.tries} {item.key}"), why)


def open_steps(standing: Standing) -> tuple[str, ...]:
    """The steps that are open to the player."""
    player = standing.player
    low = replace(player, rating=player.rating - 2 * player.deviation)
    return tuple(
        step for step in STEPS if step == STEPS[0] or expected(low, _average(step)) >= 1 / ODDS
    )


@cache
def _average(step: str) -> Rating:
    starts = [item.start for item in items_of(step)]
    return replace(starts[0], rating=fmean(start.rating for start in starts))


def _is_recent(item: Item, standing: Standing) -> bool:
    known = standing.met.get(item.key)
    return known is not None and known.last >= standing.tries - APART


def _longest_waiting(fresh: list[Item], standing: Standing, dice: Dice) -> Item:
    """Of those never met any one, else the one whose last try is oldest."""
    new = [item for item in fresh if item.key not in standing.met]
    return dice.pick(new) if new else min(fresh, key=lambda item: standing.met[item.key].last)


def _weight(item: Item, standing: Standing) -> int:
    """At least one part, so that anything may come."""
    wins = expected(standing.player, standing.hardness(item))
    return 1 + int(PARTS * wins * (1 - wins) ** 4)


# -- why this one --------------------------------------------------------------------------------


NEW = "New: you have not met it yet."


def _waited(item: Item, standing: Standing) -> str:
    known = standing.met.get(item.key)
    if known is None:
        return NEW
    return f"Its turn: you last met it {counted(standing.tries - known.last, 'position')} ago."


def _weakness(item: Item, pool: list[Item], standing: Standing) -> str:
    """Weaker only if the figures say so, rounded as they stand; nothing of what is unknown."""
    if not standing.met:
        return NEW
    wins = _of_ten(expected(standing.player, standing.hardness(item)))
    mean = _of_ten(fmean(expected(standing.player, standing.hardness(other)) for other in pool))
    if item.key not in standing.met:
        kind = "Not met yet"
    else:
        kind = "One of your weaker ones" if wins < mean else "Drawn by lot"
    return f"{kind}: {wins} of ten expected to be won, {mean} of ten on average."


def _of_ten(chance: float) -> int:
    return round(10 * chance)
