"""The graph of the 190080 crosses from sticker permutations alone, for SciPy to search."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import breadth_first_order

from game.cube.cube import EDGES, Cube
from game.cube.moves import FACE_MOVES, permutation
from game.cube.pair import CROSS_EDGES


@dataclass(frozen=True, eq=False)
class CrossGraph:
    """places: of the four cross stickers (0..53) in each state, shape (n, 4); joined: n x n."""

    places: NDArray[np.intp]
    joined: csr_array

    def state(self, cube: Cube) -> int:
        """The number of the cross of a cube whose centres are at home."""
        lie_at = [cube.where[i] for i in CROSS_EDGES]
        return int(np.flatnonzero((self.places == lie_at).all(axis=1))[0])

    def steps_from(self, source: int) -> NDArray[np.intp]:
        """Distances of all states by SciPy's breadth-first search; -1 where it does not come."""
        order, before = breadth_first_order(self.joined, source)
        steps = np.full(len(self.places), -1)
        steps[source] = 0
        for node in order[1:]:
            steps[node] = steps[before[node]] + 1
        return steps

    def distance(self, source: int, target: int) -> int:
        """The distance of two states by SciPy's breadth-first search from the first."""
        before = breadth_first_order(self.joined, source)[1]
        steps = 0
        while target != source:
            target = before[target]
            steps += 1
        return steps


@cache
def cross_graph() -> CrossGraph:
    """All crosses, joined where one turn leads from one to the other."""
    table = np.array([permutation(turn) for turn in FACE_MOVES])
    piece_of = {i: k for k, piece in enumerate(EDGES) for i in piece}
    axes = np.meshgrid(*[sorted(piece_of)] * 4, indexing="ij")
    grid = np.array(axes).reshape(4, -1).T
    pieces = np.sort(np.vectorize(piece_of.get)(grid), axis=1)
    states = grid[(np.diff(pieces, axis=1) > 0).all(axis=1)]
    digits = 54 ** np.arange(4)
    number = states @ digits
    by_number = np.argsort(number)
    targets = by_number[np.searchsorted(number, table[:, states] @ digits, sorter=by_number)]
    sources = np.tile(np.arange(len(states)), len(FACE_MOVES))
    ones = np.ones(len(sources), dtype=np.int8)
    return CrossGraph(states, csr_array((ones, (sources, targets.ravel())), [len(states)] * 2))
