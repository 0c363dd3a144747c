"""What is kept of one attempt, and its bounds."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.errors import RecordsError
from game.records.record import (
    MAX_DONE,
    MAX_EVENTS,
    MAX_EVENTS_TEXT,
    MAX_NUMBER,
    Record,
    began_text,
    events_text,
    parse_began,
    parse_events,
)
from tests.records.samples import SAMPLE


@given(st.lists(st.tuples(st.integers(0, MAX_NUMBER), st.text("RUF'2 undo", max_size=MAX_DONE))))
def test_events_round_trip(events: list[tuple[int, str]]) -> None:
    """What is read of events is what was kept."""
    assert parse_events(events_text(tuple(events))) == tuple(events)


def test_the_most_events_fit() -> None:
    """The longest attempt that is kept is within the bound of what is read."""
    events = ((MAX_NUMBER, "x" * MAX_DONE),) * MAX_EVENTS
    text = events_text(events)
    assert len(text) <= MAX_EVENTS_TEXT
    assert parse_events(text) == events


@pytest.mark.parametrize(
    "text",
    [
        None,
        7,
        "",
        "[",
        "{}x",
        '[["a","R"]]',
        "[[1]]",
        "[[1,2]]",
        '[[-1,"R"]]',
        '[[1.5,"R"]]',
        '[[1,"R",2]]',
        '[[NaN,"R"]]',
        '["ab"]',
        "[" * 100_000,
        f'[[{"9" * 6000},"R"]]',
        '[[1,"\\u001b"]]',
        '[[1,"a name longer than any"]]',
        '[[0,"U"]' + ',[0,"U"]' * MAX_EVENTS + "]",
        " " * (MAX_EVENTS_TEXT + 1),
    ],
)
def test_events_that_are_none(text: Any) -> None:
    """Anything but a bounded list of times and things done is refused."""
    with pytest.raises(RecordsError):
        parse_events(text)


@given(st.datetimes(datetime(1970, 1, 2), datetime(9998, 1, 1)), st.integers(-14 * 60, 14 * 60))
def test_moments_round_trip(moment: datetime, offset: int) -> None:
    """A moment keeps its instant, to the millisecond, and its offset from UTC."""
    zone = timezone(timedelta(minutes=offset))
    began = moment.replace(microsecond=moment.microsecond // 1000 * 1000, tzinfo=zone)
    again = parse_began(*began_text(began))
    assert again == began
    assert again.utcoffset() == began.utcoffset()


def test_a_moment_is_stored_in_utc() -> None:
    """The text is ISO 8601 in UTC, whatever the player's clock says."""
    began = datetime(2026, 11, 25, 1, 15, 0, 250_000, timezone(timedelta(hours=2)))
    assert began_text(began) == ("2026-11-24T23:15:00.250Z", 120)


@pytest.mark.parametrize(
    ("text", "offset"),
    [("yesterday", 0), (None, 0), (3, 0), ("2026-11-24T23:15:00Z", "x"), ("0001-01-01T00:00Z", -99),
     ("2026-11-24T23:15:00Z", 10**9), ("2026-11-24T23:15:00Z", 1440)],
)  # fmt: skip
def test_moments_that_are_none(text: Any, offset: Any) -> None:
    """Anything but a moment and an offset of less than a day is refused."""
    with pytest.raises(RecordsError):
        parse_began(text, offset)


@pytest.mark.parametrize(
    "change",
    [
        {"position": ""},
        {"position": "x" * 101},
        {"puzzle": "a\nb"},
        {"player": "\ud800"},
        {"outcome": "won"},
        {"called": "maybe"},
        {"far_side": "sometimes"},
        {"turns": -1},
        {"executed": MAX_NUMBER + 1},
        {"par": "5"},
        {"seeing_ms": 1.5},
        {"began": datetime(2026, 11, 25)},
        {"events": ((1, "R"),) * (MAX_EVENTS + 1)},
        {"events": ((1,),)},
    ],
)
def test_records_that_cannot_be(change: dict[str, Any]) -> None:
    """A record with a value out of its bounds is refused."""
    with pytest.raises(RecordsError):
        replace(SAMPLE, **change)


def test_over_needs_a_solution_and_par() -> None:
    """Turns over par exist only where the attempt was solved and par is known."""
    assert replace(SAMPLE, turns=7, par=5).over == 2
    assert replace(SAMPLE, turns=7, par=None).over is None
    assert replace(SAMPLE, turns=1, par=5, outcome="gave up").over is None


def test_help_is_a_hint_or_the_solution() -> None:
    """An attempt is helped by either."""
    assert not SAMPLE.is_helped
    assert replace(SAMPLE, hint=True).is_helped
    assert replace(SAMPLE, shown=True).is_helped


def test_a_record_stands_alone() -> None:
    """Equal facts are equal records."""
    assert Record(**{name: getattr(SAMPLE, name) for name in SAMPLE.__dataclass_fields__}) == SAMPLE
    assert SAMPLE.began.tzinfo is not UTC
