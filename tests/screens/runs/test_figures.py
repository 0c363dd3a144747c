"""What a run came to, drawn as text."""

from __future__ import annotations

import pytest

from game.modes import DASH, HOURGLASS
from game.runs import Run
from game.screens.runs.figures import ADDED, DONE, SEEN, headline, signed, table
from tests.runs.test_run import done, run

BEST = run(DASH, 2, done(500), done(600))


def told(made: Run, beside: Run | None = None, *, is_record: bool = False) -> list[str]:
    """The headline's rows."""
    return headline(made, beside, is_record=is_record).plain.splitlines()


def test_a_dash() -> None:
    """The total leads; clock and what was added stand apart, then the means."""
    made = run(DASH, 2, done(300), done(601, turns=4))
    assert told(made, is_record=True) == [
        "9.51 s",
        "on the clock 9.01 + added 0.50   a position: seeing 1.50, doing 3.01",
        "The first of its kind.",
    ]


def test_beside_the_best() -> None:
    """A record is told by how much; another run is told what the best is."""
    better = run(DASH, 2, done(300), done(600))
    assert told(better, BEST, is_record=True)[-1] == "Your best of its kind, by 2.00 s."
    assert told(BEST, better)[-1] == "Your best: 9.00 s."


def test_an_hourglass() -> None:
    """The number of positions leads; as many but sooner is better too."""
    glass = run(HOURGLASS, 10, *map(done, (300, 300, 500)))
    sooner = run(HOURGLASS, 10, *map(done, (300, 200, 600)))
    assert told(glass, is_record=True)[0] == "Two positions in time"
    assert told(sooner, glass, is_record=True)[-1] == "Your best of its kind: as many, but sooner."
    three = run(HOURGLASS, 10, *map(done, (300, 300, 300, 300)))
    assert told(three, glass, is_record=True)[-1] == "Your best of its kind, by one position."
    assert told(glass, three)[-1] == "Your best: three positions."


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (run(DASH, 3, done(300)), "Left after one position"),
        (run(DASH, 1, done(300, par=None, solved=False)), "No time: 0 of 1 solved"),
        (run(DASH, 1, done(300, par=None)), "still being searched"),
        (run(DASH, 1, done(300), breaks=1), "left and taken up again"),
    ],
)
def test_runs_without_a_rank(made: Run, words: str) -> None:
    """Why a run has no rank is told."""
    assert words in " ".join(told(made))


def test_a_row_a_position() -> None:
    """Times, turns, par and what was added; an unsolved one says so; one without par asks."""
    made = run(DASH, 3, done(300, turns=5), done(600, par=None), done(900, par=None, solved=False))
    head, first, second, third = table(made, None, 60).plain.splitlines()
    assert head.split() == ["seeing", "doing", "turns", "par", "added"]
    assert first.split()[:6] == ["1", "1.00", "2.00", "5", "3", "1.00"]
    assert second.split()[:6] == ["2", "2.00", "4.00", "3", "?", "-"]
    assert third.split()[:4] == ["3", "3.00", "6.00", "unsolved"]


def test_too_late_for_the_glass() -> None:
    """What was solved after time is told apart from what was not solved."""
    made = run(HOURGLASS, 5, done(300), done(600))
    assert "too late" in table(made, None, 80).plain


@pytest.mark.parametrize("width", [60, 80, 120])
def test_bars(width: int) -> None:
    """The longest bar ends at the edge; a bar has a third seeing as its position did."""
    made = run(DASH, 2, done(300), done(900, turns=5))
    rows = table(made, None, width).plain.splitlines()[1:]
    assert len(rows[1]) == width
    room = sum(rows[1].count(sign) for sign in (SEEN, DONE, ADDED))
    assert rows[1].count(SEEN) == round(room * 300 / 1000)
    assert rows[1].count(ADDED) == room - round(room * 900 / 1000)
    assert max(map(len, rows)) <= width


def test_beside_each_position() -> None:
    """Where there is room, the difference to the best after each position."""
    made = run(DASH, 2, done(400), done(900))
    rows = table(made, BEST, 80).plain.splitlines()[1:]
    assert [row.split()[6] for row in rows] == ["-1.00", "+2.00"]
    assert "beside" not in table(made, BEST, 60).plain


def test_signed() -> None:
    """A difference has its sign."""
    assert (signed(84), signed(-120), signed(0)) == ("+0.84", "-1.20", "+0.00")


def test_the_pointer() -> None:
    """The marked row has the pointer behind its number, and no row is the wider for it."""
    made = run(DASH, 2, done(300), done(600))
    plain, marked = table(made, None, 80), table(made, None, 80, marked=1)
    first, second = marked.plain.splitlines()[1:]
    assert second.startswith(" 2▸")
    assert "▸" not in first
    assert [*map(len, marked.plain.splitlines())] == [*map(len, plain.plain.splitlines())]
