"""Files of an earlier version are read: `tests/data` has one of each, made by that version."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from game.engine.engine import Engine
from game.friends.codes import find
from game.keeping import contests, matches, runs
from game.keeping.keeper import Keeper
from game.modes import CONTEST, DASH
from game.packs import load_pack
from game.records import Record
from game.settings import Settings, load_settings

OLD = Path(__file__).parent / "data" / "version-0.1.0"


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    """A keeper of a copy of the old records."""
    shutil.copy(OLD / "records.db", tmp_path / "records.db")
    told: list[str] = []
    engine = Engine(tmp_path)
    return Keeper(
        tmp_path / "records.db",
        lambda: engine,
        tell=told.append,
        lasting=told.append,
        soon=lambda callback, *values: callback(*values),
    )


def test_attempts(keeper: Keeper) -> None:
    """Solved, given up, hinted, called, shown, in hand: all are there with what was done."""
    kept = tuple(keeper.records.all_attempts())
    assert len(kept) == 11

    def count(what: str, value: object) -> int:
        return sum(getattr(record, what) == value for record in kept)

    assert count("outcome", "gave up") == 1
    assert count("hint", True) == 1
    assert count("called", "right") == 2
    first: Record = kept[0]
    assert first.events == ((900, "R"), (1000, "U'"), (1239, "R'"))
    assert (first.turns, first.par, first.at_hand, first.player) == (3, 3, True, "Ada")
    (position,) = keeper.records.positions_in_hand()
    in_hand = keeper.records.in_hand(position)
    assert in_hand is not None
    assert (in_hand.puzzle, in_hand.elapsed_ms) == ("atlas/c7", 5000)
    assert keeper.records.was_shown(position)


def test_runs(keeper: Keeper) -> None:
    """One dash that is over, with its best, and one that was left."""
    left = runs.left_open(keeper)
    assert left is not None
    assert (left.run.terms.mode, len(left.run.done), left.run.seed) == (DASH, 1, "seed-of-a-test")
    best, played = runs.best_of(keeper, left.run.terms.kind, DASH)
    assert played == 1
    assert best is not None
    assert best.clock == 2 * 123


def test_a_match(keeper: Keeper) -> None:
    """It waits, with what was played of it."""
    ((_, match),) = matches.open_matches(keeper)
    assert [player.name for player in match.players] == ["Ada", "Bo"]
    assert (match.contest.title, match.next, match.number) == ("Kitchen table", 1, 0)


def test_a_contest(keeper: Keeper) -> None:
    """It is over, and its card is the one that was pasted into the chat then."""
    (entry,) = contests.entries(keeper)
    assert (entry.mode, entry.entered.contest.title, entry.entered.is_finished) == (
        CONTEST,
        "Two doors",
        True,
    )
    found = find([(OLD / "chat.txt").read_text("utf-8")])
    assert found.invites == (entry.entered.contest,)
    assert [addressed.to for addressed in found.cards] == [entry.entered.kind]
    assert entry.entered.card("Ada") == found.cards[0]


def test_settings_and_a_pack() -> None:
    """Both are read as they were written."""
    settings, told = load_settings(OLD / "settings.toml")
    assert told == ""
    assert settings == Settings(player="Ada", cross="yellow", front="blue", letters=True, call=True)
    assert len(load_pack(OLD / "pack.toml").levels) > 0
