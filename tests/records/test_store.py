"""The store of attempts, beside a model of plain lists and dicts."""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from game.errors import RecordsError
from game.records import Best, InHand, Record, Records, open_records
from tests.records.samples import SAMPLE

POSITIONS = st.sampled_from(["one", "two", "three"])
EVENTS = st.lists(
    st.tuples(st.integers(0, 10_000), st.sampled_from(["R", "U'", "x", "undo", "far on"])),
    max_size=6,
).map(tuple)
TIMES = st.none() | st.integers(0, 10_000)
RECORDS = st.builds(
    Record,
    position=POSITIONS,
    puzzle=st.sampled_from(["", "pack/level", "pack/level~left-right"]),
    events=EVENTS,
    outcome=st.sampled_from(["solved", "solved", "gave up", "abandoned"]),
    turns=st.integers(3, 9),
    executed=st.integers(3, 9),
    par=st.none() | st.integers(3, 5),
    at_hand=st.none() | st.booleans(),
    began=st.just(datetime(2026, 11, 25, 10, 15, tzinfo=UTC)),
    version=st.just("0.1.0"),
    shown=st.booleans(),
    hint=st.booleans(),
    called=st.sampled_from(["", "right", "wrong"]),
    far_side=st.sampled_from(["always", "asked", "never"]),
    seeing_ms=TIMES,
    first_side_ms=TIMES,
    doing_ms=TIMES,
    mode=st.just("casual"),
    run=st.just(""),
    player=st.sampled_from(["", "Zoë"]),
)


def best_of(records: list[Record]) -> Best:
    """What attempts come to, counted one by one."""
    fair = [r for r in records if r.outcome == "solved" and not (r.shown or r.hint)]
    with_par = [(r.turns, r.par) for r in fair if r.par is not None]
    seeing = [r.seeing_ms for r in fair if r.seeing_ms is not None]
    doing = [r.doing_ms for r in fair if r.doing_ms is not None]
    at_par = any(turns <= par for turns, par in with_par)
    return Best(
        attempts=len(records),
        solved=any(r.outcome == "solved" for r in records),
        at_hand=at_par or any(r.at_hand for r in fair),
        at_par=at_par,
        called=any(r.called == "right" for r in fair),
        over=min((turns - par for turns, par in with_par), default=None),
        turns=min((r.turns for r in fair), default=None),
        seeing_ms=min(seeing, default=None),
        doing_ms=min(doing, default=None),
    )


