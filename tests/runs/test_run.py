"""Dash and hourglass: sums, what counts, when they are over, what ranks them."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.errors import SelectionError
from game.modes import DASH, HOURGLASS
from game.runs import Done, Run, RunTerms, parse_run, run_text
from game.runs.run import MAX_TEXT

DEAL = "deal/1/0/FR+FL+BL+BR/FBRLUD/focus"


def done(
    clock: int, turns: int = 3, par: int | None = 3, *, solved: bool = True, inspection: int = 0
) -> Done:
    """A position that took so many hundredths, a third of them for seeing."""
    return Done("p", turns, par, clock // 3, clock - clock // 3, inspection, solved)


def run(mode: str, amount: int, *all_done: Done, breaks: int = 0) -> Run:
    return Run(RunTerms(mode, amount, DEAL), "seed", all_done, breaks)


def test_turns_over_par_cost() -> None:
    """Half a second for each turn over par, two for a late start, apart from the clock."""
    dash = run(DASH, 3, done(500), done(700, turns=5), done(300, inspection=2))
    assert (dash.clock, dash.added, dash.total) == (1500, 300, 1800)
    assert dash.splits == (500, 1300, 1800)
    assert dash.score == (1800, 1500)


def test_par_may_come_late() -> None:
    """Until par is known nothing is added for it and the run has no rank."""
    dash = run(DASH, 2, done(500), done(700, turns=5, par=None))
    assert dash.is_finished
    assert not dash.is_settled
    assert (dash.added, dash.score) == (0, None)
    settled = dash.knowing({"p": 4})
    assert [d.par for d in settled.done] == [3, 4]
    assert settled.score == (1250, 1200)


def test_a_dash_ends_with_its_last_position() -> None:
    """It is over when all positions are; one unsolved, or a break, leaves it without a rank."""
    dash = run(DASH, 2, done(500))
    assert not dash.is_finished
    assert dash.left is None
    assert dash.plus(done(500)).is_finished
    unsolved = dash.plus(done(500, par=None, solved=False))
    assert unsolved.is_settled
    assert (unsolved.solved, unsolved.score) == (1, None)
    assert replace(dash.plus(done(500)), breaks=1).score is None


def test_an_hourglass_counts_what_is_in_time() -> None:
    """What is added runs through the glass: a position that ends behind it does not count."""
    glass = run(HOURGLASS, 20, done(900), done(1000, turns=4))
    assert glass.left == 50
    assert not glass.is_finished
    late = glass.plus(done(60))
    assert (late.is_finished, late.left, late.solved) == (True, 0, 2)
    assert late.score == (-2, 1950)
    assert run(HOURGLASS, 20, done(900), done(1100, turns=4)).counts == (True, False)


def test_an_hourglass_with_nothing_solved() -> None:
    """Nothing solved is no rank."""
    assert run(HOURGLASS, 5, done(600, par=None, solved=False)).score is None


def test_more_positions_before_less_time() -> None:
    """Of two hourglasses the one with more positions is better, then the one that had them first.

    Of two dashes the one with less total, then with less on the clock.
    """
    three, sooner, two = (
        run(HOURGLASS, 10, *map(done, times))
        for times in ((300, 300, 300, 200), (300, 300, 200, 300), (200, 100, 800))
    )
    assert three.score is not None
    assert sooner.score is not None
    assert two.score is not None
    assert sooner.score < three.score < two.score


runs = st.builds(
    Run,
    st.builds(
        RunTerms,
        mode=st.sampled_from([DASH, HOURGLASS]),
        amount=st.integers(1, 40),
        selection=st.just(DEAL),
        added=st.integers(0, 1000),
        inspection=st.booleans(),
    ),
    seed=st.text(max_size=20).filter(str.isprintable),
    breaks=st.integers(0, 9),
)


@given(runs)
def test_text_round_trip(made: Run) -> None:
    """What is kept of a run is read back as it was."""
    text = run_text(made)
    assert parse_run(text) == made
    assert len(text) <= MAX_TEXT
    assert text.isprintable()


GOOD = json.loads(run_text(run(DASH, 5)))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "null",
        "[]",
        "{}",
        "[" * 5000,
        "x" * 5000,
        json.dumps({**GOOD, "breaks": -1}),
        json.dumps({**GOOD, "breaks": True}),
        json.dumps({**GOOD, "seed": "x" * 81}),
        json.dumps({**GOOD, "seed": "\ud800"}),
        json.dumps({**GOOD, "seed": "a\nb"}),
        json.dumps({**GOOD, "terms": {**GOOD["terms"], "mode": "walk"}}),
        json.dumps({**GOOD, "terms": {**GOOD["terms"], "amount": 10**9}}),
        json.dumps({**GOOD, "terms": {**GOOD["terms"], "amount": 1.5}}),
        json.dumps({**GOOD, "terms": {**GOOD["terms"], "more": 1}}),
        json.dumps({**GOOD, "terms": {**GOOD["terms"], "programme": ""}}),
    ],
)
def test_other_texts_are_refused(text: str) -> None:
    """Anything that is not what is kept of a run is refused, in one line."""
    with pytest.raises(SelectionError):
        parse_run(text)
