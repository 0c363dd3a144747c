"""Runs as they are kept, and what the attempts in them are."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from game.errors import RecordsError
from game.modes import MATCH
from game.records import CLAIMED, KeptRun, Record, Records, open_records
from game.records.runs import MAX_KIND, MAX_RUN_TEXT
from tests.records.samples import SAMPLE


@pytest.fixture
def store(tmp_path: Path) -> Records:
    return open_records(tmp_path / "records.db")


def attempt(run: int, **other: Any) -> Record:
    return replace(SAMPLE, run=str(run), mode="dash", **other)


def test_a_run_is_open_until_it_ends(store: Records) -> None:
    """A run is found open, with what is known of it, until it is ended; then among the ended."""
    assert store.open_runs() == ()
    number = store.begin_run("dash", "dash/5", "{}")
    (run,) = store.open_runs()
    assert (run.number, run.mode, run.kind, run.text, run.ended) == (
        number, "dash", "dash/5", "{}", None,
    )  # fmt: skip
    assert abs((datetime.now(UTC) - run.began).total_seconds()) < 60
    store.amend_run(number, '{"more": 1}')
    store.end_run(number)
    assert store.open_runs() == ()
    (ended,) = store.ended_runs("dash")
    assert ended.text == '{"more": 1}'
    assert ended.ended is not None
    assert ended.ended >= ended.began
    assert store.run(number) == ended
    assert store.run(number + 1) is None


def test_runs_of_a_kind(store: Records) -> None:
    """Ended runs are found by mode and kind, the newest first."""
    kinds = [("dash", "a"), ("dash", "b"), ("hourglass", "a"), ("dash", "a")]
    numbers = [store.begin_run(mode, kind, "") for mode, kind in kinds]
    for number in numbers:
        store.end_run(number)
    assert [run.number for run in store.ended_runs("dash", "a")] == [numbers[3], numbers[0]]
    assert [run.number for run in store.ended_runs("dash")] == [numbers[n] for n in (3, 1, 0)]


def test_the_attempts_of_a_run(store: Records) -> None:
    """The attempts that name a run are its own, in their order, inspection and all."""
    first, second = (store.begin_run("dash", "k", "") for _ in range(2))
    kept = [attempt(first, inspection=2), attempt(first, outcome="lost", par=None)]
    for record in (kept[0], attempt(second), SAMPLE, kept[1]):
        store.add(record)
    assert store.attempts_of(first) == tuple(kept)
    assert store.attempts_of(99) == ()


def test_attempts_in_brief(store: Records) -> None:
    """Those of all ended runs of a kind, with what ranks a run, and those of no other."""
    numbers = [store.begin_run("dash", kind, "") for kind in ("a", "a", "b", "a")]
    for number in numbers:
        store.add(attempt(number, inspection=2))
    store.add(attempt(numbers[0], outcome="gave up", par=None))
    for number in numbers[:3]:
        store.end_run(number)
    first, second, third = store.briefs("dash", "a")
    assert first == (numbers[0], SAMPLE.position, 3, 3, 1500, 1000, 2, True)
    assert (second.run, second.is_solved) == (numbers[1], True)
    assert (third.run, third.par, third.is_solved) == (numbers[0], None, False)


def test_an_attempt_in_a_run_leaves_what_is_in_hand(store: Records) -> None:
    """The attempt in hand at a position is still there after a run came to that position."""
    store.keep_in_hand(SAMPLE.position, "", ((5, "R"),), 10)
    store.add(attempt(1))
    assert store.in_hand(SAMPLE.position) is not None
    store.add(SAMPLE)
    assert store.in_hand(SAMPLE.position) is None


@pytest.mark.parametrize(
    ("called", "par", "then"),
    [("", 3, ""), (CLAIMED, 3, "right"), (CLAIMED, 2, "wrong"), (CLAIMED, 4, "right")],
)
def test_par_is_learnt_later(store: Records, called: str, par: int, then: str) -> None:
    """A par that becomes known is added to attempts without one, and decides what was called."""
    store.add(attempt(1, par=None, at_hand=None, called=called))
    store.add(SAMPLE)
    store.learn_par(SAMPLE.position, par)
    (learnt,) = store.attempts_of(1)
    assert (learnt.par, learnt.called) == (par, then)
    assert store.attempts(SAMPLE.position)[0] == SAMPLE


def test_a_match_is_nobodys_best(store: Records) -> None:
    """What several players did at one keyboard is no best, no sum and no day's work of one."""
    store.add(replace(SAMPLE, mode=MATCH, run="1", player="Ada"))
    assert store.best(SAMPLE.position) is None
    assert store.sums_by_position() == {}
    assert store.sums_by_day() == {}
    assert store.solved_since(datetime(2000, 1, 1, tzinfo=UTC)) == (0, 0)
    assert len(store.attempts_of(1)) == 1


