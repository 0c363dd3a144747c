"""Numbers from a seed, the same on every machine and in every version of Python.

The n-th block of numbers is the SHA-256 of the seed and n, read as one whole number. Nothing of the
standard library's `random` is used: what its methods make of a seed may change between versions.
"""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import TypeVar

T = TypeVar("T")

BLOCK = 2**256


class Dice:
    """Throws that follow from a seed. Two dice of one seed throw alike."""

    def __init__(self, seed: str) -> None:
        self.seed = seed
        self._throws = 0

    def below(self, sides: int) -> int:
        """A number from 0 to sides - 1, each exactly as likely as any other."""
        while True:
            text = f"{self.seed}\n{self._throws}"
            number = int.from_bytes(sha256(text.encode()).digest(), "big")
            self._throws += 1
            if number < BLOCK - BLOCK % sides:  # what is left over would favour the low numbers
                return number % sides

    def pick(self, things: Sequence[T]) -> T:
        """One of them."""
        return things[self.below(len(things))]

    def shuffled(self, things: Sequence[T]) -> list[T]:
        """All of them in a random order (R. Durstenfeld, Algorithm 235, 1964)."""
        order = list(things)
        for last in range(len(order) - 1, 0, -1):
            other = self.below(last + 1)
            order[last], order[other] = order[other], order[last]
        return order

    def weighted(self, weights: Sequence[int]) -> int:
        """An index, as likely as its weight; weights are whole numbers, at least one above 0."""
        left = self.below(sum(weights))
        for index, weight in enumerate(weights):
            left -= weight
            if left < 0:
                return index
        raise AssertionError("a throw beyond the sum of the weights")
