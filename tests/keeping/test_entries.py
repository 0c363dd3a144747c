"""Entered contests, read back from the records."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.moves import parse_line
from game.errors import PairwrightError
from game.friends.contest import Contest
from game.friends.entry import ContestProgress, progress_text
from game.keeping.entries import Entry, enter, entries_in, entry_in, result_of
from game.modes import CONTEST, DAY
from game.play.position import position_after
from game.play.result import Result
from game.records import Record, Records
from tests.cli.test_card import LINES, record

TEA = Contest("Tea", tuple(position_after(parse_line(s)) for s in ("R U R'", "F' U2 F")))
ATTEMPT = record(TEA, 0, LINES[0], 1)


@given(st.integers(0, 10**7), st.integers(0, 10**7))
def test_both_times_are_the_whole_time_cut_once(seeing: int, doing: int) -> None:
    """What is lost by cutting is less than a hundredth altogether."""
    result = result_of(replace(ATTEMPT, seeing_ms=seeing, doing_ms=doing))
    assert result.seeing == seeing // 10
    assert result.time == (seeing + doing) // 10


def test_a_result_is_what_was_done() -> None:
    """The line as made, what was called, what inspection added; no times where there are none."""
    called = replace(ATTEMPT, called="wrong", inspection=2)
    assert result_of(called) == Result(parse_line(LINES[0]), 250, 101, True, True, 2)
    given_up = replace(ATTEMPT, outcome="gave up", events=(), seeing_ms=None, doing_ms=None)
    assert result_of(given_up) == Result((), 0, 0, False, False)


def test_what_is_no_attempt_has_no_result() -> None:
    """A record with another text for its position is refused."""
    with pytest.raises(PairwrightError):
        result_of(replace(ATTEMPT, position="x"))


def kept(records: Records, contest: Contest, *attempts: Record) -> int:
    """A run for the contest with these attempts; its number."""
    entered = ContestProgress(contest)
    run = records.begin_run(CONTEST, entered.kind, progress_text(entered))
    for attempt in attempts:
        records.add(replace(attempt, run=str(run)))
    return run


def test_entries_are_read_back(tmp_path: Path) -> None:
    """Open and ended ones, the newest first, with what was played; those of a kind on request."""
    other = Contest("Coffee", TEA.positions)
    with closing(Records(tmp_path / "records.db")) as records:
        first, second = kept(records, TEA, ATTEMPT), kept(records, other)
        records.end_run(first)
        records.begin_run(CONTEST, "0123456789", "nothing that can be read")
        found = list(entries_in(records, CONTEST))
        assert [entry.run for entry in found] == [second, first]
        assert found[1].entered == ContestProgress(TEA, "", (result_of(ATTEMPT),))
        assert [e.run for e in entries_in(records, CONTEST, ContestProgress(other).kind)] == [
            second
        ]
        assert list(entries_in(records, DAY)) == []


def test_the_mode_is_that_of_what_is_played() -> None:
    """A day's five is one, any other contest is not."""
    assert Entry(ContestProgress(TEA)).mode == CONTEST
    assert Entry(ContestProgress(TEA, "2026-11-25")).mode == DAY


def test_a_contest_is_entered_once(tmp_path: Path) -> None:
    """Two programs with one folder have the same run; one that cannot be read is passed over."""
    path = tmp_path / "records.db"
    with closing(Records(path)) as one, closing(Records(path)) as other:
        kind = ContestProgress(TEA).kind
        for text in ("no text", progress_text(ContestProgress(Contest("Coffee", TEA.positions)))):
            one.begin_run(CONTEST, kind, text)
        first = enter(one, Entry(ContestProgress(TEA)))
        assert enter(other, Entry(ContestProgress(TEA))) == first
        assert enter(other, Entry(ContestProgress(TEA, "2026-11-25"))) != first
        one.end_run(first)
        assert enter(other, Entry(ContestProgress(TEA))) == first
        assert [entry.run for entry in entries_in(other, CONTEST)] == [first]


def test_of_several_runs_one_counts(tmp_path: Path) -> None:
    """The first that is over, else the first that is begun, else the first."""
    with closing(Records(tmp_path / "records.db")) as records:
        first, begun, over = (kept(records, TEA) for _ in range(3))

        def counting() -> list[int | None]:
            return [entry.run for entry in entries_in(records, CONTEST)]

        assert counting() == [first]
        for run in (over, begun):
            records.add(replace(ATTEMPT, run=str(run)))
        assert counting() == [begun]
        records.add(replace(record(TEA, 1, LINES[1], 1), run=str(over)))
        assert counting() == [over]


def test_an_entry_is_read_by_its_run(tmp_path: Path) -> None:
    """With what was played; nothing where no such run is, or none that can be read."""
    with closing(Records(tmp_path / "records.db")) as records:
        run = kept(records, TEA, ATTEMPT)
        entry = entry_in(records, run)
        assert entry is not None
        assert entry.entered.number == 1
        assert entry_in(records, run + 1) is None
        assert entry_in(records, records.begin_run(CONTEST, "0123456789", "")) is None