@pytest.mark.parametrize(
    ("mode", "kind", "text"),
    [
        ("x" * 41, "", ""),
        ("dash", "x" * (MAX_KIND + 1), ""),
        ("dash", "", "x" * (MAX_RUN_TEXT + 1)),
        ("dash", "two\nlines", ""),
    ],
)
def test_bounds(store: Records, mode: str, kind: str, text: str) -> None:
    """Texts of a run that are too long or cannot be shown are refused, in and out."""
    with pytest.raises(RecordsError):
        store.begin_run(mode, kind, text)
    with pytest.raises(RecordsError):
        KeptRun(1, mode, kind, text, datetime.now(UTC))


def test_a_row_that_cannot_be_read_is_left_out(tmp_path: Path) -> None:
    """One bad run does not hide the others."""
    path = tmp_path / "records.db"
    store = open_records(path)
    numbers = [store.begin_run("dash", "k", "") for _ in range(3)]
    with closing(sqlite3.connect(path)) as file:
        file.execute("UPDATE run SET began = 'long ago' WHERE number = ?", (numbers[0],))
        file.execute("UPDATE run SET text = ? WHERE number = ?", ("x" * 10**6, numbers[1]))
        file.commit()
    assert [run.number for run in store.open_runs()] == numbers[2:]
    assert store.skipped == 2


@pytest.mark.parametrize("column", ["turns", "par", "seeing_ms", "doing_ms", "inspection"])
@pytest.mark.parametrize("value", [-1, "much", 10**13, 1.5])
def test_an_attempt_that_cannot_be_read_in_brief(tmp_path: Path, column: str, value: Any) -> None:
    """A number that cannot be leaves its attempt out, and no other."""
    path = tmp_path / "records.db"
    store = open_records(path)
    number = store.begin_run("dash", "k", "")
    for _ in range(2):
        store.add(attempt(number))
    store.end_run(number)
    with closing(sqlite3.connect(path)) as file:
        file.execute(f"UPDATE attempt SET {column} = ? WHERE number = 1", (value,))
        file.commit()
    assert len(store.briefs("dash", "k")) == 1


def test_a_run_is_kept_at_once(tmp_path: Path) -> None:
    """Another that opens the file sees the run and its attempts while the first still has it."""
    path = tmp_path / "records.db"
    store = open_records(path)
    number = store.begin_run("dash", "k", "")
    store.add(attempt(number))
    other = open_records(path)
    assert [run.number for run in other.open_runs()] == [number]
    assert other.attempts_of(number) == (attempt(number),)


def test_a_run_without_attempts_can_be_dropped(store: Records) -> None:
    """A run in which nothing was played is forgotten; one with an attempt stays."""
    assert not store.has_runs
    bare, played = (store.begin_run("dash", "a", "") for _ in range(2))
    store.add(replace(SAMPLE, run=str(played)))
    store.drop_run(bare)
    store.drop_run(played)
    assert [run.number for run in store.open_runs()] == [played]
    assert store.has_runs
