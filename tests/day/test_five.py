"""The day's five."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube import pair
from game.day.five import MOST_NAMED, STEPS, day, day_text, days_named
from game.difficulty import Find
from game.errors import DayError
from game.search.outcome import Solved

KNOWN = {
    date(2026, 1, 1): (
        "..fv..xw/.mcu.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus",
        "..u...iw/.b.u.fgx.w.v/FL+BL+BR/FBRLUD/focus",
        "..ui..xw/.bru.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus",
        "...v..xm/..cu.fnx.w.v/FR+BL+BR/FBRLUD/focus",
        "..av..gw/.rcu.ogx.w.v/FR+FL+BL+BR/FBRLUD/focus",
    ),
    date(2026, 11, 25): (
        "..uf..xw/.bru.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus",
        "...v..rw/..cu.agx.w.v/FR+BL+BR/FBRLUD/focus",
        "..qv..xw/.acu.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus",
        "..u...xv/.b.u.fex.w.v/FL+BL+BR/FBRLUD/focus",
        "..ug..aw/.btu.qgx.w.v/FR+FL+BL+BR/FBRLUD/focus",
    ),
    date(2099, 12, 31): (
        "..ev..xw/.scu.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus",
        "..uv...w/.bcu..fx.w.v/FR+FL+BL/FBRLUD/focus",
        "..uv..ew/.bcu.agx.w.v/FR+FL+BL+BR/FBRLUD/focus",
        "...t..xw/..iu.fgx.w.v/FR+BL+BR/FBRLUD/focus",
        "..tv..xu/.gcu.fbx.w.v/FR+FL+BL+BR/FBRLUD/focus",
    ),
}
"""What these dates deal must never change: friends compare cards of one day (computed)."""


@pytest.mark.parametrize("date_", KNOWN)
def test_known_days(date_: date) -> None:
    """Three dates deal what they always dealt."""
    assert tuple(position.text for position in day(date_).positions) == KNOWN[date_]


@pytest.mark.parametrize(
    "env",
    [
        {"TZ": "Pacific/Kiritimati", "PYTHONHASHSEED": "1"},
        {"TZ": "Pacific/Pago_Pago", "PYTHONHASHSEED": "2"},
    ],
)
def test_another_process_deals_the_same(env: Mapping[str, str]) -> None:
    """Neither the time zone, a day ahead or behind, nor the hashes of a process play a part."""
    program = (
        "from datetime import date; from game.day import day\n"
        "print(*(position.text for position in day(date(2026, 11, 25)).positions))"
    )
    run = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, **env, "PYTHONPATH": "."},
    )
    assert tuple(run.stdout.split()) == KNOWN[date(2026, 11, 25)]


@pytest.mark.parametrize("start", [date(2026, 11, 25), date(2027, 6, 1)])
def test_the_five_grow(find: Find, start: date) -> None:
    """From three turns to two pairs, each par more than the one before, as the search proves."""
    for later in range(6):
        positions = day(start + timedelta(later)).positions
        outcomes = [find(p.cube, p.solve, p.faces) for p in positions]
        pars = [outcome.par for outcome in outcomes if isinstance(outcome, Solved)]
        assert pars[0] == 3
        assert len(pars) == len(positions) == 5
        assert pars == sorted(set(pars))
        assert all(par in step.pars for par, step in zip(pars[:-1], STEPS[:-1], strict=True))
        assert [len(p.pairs) for p in positions] == [1, 1, 1, 1, 2]


def test_each_slot_has_its_turn() -> None:
    """The four single pairs of a day belong to the four slots, and the cross is always done."""
    for later in range(10):
        positions = day(date(2026, 3, 1) + timedelta(later)).positions
        assert {slot for p in positions[:4] for slot in p.pairs} == set(pair.SLOTS)
        assert all(pair.is_cross_solved(p.cube) for p in positions)


def test_days_differ() -> None:
    """A month of days has no five twice."""
    dealt = {day(date(2026, 5, 1) + timedelta(n)).positions for n in range(31)}
    assert len(dealt) == 31


@pytest.mark.parametrize("date_", [date(2025, 12, 31), date(2100, 1, 1), date(1, 1, 1)])
def test_days_without_five(date_: date) -> None:
    """Dates before the first and after the last day are refused in one line."""
    with pytest.raises(DayError, match="from 2026-01-01 to 2099-12-31"):
        day(date_)


# -- dates in a text -----------------------------------------------------------------------------


def test_days_named_in_a_text() -> None:
    """Each once, in order; what only looks like a date, or lies outside, is none."""
    text = "on 2026-11-25, 2026-11-24 and 2026-11-25; 2025-01-01, 12026-11-25, 2026-11-251"
    assert list(days_named(text)) == ["2026-11-25", "2026-11-24"]


@given(st.text(), st.dates(date(2026, 1, 1), date(2099, 12, 31)))
def test_a_written_day_is_found(around: str, date_: date) -> None:
    """Whatever stands around it, apart from digits."""
    text = f"{around} {day_text(date_)}\n{around}"
    assert day_text(date_) in days_named(text)


def test_days_named_are_bounded() -> None:
    """A text full of dates names no more than so many."""
    text = " ".join(f"20{year}-01-01" for year in range(26, 100))
    assert len(list(days_named(text))) == MOST_NAMED
