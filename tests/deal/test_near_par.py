"""Par of positions near their goal, by two searches that meet."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from game.cube.moves import parse_line
from game.deal.deal import Kind, deal
from game.deal.near_par import FARTHEST, par_if_near
from game.packs.difficulty import Find
from game.play.position import position_after
from game.search.outcome import Solved

kinds = st.sampled_from([Kind(1, 0), Kind(1, 1), Kind(2, 0), Kind(1, 3)])


@settings(max_examples=60)
@given(kinds, st.integers(0, 10_000))
def test_it_finds_what_the_search_finds(find: Find, kind: Kind, seed: int) -> None:
    """Par, where it is not beyond the farthest; nothing exactly where it is beyond."""
    position = deal(kind, str(seed))
    outcome = find(position.cube, position.solve, position.faces)
    assert isinstance(outcome, Solved)
    assert par_if_near(position) == (outcome.par if outcome.par <= FARTHEST else None)


@pytest.mark.parametrize(
    ("setup", "faces", "par"),
    [("", "RU", 0), ("R U R'", "RU", 3), ("R U R'", "FU", None)],
)
def test_only_allowed_faces_turn(setup: str, faces: str, par: int | None) -> None:
    """R U R' is undone with R and U; no turns of F and U alone bring a corner and edge out of R."""
    assert par_if_near(position_after(parse_line(setup), faces=faces)) == par
