"""Proving packs on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from game.cli.exits import Exit
from game.packs import load_pack, pack_folder
from tests.cli.running import Ran, ended, run, spawn

PACK = """
format = 1
title = "Three and four"
about = "Two levels of one pair."
author = "Tests"
licence = "CC0-1.0"

[[level]]
id = "three"
name = "Three turns"
setup = "R U R'"
par = {three}
note = "In it goes."
twins = ["left-right"]

[[level]]
id = "four"
name = "Four turns"
setup = "R U R' U'"
par = 4
note = "In it goes."
"""


def check(data_dir: Path, *paths: Path) -> Ran:
    return run("check", "--data-dir", data_dir, *paths)


@pytest.fixture
def good(tmp_path: Path) -> Path:
    """A pack whose claims are true: three and four turns."""
    path = tmp_path / "good.toml"
    path.write_text(PACK.format(three=3))
    return path


@pytest.fixture
def false(tmp_path: Path) -> Path:
    """The same pack with one false claim."""
    path = tmp_path / "false.toml"
    path.write_text(PACK.format(three=5))
    return path


def test_a_true_pack(data_dir: Path, good: Path) -> None:
    """Every level and twin has its row: par, shortest solutions, habit, hidden, difficulty."""
    code, out, err = check(data_dir, good)
    assert (code, err) == (Exit.DONE, "")
    lines = out.splitlines()
    assert lines[0] == "good: Three and four"
    assert lines[1].split() == ["level", "par", "shortest", "habit", "hidden", "difficulty"]
    assert [line.split()[:3] for line in lines[2:5]] == [
        ["three", "3", "1"],
        ["three~left-right", "3", "1"],
        ["four", "4", "3"],
    ]
    assert lines[-1] == "1 pack, 2 levels: every claim is proven"


def test_a_false_claim(data_dir: Path, false: Path) -> None:
    """A claim that the search refutes is told with file, level, key and a shorter line: code 1."""
    code, out, err = check(data_dir, false)
    assert code == Exit.FAULT
    assert err.splitlines() == [
        f"{false}: level \"three\": par: 5 is claimed; R U' R' is 3",
        f'{false}: level "three": par: of the left-right twin: 5 is claimed; L\' U L is 3',
    ]
    assert [line.split()[0] for line in out.splitlines() if line.endswith("FAULT")] == [
        "three",
        "three~left-right",
    ]
    assert out.endswith("1 pack, 2 levels: 2 faults\n")


def test_faults_of_all_files_at_once(data_dir: Path, good: Path, false: Path) -> None:
    """A broken file stops none of the others, and every fault of each is told."""
    (good.parent / "broken.toml").write_text(PACK.format(three="'x'").replace("note", "nota"))
    code, out, err = check(data_dir, good.parent, good.parent / "none.toml", Path("/dev/null"))
    assert code == Exit.FAULT
    assert out.endswith("2 packs, 4 levels: 9 faults\n")
    assert "The claims of 3 packs that cannot be read are proven once the faults are mended." in out
    broken = [line for line in err.splitlines() if "broken.toml" in line]
    assert len(broken) == 5
    assert any("did you mean" in line for line in broken)
    assert f"{good.parent / 'none.toml'}: cannot be read: No such file or directory" in err
    assert "/dev/null: is not a file" in err
    assert "Traceback" not in err


def test_a_pack_that_does_not_grow(data_dir: Path, tmp_path: Path) -> None:
    """Where a level is easier than one before it there is a warning, which is no fault."""
    path = tmp_path / "falling.toml"
    head, three, four = PACK.format(three=3).split("[[level]]")
    path.write_text(f"{head}[[level]]{four}[[level]]{three}")
    code, out, err = check(data_dir, path)
    assert (code, err) == (Exit.DONE, "")
    assert f'warning: {path}: level "three": ' in out
    assert "the pack does not grow" in out


def test_a_file_that_is_no_pack(data_dir: Path, tmp_path: Path) -> None:
    """Noise, a huge file, an empty folder and a path too long are faults of a line each."""
    (tmp_path / "noise.toml").write_bytes(bytes(range(256)))
    with (tmp_path / "huge.toml").open("wb") as file:
        file.truncate(100_000_000)
    (tmp_path / "empty").mkdir()
    paths = [tmp_path / name for name in ("noise.toml", "huge.toml", "empty", "x" * 5000)]
    code, out, err = check(data_dir, *paths)
    assert code == Exit.FAULT
    assert out.endswith("\n0 packs, 0 levels: 4 faults\n")
    assert len(err.splitlines()) == 4


def test_the_packs_that_come_with_the_program(data_dir: Path) -> None:
    """Without a path the program's own packs are checked, and Ctrl-C stops that in good order."""
    first = load_pack(min(pack_folder().glob("*.toml")))
    terminal = spawn("check", "--data-dir", str(data_dir))
    terminal.expect_exact(f"{first.id}: {first.title}")
    terminal.expect_exact(first.levels[0].id)
    terminal.sendintr()
    terminal.expect_exact("Stopped: what is not listed is not proven.")
    assert ended(terminal) == Exit.STOPPED
