"""Invites on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from game.cli import invite
from game.cli.exits import Exit
from game.cube.moves import parse_line
from game.friends.codes import key, read_invite
from game.friends.contest import BY, Contest, Rules
from game.packs import load_packs, pack_folder, puzzles
from game.play.position import position_after
from tests.cli.running import one_line, run

SETUPS = ("R U R'", "F' U2 F")


def invited(tmp_path: Path, *arguments: str) -> Contest:
    """The contest of the invite that these arguments make."""
    code, out, err = run("invite", "--data-dir", tmp_path, *arguments)
    assert (code, err) == (Exit.DONE, "")
    assert one_line(out)
    return read_invite(out)


def test_setups_make_an_invite(tmp_path: Path) -> None:
    """Their positions in order, with title, rules, open slots, faces and view as asked."""
    terms = ("--title", "Tea", "--by", "time", "--inspection", "--open", "bl", "--faces", "furl")
    contest = invited(tmp_path, *terms, "--view", "full", *SETUPS)
    positions = tuple(
        position_after(parse_line(setup), ("BL",), "FRUL", "full") for setup in SETUPS
    )
    assert contest == Contest("Tea", positions, Rules("time", inspection=True))


def test_levels_make_an_invite(tmp_path: Path) -> None:
    """Levels and twins by the key that records have, in the order given."""
    known = [p for pack in load_packs(pack_folder())[0] for p in puzzles(pack)]
    chosen = (next(p for p in known if p.twin), known[0])
    arguments = [argument for puzzle in chosen for argument in ("--level", puzzle.key)]
    assert invited(tmp_path, *arguments).positions == tuple(p.position for p in chosen)


def test_a_pack_gives_some_of_its_positions(tmp_path: Path) -> None:
    """Different ones of that pack, the same for the same seed."""
    (pack,) = [p for p in load_packs(pack_folder())[0] if p.id == "03-across-the-top"]
    terms = ("--pack", pack.id, "--number", "4", "--seed", "tea")
    contest = invited(tmp_path, *terms)
    assert len(set(contest.positions)) == 4
    assert {*contest.positions} <= {puzzle.position for puzzle in puzzles(pack)}
    assert invited(tmp_path, *terms) == contest


def test_a_deal_is_of_the_kind_asked_for(tmp_path: Path) -> None:
    """So many pairs, at these slots, so many slots open, these faces; others without a seed."""
    terms = ("--deal", "1", "--open", "2", "--slots", "FR,BR", "--faces", "hands")
    contest = invited(tmp_path, *terms)
    assert len(contest.positions) == 5
    for position in contest.positions:
        assert len(position.pairs) == 1 and {*position.pairs} <= {"FR", "BR"}
        assert len(position.open) == 2 and position.faces != "FBRLUD"
    assert invited(tmp_path, *terms) != contest


def test_json_tells_what_the_invite_carries(tmp_path: Path) -> None:
    """The code, the key that cards name it by, the rules and the positions."""
    code, out, err = run("invite", "--data-dir", tmp_path, "--json", "--title", "é", *SETUPS)
    assert (code, err, out.isascii()) == (Exit.DONE, "", True)
    told = json.loads(out)
    contest = read_invite(told.pop("invite"))
    assert told == {
        "belongs": key(contest),
        "title": "é",
        "by": "turns",
        "inspection": False,
        "positions": [position.text for position in contest.positions],
    }


@pytest.mark.parametrize(
    ("arguments", "problem"),
    [
        ((), "name positions in one way: SETUPs, --level, --pack or --deal"),
        (("R", "--deal", "1"), "name positions in one way: SETUPs, --level, --pack or --deal"),
        (("R R'",), "position 1 of the contest is solved at the start"),
        (("R",) * 41, "41 positions; a contest has 1 to 40"),
        (("--deal", "1", "--number", "0"), "--number: a contest has 1 to 40 positions"),
        (("--deal", "1", "--open", "FR"), "--open: how many slots a deal leaves open, as a number"),
        (("--deal", "5"), "5 pairs in play and 0 slots open; there are 4 slots"),
        (("--level", "03-across-the-top/x"), 'no level "03-across-the-top/x"'),
        (("--pack", "03-across-the-to"), 'no pack "03-across-the-to"; did you mean'),
        (("R", "--title", "x" * 200), "the title of a contest has more than 160 bytes in UTF-8"),
        (("R", "--by", "luck"), "argument --by: invalid choice: 'luck'"),
    ],
)
def test_bad_terms_are_one_line(tmp_path: Path, arguments: tuple[str, ...], problem: str) -> None:
    """What is wrong is told in one line, and nothing else is printed."""
    code, out, err = run("invite", "--data-dir", tmp_path, *arguments)
    assert (code, out) == (Exit.FAULT, "")
    assert one_line(err) and problem in err


def test_the_rules_are_named_as_in_a_contest() -> None:
    """What `--by` takes is what a contest can be ranked by, the usual first."""
    assert (invite.BY, Rules().by) == (BY, invite.BY[0])
