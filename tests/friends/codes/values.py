"""Contests and cards drawn by hypothesis."""

from __future__ import annotations

from hypothesis import strategies as st

from game.friends.codes import Addressed
from game.friends.contest import BY, MAX_BYTES, MAX_POSITIONS, Card, Contest, Rules
from game.play.inspection import PENALTY
from game.play.result import Result
from game.play.times import MAX_HUNDREDTHS
from tests.strategies import lines, positions

texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=MAX_BYTES // 4)
"""Any characters, controls and overrides of the direction among them."""


@st.composite
def contests(draw: st.DrawFn) -> Contest:
    """Any contest of a few positions."""
    unsolved = positions().filter(lambda position: not position.is_goal(position.cube))
    rules = Rules(draw(st.sampled_from(BY)), draw(st.booleans()))
    return Contest(draw(texts), tuple(draw(st.lists(unsolved, min_size=1, max_size=3))), rules)


@st.composite
def results(draw: st.DrawFn) -> Result:
    """Any result."""
    solved = draw(st.booleans())
    line = draw(lines(40).filter(bool) if solved else lines(40))
    times = st.integers(0, MAX_HUNDREDTHS)
    called = solved and draw(st.booleans())
    penalty = draw(st.sampled_from((0, PENALTY)))
    return Result(line, draw(times), draw(times), called, solved, penalty)


keys = st.text("0123456789abcdef", min_size=10, max_size=10)
days = st.dates().filter(lambda date: 2000 <= date.year < 2400).map(lambda date: date.isoformat())


@st.composite
def cards(draw: st.DrawFn) -> Addressed:
    """Any card for any contest or day."""
    name = draw(texts.filter(bool))
    all_results = tuple(draw(st.lists(results(), min_size=1, max_size=MAX_POSITIONS // 8)))
    return Addressed(draw(keys | days), Card(name, all_results))
