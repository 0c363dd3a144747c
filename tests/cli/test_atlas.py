"""The atlas on paper."""

from __future__ import annotations

import json
import re
import signal
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from game.cli.exits import Exit
from game.cube.pair import SLOTS
from game.play.position import parse_position
from tests.cli.running import Ran, ended, one_line, run, spawn


def atlas(data_dir: Path, *arguments: str) -> Ran:
    return run("atlas", "--data-dir", data_dir, *arguments)


@pytest.fixture(scope="module")
def told(data_dir: Path) -> dict[str, Any]:
    """The JSON object for FR with all other slots kept."""
    code, out, err = atlas(data_dir, "--json")
    assert (code, err, out.count("\n")) == (Exit.DONE, "", 1)
    found: dict[str, Any] = json.loads(out)
    return found


def test_json_tells_168_placements(told: dict[str, Any]) -> None:
    """All placements, by group 24, 6, 6, 6 and 36, 36, 54, with 384 states in all."""
    assert list(told) == ["slot", "open", "complete", "placements"]
    assert (told["slot"], told["open"], told["complete"]) == ("FR", [], True)
    counts = Counter(placement["group"] for placement in told["placements"])
    assert list(counts.values()) == [24, 6, 6, 6, 36, 36, 54]
    assert sum(len(placement["tops"]) for placement in told["placements"]) == 384


def test_json_has_these_keys(told: dict[str, Any]) -> None:
    """Each placement has the keys that are promised; a3 is the hook, par five by one line."""
    hook = dict(next(each for each in told["placements"] if each["name"] == "a3"))
    tops = hook.pop("tops")
    assert list(tops[0]) == ["top", "position", "par", "solutions"]
    assert [(top["top"], top["par"], top["solutions"]) for top in tops] == [
        ("", 5, 1), ("U", 6, 3), ("U2", 5, 1), ("U'", 6, 2),
    ]  # fmt: skip
    assert hook == {
        "name": "a3",
        "columns": "3",
        "group": "both above",
        "words": "corner above its slot, white up; edge in the top layer on the left, green up",
        "open": [],
        "par": 5,
        "solutions": 2,
        "twins": {
            "left-right": {"name": "a6", "slot": "FL"},
            "front-back": {"name": "a6", "slot": "BR"},
            "diagonal": {"name": "a6", "slot": "FR"},
        },
    }


def test_positions_are_canonical(told: dict[str, Any]) -> None:
    """Every position reads back, asks for the slot and leaves open what is told to be open."""
    for placement in told["placements"]:
        for top in placement["tops"]:
            position = parse_position(top["position"])
            assert list(position.open) == placement["open"]
            assert position.pairs == (() if placement["par"] == 0 else ("FR",))


def test_the_text_is_a_table_of_80_columns(data_dir: Path, told: dict[str, Any]) -> None:
    """A line a placement, with the same pars as in JSON, none wider than a terminal."""
    code, out, err = atlas(data_dir)
    assert (code, err) == (Exit.DONE, "")
    assert max(map(len, out.splitlines())) <= 80
    lines = [line for line in out.splitlines() if re.match(r"[a-z][0-9] ", line)]
    assert [line[:2] for line in lines] == [each["name"] for each in told["placements"]]
    for line, placement in zip(lines, told["placements"], strict=True):
        pars = [top["par"] for top in placement["tops"]]
        numbers = [*pars, placement["par"], placement["solutions"]]
        assert line.split()[1 : len(numbers) + 1] == list(map(str, numbers))
        assert line.split()[len(numbers) + 1] == placement["twins"]["diagonal"]["name"]


def test_markdown_is_a_table_a_group(data_dir: Path, told: dict[str, Any]) -> None:
    """Seven tables of ten columns, a row a placement."""
    out = atlas(data_dir, "--markdown").out
    assert len(re.findall(r"^## ", out, re.MULTILINE)) == 7
    rows = re.findall(r"^\| [a-z][0-9] \|.*\|$", out, re.MULTILINE)
    assert len(rows) == len(told["placements"])
    assert {row.count("|") for row in rows} == {11}


def test_every_slot_has_the_same_pars(data_dir: Path, told: dict[str, Any]) -> None:
    """What is told of another slot differs in words and positions only."""

    def pars(found: dict[str, Any]) -> list[object]:
        return [[t["par"] for t in each["tops"]] for each in found["placements"]]

    other = json.loads(atlas(data_dir, "--json", "--slot", "bl").out)
    assert other["slot"] == "BL"
    assert pars(other) == pars(told)
    assert other["placements"][0]["words"] != told["placements"][0]["words"]


def test_open_slots_make_it_shorter(data_dir: Path, told: dict[str, Any]) -> None:
    """With the other slots open no par is longer, and some are shorter."""
    found = json.loads(atlas(data_dir, "--json", "--open", "FL,BL,BR").out)
    assert found["open"] == [slot for slot in SLOTS if slot != "FR"]
    kept = [each["par"] for each in told["placements"]]
    free = [each["par"] for each in found["placements"]]
    assert all(a >= b for a, b in zip(kept, free, strict=True))
    assert sum(kept) > sum(free)


@pytest.mark.parametrize(
    ("arguments", "problem"),
    [
        (["--slot", "XX"], 'unknown slot "XX"'),
        (["--slot", "FR,BL"], '"FR,BL" is not one slot'),
        (["--slot", ""], '"" is not one slot'),
        (["--open", "FR"], "slot FR is to be solved"),
        (["--open", "FL;BL"], 'unknown slot "FL;BL"'),
        (["--json", "--markdown"], "not allowed with"),
        (["FR"], "unrecognized arguments"),
    ],
)
def test_bad_arguments(data_dir: Path, arguments: list[str], problem: str) -> None:
    """What cannot be asked is told in one line, with the code for a fault."""
    code, out, err = atlas(data_dir, *arguments)
    assert (code, out) == (Exit.FAULT, "")
    assert one_line(err)
    assert problem in err


def test_progress_and_ctrl_c(data_dir: Path) -> None:
    """On a terminal the search tells how far it is; Ctrl-C prints what is known, and says so."""
    terminal = spawn("atlas", "--data-dir", str(data_dir))
    terminal.expect("of 200 positions are searched; Ctrl-C stops")
    terminal.kill(signal.SIGINT)
    terminal.expect("both above")
    terminal.expect("z9 +-")
    terminal.expect("Stopped: what is not told is not proven.")
    assert ended(terminal) == Exit.STOPPED
