"""Timed runs in a real terminal, to their end and through a kill."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from datetime import date
from itertools import islice
from pathlib import Path

from game.deal.selection import parse_selection
from game.keeping.runs import done_of
from game.modes import HOURGLASS
from game.packs import load_packs, pack_folder
from game.play.position import Position
from game.records import open_records
from game.runs import Done, parse_run
from game.search.outcome import Solved
from game.search.shortest import search
from game.search.tables import Tables
from tests.screens.players import keys_of
from tests.test_terminal import Terminal, terminal


def to_the_runs(game: Terminal) -> None:
    """From the very first start to the terms of a run."""
    game.shows("turns 0")
    game.press("r", "U", "R")
    game.shows("at par")
    game.press("q")
    game.shows("timed runs")
    game.press("r")
    game.shows("A fixed number of positions")


def positions(folder: Path) -> Iterator[Position]:
    """The positions of the run that is open, from its seed as the records have it."""
    records = open_records(folder / "records.db")
    (kept,) = records.open_runs()
    records.close()
    run = parse_run(kept.text)
    packs, _ = load_packs(pack_folder())
    return parse_selection(run.terms.selection, packs, date.fromisoformat).positions(run.seed)


def solve(game: Terminal, position: Position, tables: Tables) -> None:
    """The keys of a shortest way."""
    outcome = search(position.cube, position.solve, position.faces, tables=tables, first=True)
    assert isinstance(outcome, Solved)
    game.press(*keys_of(outcome.solutions[0]).split())


def done_in(folder: Path, mode: str) -> list[Done]:
    """What was done in the run of a mode that is over."""
    records = open_records(folder / "records.db")
    (kept,) = records.ended_runs(mode)
    done = [done_of(record) for record in records.attempts_of(kept.number)]
    assert records.open_runs() == ()
    records.close()
    return done


def test_a_dash_through_a_kill(tmp_path: Path, tables: Tables) -> None:
    """Killed in its second position, a dash of two keeps its first and goes on with a third."""
    with terminal(tmp_path) as game:
        to_the_runs(game)
        game.press("\x1b[B", "\x1b[D", "\x1b[D")  # down, left, left
        game.shows("two positions")
        game.press("\r")
        game.shows("It begins in", "two")
        game.press("\r")
        game.shows("1 of 2", "turns 0")
        first, _, third = islice(positions(tmp_path), 3)
        solve(game, first, tables)
        game.shows("2 of 2", "turns 0")
        game.press("r")
        game.shows("turns 1")
        game.game.kill(signal.SIGKILL)
        game.game.wait()
    with terminal(tmp_path) as game:
        game.shows("a dash is not over")
        game.press("r")
        game.shows("A dash was left after 1 of two positions.")
        game.press("u")
        game.shows("It begins in")
        game.press("\r")
        game.shows("2 of 2", "turns 0")
        solve(game, third, tables)
        game.shows("on the clock", "left and taken up again")
        game.press("q", "q", "q")
        assert game.ends() == 0
    done = done_in(tmp_path, "dash")
    assert [d.position for d in done] == [first.text, third.text]
    assert all(d.solved and d.over == 0 for d in done)


def test_an_hourglass_to_its_end(tmp_path: Path, tables: Tables) -> None:
    """Ten seconds: one position solved counts, and time ends the next without a key."""
    with terminal(tmp_path) as game:
        to_the_runs(game)
        game.press("\x1b[C", "\x1b[B", *["\x1b[D"] * 4)  # right, down, left four times
        game.shows("hourglass", "10 seconds")
        game.press("\r")
        game.shows("It begins in")
        game.press("\r")
        game.shows("position 1", "turns 0")
        solve(game, next(positions(tmp_path)), tables)
        game.shows("position 2", "1 solved")
        game.shows("One position in time")
    first, second = done_in(tmp_path, HOURGLASS)
    assert first.solved
    assert not second.solved
    assert 1000 <= first.clock + second.clock < 1100
