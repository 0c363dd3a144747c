"""The card of a contest that was played, on the command line."""

from __future__ import annotations

import json
from collections.abc import Iterable
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from game.cli.exits import Exit
from game.cube.moves import parse_line
from game.folders import folders
from game.friends.codes import Addressed, invite_code, key, read_card
from game.friends.contest import Card, Contest
from game.friends.day import day
from game.friends.entry import ContestProgress, progress_text
from game.play.position import position_after
from game.play.result import Result
from game.records import Record, Records
from tests.cli.running import one_line, run

CONTEST = Contest("Tea", tuple(position_after(parse_line(s)) for s in ("R U R'", "F' U2 F")))
OTHER = Contest("Coffee", CONTEST.positions[::-1])
LINES = ("y y' R U' R'", "F' U2 F")
RESULTS = tuple(Result(parse_line(line), 250, 101, False, True) for line in LINES)


def record(contest: Contest, number: int, line: str, run_: int) -> Record:
    """An attempt at a position: the first turn after 2.5 seconds, the last at 3.511."""
    moves = line.split()
    turns = [move for move in moves if move[0] not in "xyz"]
    events = [(0, move) for move in moves if move not in turns]
    events += [(2509, turns[0]), *((3000, move) for move in turns[1:-1]), (3511, turns[-1])]
    return Record(
        position=contest.positions[number].text,
        puzzle="",
        events=tuple(events),
        outcome="solved",
        turns=3,
        executed=len(moves),
        par=3,
        at_hand=None,
        began=datetime.now(UTC),
        version="1",
        mode="contest",
        run=str(run_),
        seeing_ms=2509,
        doing_ms=1002,
    )


def play(data: Path, contest: Contest, lines: Iterable[str], day_: str = "") -> None:
    """What the game keeps of a contest as far as these lines go."""
    entered = ContestProgress(contest, day_)
    with closing(Records(folders(data).records)) as records:
        run_ = records.begin_run("day" if day_ else "contest", entered.kind, progress_text(entered))
        for number, line in enumerate(lines):
            records.add(record(contest, number, line, run_))


def test_a_card_is_printed_again(tmp_path: Path) -> None:
    """In words and as a code: the moves as they were made, the whole time cut to hundredths."""
    play(tmp_path, CONTEST, LINES)
    code, out, err = run("card", "--data-dir", tmp_path, "--name", "Ada")
    assert (code, err) == (Exit.DONE, "")
    assert out.startswith("Tea\nAda: 2 of 2 solved, all at par, 7.02\n")
    assert read_card(out) == Addressed(key(CONTEST), Card("Ada", RESULTS))


def test_the_contest_may_be_named(tmp_path: Path) -> None:
    """By its key or its invite; without, it is the last one that was played to its end."""
    play(tmp_path, CONTEST, LINES)
    play(tmp_path, OTHER, LINES[::-1])
    play(tmp_path, Contest("Water", CONTEST.positions), LINES[:1])
    for named, contest in (
        ((), OTHER),
        ((key(CONTEST),), CONTEST),
        ((invite_code(CONTEST).lower(),), CONTEST),
    ):
        ran = run("card", "--data-dir", tmp_path, "--json", "--name", "Bo", *named)
        assert (ran.code, ran.err, ran.out.isascii()) == (Exit.DONE, "", True)
        told = json.loads(ran.out)
        assert read_card(told.pop("card")).to == key(contest)
        assert told == {"belongs": key(contest), "name": "Bo", "title": contest.title}


def test_a_day_is_named_by_its_date(tmp_path: Path) -> None:
    """A card of a day's five that is not played to its end is refused as such."""
    play(tmp_path, day(date(2026, 11, 25)), (), "2026-11-25")
    code, out, err = run("card", "--data-dir", tmp_path, "--name", "Ada", "2026-11-25")
    told = "a card is for a contest that is played to its end"
    assert (code, out, err) == (Exit.FAULT, "", f"pairwright: {told}\n")


def test_the_name_is_that_of_the_settings(tmp_path: Path) -> None:
    """Where it is set; otherwise one must be given."""
    play(tmp_path, CONTEST, LINES)
    code, out, err = run("card", "--data-dir", tmp_path)
    assert (code, out) == (Exit.FAULT, "")
    assert one_line(err) and "give it with --name" in err
    settings = folders(tmp_path).settings
    settings.parent.mkdir(parents=True, exist_ok=True)
    settings.write_text('player = "Cy"\n', "utf-8")
    assert read_card(run("card", "--data-dir", tmp_path).out).card.name == "Cy"


@pytest.mark.parametrize(
    ("arguments", "problem"),
    [
        ((), "no contest was played here"),
        (("0123456789",), 'no contest "0123456789" was played here'),
        (("EPAIRV101NJX9ZR",), "cut off or damaged, no OVER at its end"),
        (("\n" * 90,), "was played here"),
    ],
)
def test_no_card_is_one_line(tmp_path: Path, arguments: tuple[str, ...], problem: str) -> None:
    """Nothing was played, or not that."""
    code, out, err = run("card", "--data-dir", tmp_path, "--name", "Ada", *arguments)
    assert (code, out) == (Exit.FAULT, "")
    assert one_line(err) and problem in err


def test_bytes_that_are_no_text_name_no_contest(tmp_path: Path) -> None:
    """One clear line, for a contest and for a name."""
    play(tmp_path, CONTEST, LINES)
    for arguments in (("--name", "Ada", b"a\xff"), ("--name", b"A\xff")):
        ran = run("card", "--data-dir", tmp_path, *arguments)
        assert (ran.code, ran.out) == (Exit.FAULT, "")
        assert one_line(ran.err)


def test_the_first_of_two_runs_counts(tmp_path: Path) -> None:
    """A contest that was played to its end twice, as it may be in a file, has its first card."""
    play(tmp_path, CONTEST, LINES)
    first = run("card", "--data-dir", tmp_path, "--name", "Ada").out
    play(tmp_path, CONTEST, ("R U2 U' R'", LINES[1]))
    assert run("card", "--data-dir", tmp_path, "--name", "Ada").out == first
