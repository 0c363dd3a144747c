"""The Glicko-2 rating system: how strong a player is, how hard a position, and how sure that is.

M. E. Glickman, *Example of the Glicko-2 system*, 2013; step numbers below are the paper's. A
player and a position are rated alike: an attempt is a game between them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter

SCALE = 173.7178
CENTRE = 1500.0
TAU = 0.5
"""How fast volatility may change: the paper recommends 0.3 to 1.2 and uses 0.5."""
TOLERANCE = 1e-6
MOST_STEPS = 100
"""Of the iteration for the volatility; it takes about ten."""


@dataclass(frozen=True)
class Rating:
    """Strength (1500 is average), its deviation, and the volatility of a series of results."""

    rating: float = CENTRE
    deviation: float = 350.0
    volatility: float = 0.06


def expected(one: Rating, other: Rating) -> float:
    """The score, 0 to 1, that one is expected to make against the other (step 3)."""
    mu, mu_other = ((r.rating - CENTRE) / SCALE for r in (one, other))
    return 1 / (1 + math.exp(-_weight(other.deviation / SCALE) * (mu - mu_other)))


def _weight(phi: float) -> float:
    return 1 / math.sqrt(1 + 3 * phi**2 / math.pi**2)


def rated(one: Rating, results: Iterable[tuple[Rating, float]], tau: float = TAU) -> Rating:
    """The rating after a period with these results: (opponent, score 0 to 1) each.

    Without results it is `aged` by the period.
    """
    mu, phi = (one.rating - CENTRE) / SCALE, one.deviation / SCALE
    information = gain = 0.0
    for other, games in groupby(results, itemgetter(0)):  # many in a row are against the same
        weight = _weight(other.deviation / SCALE)
        chance = expected(one, other)
        scores = [score for _, score in games]
        information += len(scores) * weight**2 * chance * (1 - chance)
        gain += weight * (sum(scores) - len(scores) * chance)
    if information == 0:
        return aged(one, 1)
    variance = 1 / information
    sigma = _volatility(phi, variance, variance * gain, one.volatility, tau)
    before = math.hypot(phi, sigma)  # step 6
    phi = 1 / math.sqrt(1 / before**2 + information)  # step 7
    mu += phi**2 * gain
    return Rating(mu * SCALE + CENTRE, phi * SCALE, sigma)


def aged(one: Rating, periods: int) -> Rating:
    """The rating after so many periods without results: only doubt grows (the last remark).

    The deviation grows to that of someone unknown at most.
    """
    grown = math.hypot(one.deviation / SCALE, one.volatility * math.sqrt(periods)) * SCALE
    return Rating(one.rating, max(one.deviation, min(grown, Rating.deviation)), one.volatility)


def _volatility(phi: float, variance: float, delta: float, sigma: float, tau: float) -> float:
    """Step 5: the root of f by the Illinois variant of regula falsi."""
    start = math.log(sigma**2)

    def f(x: float) -> float:
        square = math.exp(x)
        rest = phi**2 + variance + square
        return square * (delta**2 - rest) / (2 * rest**2) - (x - start) / tau**2

    low = start
    if delta**2 > phi**2 + variance:
        high = math.log(delta**2 - phi**2 - variance)
    else:
        steps = 1
        while f(start - steps * tau) < 0 and steps < MOST_STEPS:
            steps += 1
        high = start - steps * tau
    f_low, f_high = f(low), f(high)
    for _ in range(MOST_STEPS):
        if abs(high - low) <= TOLERANCE:
            break
        middle = low + (low - high) * f_low / (f_high - f_low)
        f_middle = f(middle)
        if f_middle * f_high <= 0:
            low, f_low = high, f_high
        else:
            f_low /= 2
        high, f_high = middle, f_middle
    return math.exp(low / 2)
