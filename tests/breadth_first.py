"""A plain breadth-first search over sets, sharing nothing with `game.search`."""

from __future__ import annotations

from collections.abc import Iterable

from game.cube.moves import Move, permutation


def level_sizes(
    stickers: Iterable[int], turns: Iterable[Move], deepest: int | None = None
) -> list[int]:
    """How many states lie at distance 0, 1, 2 ... from solved, to the end or to `deepest`.

    stickers: homes of those that make up a state; one for each piece is enough.
    """
    tables = [bytes(permutation(turn)) + bytes(202) for turn in turns]
    level = {bytes(stickers)}
    before: set[bytes] = set()
    sizes = [1]
    while deepest is None or len(sizes) <= deepest:
        found = {state.translate(table) for state in level for table in tables}
        # Every turn's inverse is a turn too, so a neighbour lies at most one level back.
        before, level = level, found - level - before
        if not level:
            break
        sizes.append(len(level))
    return sizes
