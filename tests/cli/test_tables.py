"""The tables of the search, as the command shows, builds, checks and removes them."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from game.cli.exits import Exit
from game.cli.main import main
from game.folders import folders
from game.search import cache
from game.search.cache import load_tables, near_file, pair_file
from game.search.files import only_writer
from game.search.near import PARTS, Bits, Part
from tests.cli.running import ended, one_line, run, spawn


@pytest.fixture
def home(tmp_path: Path, data_dir: Path) -> Path:
    """A data folder that holds the small tables."""
    return Path(shutil.copytree(data_dir, tmp_path / "home"))


@pytest.fixture
def empty_sets(monkeypatch: pytest.MonkeyPatch) -> None:
    """Near sets are built at once: they are as large as they must be and hold nothing."""

    def sets(part: Part, *_: object) -> Iterator[tuple[int, Bits]]:
        for turns in part.turns:
            yield turns, np.zeros(part.octets, dtype=np.uint8)

    monkeypatch.setattr(cache, "near_sets", sets)


def listed(out: str) -> dict[str, tuple[str, str]]:
    """File -> its size and state, as they are told below the name of the folder."""
    rows = (line.split(maxsplit=3) for line in out.splitlines()[1:])
    return {name: (f"{number} {unit}", state) for name, number, unit, state in rows}


def test_nothing_is_there(tmp_path: Path) -> None:
    """Without tables all three files are told as not there, and nothing is made."""
    for action in ((), ("show",), ("check",)):
        code, out, err = run("--data-dir", tmp_path / "home", "tables", *action)
        assert (code, err) == (Exit.DONE, "")
        assert out.splitlines()[0] == f"Tables in {folders(tmp_path / 'home').cache}"
        assert listed(out) == {
            "pair-tables.bin": ("9 MB", "not there"),
            "cross-pair.bin": ("14 MB", "not there"),
            "corners-three-edges.bin": ("180 MB", "not there"),
        }
    assert list(tmp_path.iterdir()) == []


@pytest.mark.usefixtures("empty_sets")
def test_built_shown_checked_removed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is built is there and whole; what is damaged is told; all of it can be removed."""

    def tables(action: str) -> tuple[int, str]:
        code = main(["--data-dir", str(tmp_path), "tables", action])
        return code, capsys.readouterr().out

    code, out = tables("build")
    assert (code, {state for _, state in listed(out).values()}) == (Exit.DONE, {"there"})
    code, out = tables("check")
    assert (code, {state for _, state in listed(out).values()}) == (Exit.DONE, {"whole"})
    damaged = near_file(folders(tmp_path).cache, PARTS[0]).path
    damaged.write_bytes(damaged.read_bytes()[:-1])
    code, out = tables("check")
    assert code == Exit.FAULT
    assert listed(out)["cross-pair.bin"][1] == "damaged, or of another version"
    assert listed(out)["pair-tables.bin"][1] == "whole"
    code, out = tables("remove")
    assert (code, out) == (Exit.DONE, f"3 files removed from {folders(tmp_path).cache}\n")
    assert list(folders(tmp_path).cache.iterdir()) == []
    assert tables("remove") == (Exit.DONE, f"No tables in {folders(tmp_path).cache}\n")


def test_a_build_shows_how_far_it_is_and_stops(home: Path) -> None:
    """On a terminal a build tells turns, states and work done; Ctrl-C ends it in good order."""
    terminal = spawn("--data-dir", str(home), "tables", "build")
    terminal.expect(r"tables \d+%; turn \d of 7; \d+ of 73 M states")
    terminal.expect("of 1,437 M states.*; Ctrl-C stops")
    terminal.sendintr()
    terminal.expect("Stopped: a table that was finished stays")
    assert ended(terminal) == Exit.STOPPED
    names = {path.name for path in folders(home).cache.iterdir()}
    assert names == {"pair-tables.bin", "cross-pair.bin"}
    assert "cross-pair.bin" in run("--data-dir", home, "tables", "check").out


class Usage(NamedTuple):
    total: int
    used: int
    free: int


def test_no_room(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A disk with too little room is told in one line, with what is needed and what is free."""
    monkeypatch.setattr(shutil, "disk_usage", lambda _: Usage(10**9, 0, 50_000_000))
    assert main(["--data-dir", str(home), "tables", "build"]) == Exit.CANNOT
    out, err = capsys.readouterr()
    assert out == ""
    assert one_line(err)
    assert "194 MB are needed, 50 MB are free" in err


@pytest.mark.parametrize("action", ["build", "remove"])
def test_another_process_is_building(home: Path, action: str) -> None:
    """While another process writes, nothing is built or removed, and it is told in one line."""
    with only_writer(folders(home).cache):
        code, out, err = run("--data-dir", home, "tables", action)
    assert (code, out) == (Exit.CANNOT, "")
    assert one_line(err)
    assert "another process is building tables" in err
    assert pair_file(folders(home).cache).path.exists()


def test_a_folder_that_cannot_be(tmp_path: Path) -> None:
    """Where tables cannot be kept, a build is refused in one line."""
    (tmp_path / "file").write_text("in the way")
    code, out, err = run("--data-dir", tmp_path / "file", "tables", "build")
    assert (code, out) == (Exit.CANNOT, "")
    assert one_line(err)


def test_an_action_that_is_none() -> None:
    """Anything else is refused with what can be done."""
    code, out, err = run("tables", "rebuild")
    assert (code, out) == (Exit.FAULT, "")
    assert one_line(err)
    assert "build" in err


def test_the_small_tables_come_back(home: Path) -> None:
    """After all files were removed, a search builds the small tables again."""
    assert run("--data-dir", home, "tables", "remove").code == Exit.DONE
    assert run("--data-dir", home, "par", "R U R' U'").code == Exit.DONE
    load_tables(folders(home).cache)
    assert [path.name for path in folders(home).cache.iterdir()] == ["pair-tables.bin"]
