"""Standings on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from game.cli.exits import Exit
from game.cube.moves import parse_line
from game.friends.codes import Addressed, card_code, invite_code, key
from game.friends.contest import Card, Contest, Rules
from game.play.position import position_after
from game.play.result import Result
from tests.cli.running import Ran, one_line, run

CONTEST = Contest(
    "Tea \u202e time", tuple(position_after(parse_line(s)) for s in ("R U R'", "F' U2 F"))
)
EMPTY = Contest("", CONTEST.positions, Rules("time"))


def code(name: str, *lines: str, time: int = 150, called: bool = False, to: str = "") -> str:
    results = (Result(parse_line(line), time, time, called, True) for line in lines)
    return card_code(Addressed(to or key(CONTEST), Card(name, tuple(results))))


ADA = code("Ada", "R U' R'", "F' U2 F", called=True)
BO = code("Bo\n", "R2 U2 R2 U2 R2 U2 R2 U2 R2 U2 R2 U2 R U' R'", "F' U2 F", called=True)
CHAT = f"""\
[12:01] Ada: a new one! {invite_code(CONTEST)}
[12:05] Ada: {ADA}
[12:06] Bo: > {ADA[:50]}
> {ADA[50:]}
nice, here is mine: {BO.lower()}
{code("Cy", "R U R'", "F' U2 F")} {code("Di", "R U' R'", "F' U2 F", to="0123456789")}
{invite_code(EMPTY)} {ADA[:40]}
{code("Ed", "R U' R'", to="2026-11-25")}
"""


def told(tmp_path: Path, *arguments: str, text: str = CHAT) -> Ran:
    return run("standings", "--data-dir", tmp_path, *arguments, stdin=text.encode())


def test_who_solved_nothing_has_no_turns_and_no_time(tmp_path: Path) -> None:
    """Neither is nought, which would be the best there is."""
    gave_up = Result((), 100, 0, called=False, solved=False)
    card = card_code(Addressed(key(CONTEST), Card("Ova", (gave_up, gave_up))))
    out = told(tmp_path, text=f"{invite_code(CONTEST)} {card}").out
    assert out.split("\n")[4].split() == ["1", "0", "of", "2", "-", "-", "Ova"]


def test_a_chat_is_ranked(tmp_path: Path) -> None:
    """Each contest with its rows, what is not ranked or cannot be read, and what is proven."""
    code_, out, err = told(tmp_path)
    assert (code_, err) == (Exit.DONE, "")
    assert (
        out
        == """\
Tea time
two positions, by turns, par 6

  rank  solved  turns  over  time         calls  player
     1  2 of 2      6   par  6.00  2 of 2 right  Ada
     2  2 of 2     18   +12  6.00  1 of 2 right  Bo

Not ranked:
  Cy does not solve position 1 by the three moves it claims

A contest of two positions
two positions, by time, par 6
No card yet.

The day's five, 2026-11-25
five positions, by turns

Not ranked:
  Ed counts one result where there are five positions

Not ranked:
  Di belongs to invite 0123456789, which is not here

Not readable:
  line 7: the code that begins EPAIRC10J5Z6Z7Y2W: cut off or damaged, no OVER at its end

Turns are proven by replay; times are the players' word.
""".replace("C10J5Z6Z7Y2W", ADA[5:17])
    )


def test_json_has_the_same(tmp_path: Path) -> None:
    """One line of ASCII: contests with positions, rows and refused cards; strays; faults."""
    code_, out, err = told(tmp_path, "--json")
    assert (code_, err, out.count("\n")) == (Exit.DONE, "", 1)
    assert out.isascii()
    answer = json.loads(out)
    assert list(answer) == ["contests", "strays", "faults"]
    tea = answer["contests"][0]
    assert (tea["belongs"], tea["title"], tea["by"]) == (key(CONTEST), CONTEST.title, "turns")
    assert [position["par"] for position in tea["positions"]] == [3, 3]
    ada, bo = tea["rows"]
    assert ada["results"][0] == {
        "turns": 3,
        "line": "R U' R'",
        "seeing": 150,
        "doing": 150,
        "called": True,
        "inspection": 0,
    }
    measures = ("rank", "name", "turns", "over", "time", "calls", "right_calls", "namesake")
    assert [ada[m] for m in measures] == [1, "Ada", 6, 0, 600, 2, 2, False]
    assert [bo[m] for m in measures] == [2, "Bo\n", 18, 12, 600, 2, 1, False]
    assert tea["refused"][0]["name"] == "Cy"
    assert answer["strays"] == [{"name": "Di", "belongs": "0123456789"}]
    assert len(answer["faults"]) == 1


def test_files_are_read_as_one_text(tmp_path: Path) -> None:
    """An invite in one file and a card in another, in UTF-16, come together; no par on request."""
    one, other = tmp_path / "one.txt", tmp_path / "other.txt"
    one.write_text(invite_code(CONTEST), "utf-8")
    other.write_text(f"\N{EURO SIGN} {ADA}", "utf-16")
    code_, out, err = told(tmp_path / "data", "--no-par", "--json", str(one), str(other))
    assert (code_, err) == (Exit.DONE, "")
    (contest,) = json.loads(out)["contests"]
    assert [row["name"] for row in contest["rows"]] == ["Ada"]
    assert contest["positions"][0]["par"] is None
    assert contest["rows"][0]["over"] is None


@pytest.mark.parametrize(
    ("arguments", "text", "problem"),
    [
        ((), "nothing of ours", "no invite and no card in this text"),
        (("not-there",), "", "not-there: No such file or directory"),
        ((".",), "", ".: Is a directory"),
    ],
)
def test_nothing_to_rank_is_one_line(
    tmp_path: Path, arguments: tuple[str, ...], text: str, problem: str
) -> None:
    """A text without codes, and a file that cannot be read."""
    code_, out, err = told(tmp_path, *arguments, text=text)
    assert (code_, out, err) == (Exit.FAULT, "", f"pairwright: {problem}\n")


def test_any_bytes_are_read(tmp_path: Path) -> None:
    """What is no UTF-8 is passed over, and the card in it is found."""
    ran = run(
        "standings",
        "--data-dir",
        tmp_path,
        "--no-par",
        stdin=b"\xff\x00\x80" + invite_code(CONTEST).encode() + b"\xc3(" + ADA.encode() + b"\xe2",
    )
    assert (ran.code, ran.err) == (Exit.DONE, "")
    assert "Ada" in ran.out


def test_a_text_of_faults_only_is_told(tmp_path: Path) -> None:
    """A code that is cut off is told as such, not as nothing."""
    ran = told(tmp_path, text=ADA[:30])
    assert ran.code == Exit.DONE
    assert ran.out.startswith("Not readable:\n  line 1: the code that begins EPAIRC1")
    assert not one_line(ran.out)
