"""All attempts in one pass, beside plain counting over the same attempts."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from game.modes import CASUAL, DRILL
from game.records import Record, Records, Sums, Tried, open_records
from game.records.record import AWAY_MS
from tests.records.samples import SAMPLE
from tests.records.test_store import RECORDS

OFFSETS = st.sampled_from([timedelta(hours=h) for h in (-11, -1, 0, 1, 14)])
MOMENTS = st.builds(
    lambda moment, offset: moment.replace(tzinfo=UTC).astimezone(timezone(offset)),
    st.datetimes(datetime(1990, 1, 1), datetime(2090, 1, 1)),
    OFFSETS,
)
TIMES = st.none() | st.sampled_from([0, 1, 2500, AWAY_MS, AWAY_MS + 1])
ATTEMPTS = st.builds(
    lambda record, began, seeing, doing: replace(
        record, began=began, seeing_ms=seeing, doing_ms=doing
    ),
    RECORDS,
    MOMENTS,
    TIMES,
    TIMES,
)


def in_memory(attempts: Iterable[Record]) -> Records:
    """Records that hold these."""
    records = Records(None)
    for attempt in attempts:
        records.add(attempt)
    return records


def counted(attempts: list[Record]) -> Sums:
    """The sums, counted one by one."""
    fair = [a for a in attempts if a.is_solved and not a.is_helped]
    over = [max(0, a.turns - a.par) for a in fair if a.par is not None]
    seen = [a.seeing_ms for a in fair if a.seeing_ms and a.seeing_ms <= AWAY_MS]
    done = [(a.doing_ms, a.executed) for a in fair if a.doing_ms and a.doing_ms <= AWAY_MS]
    return Sums(
        tried=len(attempts),
        fair=len(fair),
        with_par=len(over),
        over=sum(over),
        at_par=over.count(0),
        seen=len(seen),
        seeing_ms=sum(seen),
        done=len(done),
        doing_ms=sum(ms for ms, _ in done),
        executed=sum(turns for _, turns in done),
    )


def day_of(record: Record) -> int:
    """The player's day, counted from 1 January 1970."""
    return (record.began.date() - date(1970, 1, 1)).days


@settings(max_examples=40, deadline=None)
@given(st.lists(ATTEMPTS, max_size=12))
def test_sums_are_what_counting_gives(attempts: list[Record]) -> None:
    """By position and by day and par, SQL adds up what plain Python adds up."""
    records = in_memory(attempts)
    texts = {a.position for a in attempts}
    days = {(day_of(a), a.par) for a in attempts}
    assert records.sums_by_position() == {
        text: counted([a for a in attempts if a.position == text]) for text in texts
    }
    assert records.sums_by_day() == {
        key: counted([a for a in attempts if (day_of(a), a.par) == key]) for key in days
    }
    records.close()


@settings(max_examples=20, deadline=None)
@given(st.lists(ATTEMPTS, max_size=6))
def test_all_attempts_come_back(attempts: list[Record]) -> None:
    """Every attempt comes back as it was, in order or the newest first."""
    records = in_memory(attempts)
    kept = [replace(a, began=a.began.replace(microsecond=a.began.microsecond // 1000 * 1000))
            for a in attempts]  # fmt: skip
    assert list(records.all_attempts()) == kept
    assert list(records.all_attempts(newest_first=True)) == kept[::-1]
    records.close()


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(ATTEMPTS, st.sampled_from([CASUAL, DRILL])), max_size=10))
def test_tries_are_the_attempts_of_a_mode(dealt: list[tuple[Record, str]]) -> None:
    """Those of the mode alone, in order; won at par without help, which waits
    for a par that is not known; timed where solved and known."""
    attempts = [replace(attempt, mode=mode) for attempt, mode in dealt]
    records = in_memory(attempts)
    expected = [
        Tried(
            number,
            a.puzzle,
            a.position,
            a.is_solved and not a.is_helped and (None if a.par is None else a.turns <= a.par),
            a.seeing_ms + a.doing_ms
            if a.is_solved and a.seeing_ms is not None and a.doing_ms is not None
            else None,
        )
        for number, a in enumerate(attempts, 1)
        if a.mode == DRILL
    ]
    assert list(records.tries(DRILL)) == expected
    assert list(records.tries(DRILL, after=3)) == [one for one in expected if one.number > 3]
    records.close()


def test_no_file_is_no_attempt(tmp_path: Path) -> None:
    """While there is no file everything is empty, and none is made."""
    records = Records(tmp_path / "records.db")
    assert list(records.all_attempts()) == []
    assert records.tries(DRILL) == ()
    assert records.sums_by_position() == {}
    assert records.sums_by_day() == {}
    assert list(tmp_path.iterdir()) == []


def test_damaged_rows_harm_nothing(tmp_path: Path) -> None:
    """A row that cannot be is passed over whole, and adds nothing it should not to sums."""
    path = tmp_path / "records.db"
    records = open_records(path)
    for _ in range(6):
        records.add(SAMPLE)
    records.close()
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE attempt SET turns = 'many' WHERE number = 1")
        connection.execute("UPDATE attempt SET par = 'few', seeing_ms = 'x' WHERE number = 2")
        connection.execute("UPDATE attempt SET began = 'once' WHERE number = 3")
        connection.execute("UPDATE attempt SET position = x'00ff' WHERE number = 4")
        connection.execute("UPDATE attempt SET executed = 9e999, turns = 5 WHERE number = 5")
    records = open_records(path)
    assert len(list(records.all_attempts())) == 1
    assert records.skipped == 5
    (sums,) = records.sums_by_position().values()
    assert (sums.tried, sums.fair, sums.with_par, sums.seen) == (5, 4, 3, 3)
    assert {key[1] for key in records.sums_by_day()} == {3, None}
    records.close()
