"""Entered contests, read back from the records."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.contest import Contest, Result
from game.cube.moves import parse_line
from game.entered import Entered, entered_text
from game.entries import CONTEST, DAY, Entry, entries_in, result_of
from game.errors import PairwrightError
from game.position import position_after
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
    entered = Entered(contest)
    run = records.begin_run(CONTEST, entered.kind, entered_text(entered))
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
        assert found[1].entered == Entered(TEA, "", (result_of(ATTEMPT),))
        assert [e.run for e in entries_in(records, CONTEST, Entered(other).kind)] == [second]
        assert list(entries_in(records, DAY)) == []


def test_the_mode_is_that_of_what_is_played() -> None:
    """A day's five is one, any other contest is not."""
    assert Entry(Entered(TEA)).mode == CONTEST
    assert Entry(Entered(TEA, "2026-11-25")).mode == DAY