class StoreBesideModel(RuleBasedStateMachine):
    """Whatever is done, the store answers as a list of records and two dicts would."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.path = self.folder / "below" / "records.db"
        self.store = open_records(self.path)
        self.records: dict[int, Record] = {}
        self.shown: set[str] = set()
        self.in_hand: dict[str, InHand] = {}

    def teardown(self) -> None:
        self.store.close()
        shutil.rmtree(self.folder)

    @rule(record=RECORDS)
    def add(self, record: Record) -> None:
        number = self.store.add(record)
        assert number not in self.records
        self.records[number] = record
        self.in_hand.pop(record.position, None)

    @precondition(lambda self: self.records)
    @rule(data=st.data())
    def amend(self, data: st.DataObject) -> None:
        number = data.draw(st.sampled_from(sorted(self.records)))
        facts: dict[str, Any] = data.draw(
            st.fixed_dictionaries(
                {},
                optional={
                    "called": st.sampled_from(["right", "wrong"]),
                    "at_hand": st.booleans(),
                },
            )
        )
        self.store.amend(number, **facts)
        self.records[number] = replace(self.records[number], **facts)

    @rule(position=POSITIONS)
    def mark_shown(self, position: str) -> None:
        self.store.mark_shown(position)
        self.shown.add(position)

    @rule(position=POSITIONS, events=EVENTS, elapsed_ms=st.integers(0, 10_000))
    def keep_in_hand(
        self, position: str, events: tuple[tuple[int, str], ...], elapsed_ms: int
    ) -> None:
        self.store.keep_in_hand(position, "pack/level", events, elapsed_ms)
        self.in_hand[position] = InHand("pack/level", events, elapsed_ms)

    @rule(position=POSITIONS)
    def drop_in_hand(self, position: str) -> None:
        self.store.drop_in_hand(position)
        self.in_hand.pop(position, None)

    @rule()
    def open_again(self) -> None:
        self.store.close()
        self.store = open_records(self.path)

    @invariant()
    def agree(self) -> None:
        by_position: dict[str, list[Record]] = {}
        for record in self.records.values():
            by_position.setdefault(record.position, []).append(record)
        bests = {position: best_of(records) for position, records in by_position.items()}
        assert self.store.bests() == bests
        assert self.store.is_empty == (not self.records)
        for position in ("one", "two", "three", "never"):
            assert self.store.best(position) == bests.get(position)
            newest_first = tuple(reversed(by_position.get(position, [])))
            assert self.store.attempts(position) == newest_first
            assert self.store.was_shown(position) == (position in self.shown)
            assert self.store.in_hand(position) == self.in_hand.get(position)
        assert self.store.skipped == 0


StoreBesideModel.TestCase.settings = settings(
    max_examples=40, stateful_step_count=15, deadline=None
)
TestStoreBesideModel = StoreBesideModel.TestCase


def test_reading_creates_nothing(tmp_path: Path) -> None:
    """Opening, asking and dropping while there is no file leave no file and no folder."""
    store = open_records(tmp_path / "home" / "records.db")
    assert store.is_empty
    assert store.best("one") is None
    assert store.bests() == {}
    assert store.attempts("one") == ()
    assert not store.was_shown("one")
    assert store.in_hand("one") is None
    assert store.positions_in_hand() == ()
    assert store.solved_since(datetime.now(UTC)) == (0, 0)
    store.drop_in_hand("one")
    store.close()
    assert list(tmp_path.iterdir()) == []


def test_everything_done_is_kept(tmp_path: Path) -> None:
    """A record comes back whole from a file opened anew: events, times, offset and all."""
    path = tmp_path / "records.db"
    store = open_records(path)
    store.add(SAMPLE)
    store.close()
    (again,) = open_records(path).attempts(SAMPLE.position)
    assert again == SAMPLE
    assert again.began.utcoffset() == SAMPLE.began.utcoffset()


def test_help_does_not_count(tmp_path: Path) -> None:
    """With the solution or a hint seen, an attempt at par earns only that it was solved."""
    store = open_records(tmp_path / "records.db")
    for helped in ({"shown": True}, {"hint": True}):
        store.add(replace(SAMPLE, called="right", **helped))  # type: ignore[arg-type]
    nothing = (False, False, False, None, None, None, None)
    assert store.best(SAMPLE.position) == Best(2, True, *nothing)


def test_marks_stay(tmp_path: Path) -> None:
    """A worse attempt, or one with help, takes no mark away."""
    store = open_records(tmp_path / "records.db")
    store.add(replace(SAMPLE, called="right"))
    earned = store.best(SAMPLE.position)
    assert earned is not None
    store.add(replace(SAMPLE, turns=9, at_hand=False, seeing_ms=9000, doing_ms=9000))
    store.add(replace(SAMPLE, shown=True))
    store.add(replace(SAMPLE, outcome="gave up"))
    assert store.best(SAMPLE.position) == earned._replace(attempts=4)


def test_an_end_leaves_nothing_in_hand(tmp_path: Path) -> None:
    """Recording the end of an attempt drops what was kept of it, and of no other position."""
    store = open_records(tmp_path / "records.db")
    store.keep_in_hand(SAMPLE.position, "a/b", ((5, "R"),), 10)
    store.keep_in_hand("another", "a/c", ((5, "R"),), 10)
    store.add(SAMPLE)
    assert store.in_hand(SAMPLE.position) is None
    assert store.in_hand("another") is not None


def test_memory_needs_no_file() -> None:
    """Without a file the store works until it is closed."""
    store = Records(None)
    store.add(SAMPLE)
    store.mark_shown(SAMPLE.position)
    assert store.attempts(SAMPLE.position) == (SAMPLE,)
    assert store.was_shown(SAMPLE.position)


def test_solved_since() -> None:
    """Positions count once, from the moment on, and at par only where no help was had."""
    noon = datetime(2026, 11, 25, 12, tzinfo=UTC)
    records = Records(None)
    for record in (
        replace(SAMPLE, position="one", outcome="solved", turns=3, par=3, shown=False, hint=False),
        replace(SAMPLE, position="one", outcome="solved", turns=5, par=3, shown=False, hint=False),
        replace(SAMPLE, position="two", outcome="solved", turns=3, par=3, shown=True),
        replace(SAMPLE, position="three", outcome="abandoned"),
    ):
        records.add(replace(record, began=noon))
    early = replace(SAMPLE, position="four", outcome="solved", began=noon.replace(hour=11))
    records.add(early)
    assert records.solved_since(noon) == (2, 1)
    assert records.solved_since(noon.replace(hour=11))[0] == 3
    assert records.solved_since(noon.replace(hour=13)) == (0, 0)
    in_india = noon.astimezone(timezone(timedelta(hours=5, minutes=30)))
    assert records.solved_since(in_india) == (2, 1)


def test_positions_in_hand() -> None:
    """The attempt left last leads; one that is dropped is not listed."""
    records = Records(None)
    for position in ("one", "two", "three", "one"):
        records.keep_in_hand(position, "", (), 0)
    records.drop_in_hand("three")
    assert records.positions_in_hand() == ("one", "two")


def spoilt(path: Path, statement: str, *values: Any) -> None:
    """Change the file as another program might."""
    with closing(sqlite3.connect(path)) as other, other:
        other.execute(statement, values)


@pytest.mark.parametrize(
    ("statement", "value"),
    [
        ("UPDATE attempt SET outcome = ? WHERE number = 1", "won"),
        ("UPDATE attempt SET turns = ? WHERE number = 1", "many"),
        ("UPDATE attempt SET began = ? WHERE number = 1", "once"),
        ("UPDATE attempt SET player = ? WHERE number = 1", "x" * 1_000_000),
        ("UPDATE attempt SET version = ? WHERE number = 1", b"\xff\xfe"),
        ("UPDATE attempt SET mode = cast(? AS TEXT) WHERE number = 1", b"\x1b\xff"),
        ("UPDATE attempt_events SET events = ? WHERE number = 1", '[[1,"R"'),
        ("UPDATE attempt_events SET events = ? WHERE number = 1", " " * 5_000_000),
        ("DELETE FROM attempt_events WHERE number = ?", 1),
    ],
)
def test_a_bad_row_is_skipped_and_counted(tmp_path: Path, statement: str, value: Any) -> None:
    """An attempt that cannot be read is left out and counted; the others are there."""
    path = tmp_path / "records.db"
    store = open_records(path)
    store.add(SAMPLE)
    store.add(replace(SAMPLE, turns=8))
    store.close()
    spoilt(path, statement, value)
    store = open_records(path)
    assert store.attempts(SAMPLE.position) == (replace(SAMPLE, turns=8),)
    assert store.skipped == 1
    assert store.best(SAMPLE.position) is not None


def test_a_best_that_is_no_number_is_skipped(tmp_path: Path) -> None:
    """A position whose best cannot be told is left out and counted."""
    path = tmp_path / "records.db"
    store = open_records(path)
    store.add(SAMPLE)
    store.add(replace(SAMPLE, position="another"))
    store.close()
    spoilt(path, "UPDATE attempt SET seeing_ms = 'soon' WHERE number = ?", 1)
    store = open_records(path)
    assert list(store.bests()) == ["another"]
    assert store.skipped == 1


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("events", "[[1"),
        ("events", '[[1,"R"]]' * 200_000),
        ("elapsed_ms", "long"),
        ("elapsed_ms", -1),
        ("puzzle", "p" * 201),
        ("puzzle", b"\xff"),
    ],
)
def test_an_unreadable_attempt_in_hand(tmp_path: Path, column: str, value: Any) -> None:
    """An attempt in hand that cannot be read is as good as none, and counted."""
    path = tmp_path / "records.db"
    store = open_records(path)
    store.keep_in_hand("one", "a/b", ((5, "R"),), 10)
    store.close()
    spoilt(path, f"UPDATE in_hand SET {column} = ?", value)
    store = open_records(path)
    assert store.in_hand("one") is None
    assert store.skipped == 1


def test_nonsense_is_not_kept(tmp_path: Path) -> None:
    """A call that is none and events out of bounds are refused before anything is written."""
    store = open_records(tmp_path / "records.db")
    with pytest.raises(RecordsError, match="called: expected one of"):
        store.amend(1, called="perhaps")
    with pytest.raises(RecordsError, match="expected a number"):
        store.keep_in_hand("one", "a/b", ((-5, "R"),), 10)
    assert list(tmp_path.iterdir()) == []
