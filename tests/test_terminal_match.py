"""A table match in a real terminal, from the names to who has won, with a kill in the middle."""

from __future__ import annotations

import re
import signal
from pathlib import Path

from game.cube.line import Line
from game.friends.match import Match, match_of
from game.packs.difficulty import Find
from game.play.position import Position
from game.records import open_records
from game.search.outcome import Solved
from tests.test_terminal import Terminal, terminal

DOWN, LEFT, BACK_TAB = "\x1b[B", "\x1b[D", "\x1b[Z"
NAMES = ("Ada", "Bo", "Cem")


def keys(line: Line) -> list[str]:
    """What is pressed for a line of face turns."""
    ways = {"": "{0}", "'": "{1}", "2": "{0}{0}"}
    return [ways[move.name[1:]].format(move.name[0].lower(), move.name[0]) for move in line]


def begin(game: Terminal) -> None:
    """From the first start: three names, two dealt positions."""
    game.shows("turns 0")
    game.press("q")
    game.shows("Table match")
    game.press("g")
    game.shows("Players", "Begin the match")
    for name in NAMES:
        game.press(f"{name}\r")  # the next name begins before this one is dealt with
    game.press("\r")  # the fourth is empty
    game.press(DOWN * 5, LEFT * 3)
    game.shows("‹ 2 ›")
    game.press(DOWN * 3, "\r")
    game.shows("Ada plays. Everyone else looks away.", "position 1 of 2")


def agreed(folder: Path) -> Match:
    """The match that is open, as it was agreed."""
    records = open_records(folder / "records.db")
    try:
        (run,) = records.open_runs()
        return match_of(run.text)
    finally:
        records.close()


def raises_curtain(game: Terminal, name: str) -> None:
    """To the cube, without waiting for the count-down; nothing of it is seen before."""
    before = len(game.written)
    game.press("\r")
    game.shows("It begins in", f"· {name}")
    assert not re.search("[▀▄]", game.written[before:])
    game.press("\r")
    game.shows("turns 0", f"· {name}")


def plays(game: Terminal, name: str, line: Line, *, again: bool = False) -> None:
    """The player in turn plays a line that solves, and lets the call be.

    again: the position was shown to them before, so there is no curtain.
    """
    game.shows(f"{name} plays. Everyone else looks away.")
    if again:
        game.press("\r")
        game.shows("shown before", "turns 0", f"· {name}")
    else:
        raises_curtain(game, name)
    game.press(*keys(line))
    game.shows("go on", "call it")
    game.press("\r")


def test_a_match_of_three(tmp_path: Path, find: Find) -> None:
    """Three players, two positions, a kill before the third has played: played to the end."""

    def shortest(position: Position) -> Line:
        outcome = find(position.cube, position.solve, position.faces)
        assert isinstance(outcome, Solved)
        return outcome.solutions[0]

    with terminal(tmp_path) as game:
        begin(game)
        first, second = map(shortest, agreed(tmp_path).contest.positions)
        plays(game, "Ada", first)
        plays(game, "Bo", first)
        game.shows("Cem plays.")
        raises_curtain(game, "Cem")
        game.press(*keys(first)[:-1])
        game.shows("turns")
        game.game.kill(signal.SIGKILL)
        game.game.wait()
    with terminal(tmp_path) as game:
        game.shows("Table match")
        game.press("g")
        game.shows("Waiting", "Ada, Bo and Cem")
        game.press("\r")
        plays(game, "Cem", first, again=True)
        game.shows("Position 1 of 2", "shortest", "seeing")
        game.press("\r")
        for name in ("Bo", "Cem", "Ada"):
            plays(game, name, second)
        game.shows("Position 2 of 2", "seeing")
        game.press("\r")
        game.shows("2/2", "the lines")
        assert "wins" in game.text or "share the first place" in game.text
        game.press("q", "q")
        game.shows("Go on", "quit")
        game.press("q")
        assert game.ends() == 0
        assert not re.search(r"\x1b\][012];", game.written)  # the window gets no title (xterm)
    records = open_records(tmp_path / "records.db")
    assert records.open_runs() == ()
    (run,) = records.ended_runs("match")
    assert sorted(a.player for a in records.attempts_of(run.number)) == sorted(NAMES * 2)
    records.close()
