"""The day's five."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from datetime import date, timedelta

import pytest

from game.cube import pair
from game.deal.five import STEPS, is_day
from game.errors import DayError
from game.friends.day import day
from game.packs.difficulty import Find
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
        "from datetime import date; from game.friends.day import day\n"
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


@pytest.mark.parametrize(
    ("text", "is_one"),
    [
        ("2026-11-25", True),
        ("2025-12-31", False),
        ("2100-01-01", False),
        ("2026-13-01", False),
        ("2026-02-29", False),
        ("2028-02-29", True),
        ("2026-04-31", False),
        ("2026-1-1", False),
        ("2026-11-25 ", False),
        ("\u0662\u0660\u0662\u0666-11-25", False),  # digits of another script
        ("", False),
    ],
)
def test_a_text_is_a_day(text: str, is_one: bool) -> None:
    """A date in full, from the first day to the last."""
    assert is_day(text) == is_one


@pytest.mark.parametrize("year", [2026, 2027, 2028, 2099])
def test_the_days_are_those_of_the_calendar(year: int) -> None:
    """Of all texts that look like dates of a year, those that the standard library reads."""

    def is_date(text: str) -> bool:
        try:
            return date.fromisoformat(text).year == year
        except ValueError:
            return False

    texts = [f"{year}-{month:02}-{number:02}" for month in range(14) for number in range(33)]
    assert [text for text in texts if is_day(text)] == [text for text in texts if is_date(text)]
