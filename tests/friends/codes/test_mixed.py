"""Numbers of different ranges in one."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.errors import CodeError
from game.friends.codes.mixed import Packing, Unpacking

WIDTHS = (3, 8, 20)


@given(
    st.lists(st.integers(1, 10**6).flatmap(lambda n: st.tuples(st.integers(0, n - 1), st.just(n))))
)
def test_what_is_put_is_taken_out(numbers: list[tuple[int, int]]) -> None:
    """In the same order, and nothing is left; the whole is below the product of the ranges."""
    packing, most = Packing(), 1
    for number, values in numbers:
        packing.put(number, values)
        most *= values
    assert packing.number < most
    packed = Unpacking(packing.number)
    assert [packed.take(values) for _, values in numbers] == [number for number, _ in numbers]
    packed.close()


@given(st.lists(st.integers(0, 2**20 - 1)))
def test_sizes_take_the_least_width(sizes: list[int]) -> None:
    """Sizes come back, and each takes no more than its width and which it is."""
    packing, most = Packing(), 1
    for size in sizes:
        packing.put_size(size, WIDTHS)
        most *= 3 * 2 ** next(width for width in WIDTHS if size < 2**width)
    packed = Unpacking(packing.number)
    assert [packed.take_size(WIDTHS) for _ in sizes] == sizes
    packed.close()
    assert packing.number < max(1, most) * 2**17


def test_what_is_left_over_is_a_fault() -> None:
    """A number that holds more than was asked for is refused."""
    packed = Unpacking(12)
    assert packed.take(10) == 2
    with pytest.raises(CodeError, match=r"^the code holds more than it says$"):
        packed.close()
