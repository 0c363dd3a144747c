"""Values for property tests: lines, cubes, slots, faces, positions, drawn by hypothesis."""

from __future__ import annotations

from hypothesis import strategies as st

from game.cube.cube import CORNERS, EDGES, Cube, cube_of
from game.cube.geometry import FACES, ROTATIONS
from game.cube.line import Line, rotation_line
from game.cube.moves import FACE_MOVES, MOVES
from game.cube.pair import SLOTS
from game.cube.symmetry import UPRIGHT
from game.play.position import VIEWS, Position, position_of

slots = st.sampled_from(SLOTS)
slot_sets = st.sets(slots).map(lambda chosen: tuple(s for s in SLOTS if s in chosen))
face_sets = st.sets(st.sampled_from(FACES), min_size=1).map(
    lambda chosen: "".join(f for f in FACES if f in chosen)
)
rotations = st.sampled_from(ROTATIONS)
upright_symmetries = st.sampled_from(UPRIGHT)
moves = st.sampled_from(list(MOVES.values()))


def lines(longest: int = 12) -> st.SearchStrategy[Line]:
    """Lines of any moves: faces, wide turns, slices, rotations."""
    return st.lists(moves, max_size=longest).map(tuple)


def face_lines(longest: int = 12) -> st.SearchStrategy[Line]:
    """Lines of face turns only."""
    return st.lists(st.sampled_from(FACE_MOVES), max_size=longest).map(tuple)


@st.composite
def upright_cubes(draw: st.DrawFn) -> Cube:
    """Any cube that turning can reach, centres at home: each of them can be drawn.

    Corners and edges are permuted freely; then two edges are exchanged when the parities differ,
    and the last corner and the last edge are twisted to make the sums come out.
    """
    corners = draw(st.permutations(CORNERS))
    edges = draw(st.permutations(EDGES))
    if _parity(corners, CORNERS) != _parity(edges, EDGES):
        edges = [edges[1], edges[0], *edges[2:]]
    twists = draw(st.lists(st.integers(0, 2), min_size=7, max_size=7))
    flips = draw(st.lists(st.integers(0, 1), min_size=11, max_size=11))
    places = {}
    for homes, targets, turns, n in (
        (CORNERS, corners, [*twists, -sum(twists) % 3], 3),
        (EDGES, edges, [*flips, sum(flips) % 2], 2),
    ):
        for home, target, turn in zip(homes, targets, turns, strict=True):
            places[home[0]] = target[turn % n]
    return cube_of(places)


def _parity(arranged: list[tuple[int, ...]], pieces: tuple[tuple[int, ...], ...]) -> int:
    order = [pieces.index(piece) for piece in arranged]
    return sum(a > b for i, a in enumerate(order) for b in order[i + 1 :]) % 2


@st.composite
def cubes(draw: st.DrawFn) -> Cube:
    """Any cube in any grip."""
    return draw(upright_cubes()).turn(rotation_line(draw(rotations)))


@st.composite
def positions(draw: st.DrawFn) -> Position:
    """Any position: any cube, slots, faces and view."""
    view = draw(st.sampled_from(VIEWS))
    return position_of(draw(cubes()), draw(slot_sets), draw(face_sets), view)
