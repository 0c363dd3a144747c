"""Numbers of different ranges packed into one, with no waste between them: a mixed radix.

Each number is put with how many values it might have; they are taken out in the same order. A size
of unknown length is put as which of some widths it needs, then as so many bits.
"""

from __future__ import annotations

from collections.abc import Sequence

from game.errors import CodeError


class Packing:
    """Numbers on their way into one."""

    def __init__(self) -> None:
        self._put: list[tuple[int, int]] = []

    def put(self, number: int, values: int) -> None:
        """A number from 0 to values - 1."""
        if not 0 <= number < values:
            raise AssertionError(f"{number} is not from 0 to {values - 1}")
        self._put.append((number, values))

    def put_size(self, size: int, widths: Sequence[int]) -> None:
        """A number that fits the last of these widths, in bits, the least first."""
        chosen = next(i for i, width in enumerate(widths) if size < 2**width)
        self.put(chosen, len(widths))
        self.put(size, 2 ** widths[chosen])

    @property
    def number(self) -> int:
        """All of them in one."""
        whole = 0
        for number, values in reversed(self._put):
            whole = whole * values + number
        return whole


class Unpacking:
    """The numbers that were packed into one, taken out in order."""

    def __init__(self, number: int) -> None:
        self._left = number

    def take(self, values: int) -> int:
        """The next number, put with so many values."""
        self._left, number = divmod(self._left, values)
        return number

    def take_size(self, widths: Sequence[int]) -> int:
        """The next number, put with these widths."""
        return self.take(2 ** widths[self.take(len(widths))])

    def close(self) -> None:
        """Raises CodeError where something is left over."""
        if self._left:
            raise CodeError("the code holds more than it says")
