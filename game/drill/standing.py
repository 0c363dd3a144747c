"""How a player stands in the drill: ratings of the player and of each item, from the tries alone.

A try is a game between the player and the item (Glicko-2, `game.drill.rating`):

    won    1     at par without help, and in no more than `WITHIN` times the player's usual time
    half   0.5   at par without help, but slower
    lost   0     over par, with a hint, given up, or left for another try

A try whose par is not known yet is no game: it counts as one that was met, and is rated once par
is known.

The usual time is the player's own: the median of the last `USUAL_OF` tries at par of that step,
seeing and doing together; until there are `USUAL_FROM` of them any time will do. Of tries at one
position in a row only the first counts: the others are made with its solution fresh in mind.

`PERIOD` tries make a period of the rating system, which suits ten to fifteen games a player
(Glickman). Within one, ratings are those that the period would end with now. An item that is met
for the first time starts from its measured difficulty, moved by what the others of its slots, and
those that lie alike in other slots, have moved so far on average: who is weak in a slot is taken
to be so where nothing is known yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from statistics import fmean, median
from typing import NamedTuple

from game.drill.item import Item, items
from game.drill.rating import Rating, aged, rated

PERIOD = 10
WITHIN = 1.5
USUAL_OF, USUAL_FROM = 25, 5


class DrillTry(NamedTuple):
    """An attempt at an item, as the records keep it.

    at_par: without help, None while par is not known; ms: seeing and doing, where it was solved.
    """

    item: str
    position: str
    at_par: bool | None
    ms: int | None


@dataclass(frozen=True)
class Met:
    """What is known of an item: its rating, the period it is of, how often and when it was met.

    last: the number of the last try at it, counted from 0.
    """

    rating: Rating
    period: int
    times: int
    last: int


@dataclass(frozen=True)
class Standing:
    """Ratings after a number of tries. met: items by their key; times: at par, by step."""

    player: Rating = field(default_factory=Rating)
    met: Mapping[str, Met] = field(default_factory=dict)
    times: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    tries: int = 0
    periods: int = 0

    def hardness(self, item: Item) -> Rating:
        """How hard an item is for this player, met or not."""
        known = self.met.get(item.key)
        if known is not None:
            return aged(known.rating, self.periods - known.period)
        start = item.start
        slots, lies = self._moved
        by = slots.get((item.step, item.slots), 0.0) + lies.get((item.step, item.lies), 0.0)
        return Rating(start.rating + by, start.deviation, start.volatility)

    @cached_property
    def _moved(self) -> tuple[dict[object, float], dict[object, float]]:
        """How far the items met have moved from their start, by slots and by how they lie."""
        slots: dict[object, list[float]] = {}
        lies: dict[object, list[float]] = {}
        for key, known in self.met.items():
            item = items()[key]
            moved = known.rating.rating - item.start.rating
            slots.setdefault((item.step, item.slots), []).append(moved)
            lies.setdefault((item.step, item.lies), []).append(moved)
        return (
            {key: fmean(found) for key, found in slots.items()},
            {key: fmean(found) for key, found in lies.items()},
        )

    def usual_ms(self, step: str) -> float | None:
        """The player's usual time for a step; None while too little is known."""
        times = self.times.get(step, ())
        return median(times) if len(times) >= USUAL_FROM else None


@dataclass(frozen=True)
class History:
    """All tries: `settled` are the whole periods, `running` those since."""

    settled: Standing = field(default_factory=Standing)
    running: tuple[DrillTry, ...] = ()
    last: str = ""
    """The position of the last try."""

    def after(self, one: DrillTry) -> History:
        """With a try more; unchanged by one at the last position again, or at no item known."""
        if one.position == self.last or one.item not in items():
            return self
        running = (*self.running, one)
        if len(running) < PERIOD:
            return History(self.settled, running, one.position)
        return History(_settled(self.settled, running), (), one.position)

    @cached_property
    def now(self) -> Standing:
        """The standing, the running period as if it ended here."""
        return _settled(self.settled, self.running) if self.running else self.settled


def history(tries: Iterable[DrillTry]) -> History:
    """The history that these tries make, the oldest first."""
    made = History()
    for one in tries:
        made = made.after(one)
    return made


def _settled(before: Standing, tries: Sequence[DrillTry]) -> Standing:
    """The standing after a period with these tries."""
    times = dict(before.times)
    games: dict[str, list[tuple[int, float | None]]] = {}
    for number, one in enumerate(tries, before.tries):
        step = items()[one.item].step
        usual = Standing(times=times).usual_ms(step)
        games.setdefault(one.item, []).append((number, _score(one, usual)))
        if one.at_par and one.ms is not None:
            times[step] = (*times.get(step, ()), one.ms)[-USUAL_OF:]
    hardness = {key: before.hardness(items()[key]) for key in games}
    scores = {key: [s for _, s in played if s is not None] for key, played in games.items()}
    results = [(hardness[key], score) for key, made in scores.items() for score in made]
    met = dict(before.met)
    for key, played in games.items():
        known = before.met.get(key)
        lost = [(before.player, 1 - score) for score in scores[key]]
        count = (known.times if known is not None else 0) + len(played)
        met[key] = Met(rated(hardness[key], lost), before.periods + 1, count, played[-1][0])
    return Standing(
        player=rated(before.player, results),
        met=met,
        times=times,
        tries=before.tries + len(tries),
        periods=before.periods + 1,
    )


def _score(one: DrillTry, usual_ms: float | None) -> float | None:
    if one.at_par is None:
        return None
    if not one.at_par:
        return 0.0
    is_slow = usual_ms is not None and one.ms is not None and one.ms > WITHIN * usual_ms
    return 0.5 if is_slow else 1.0
