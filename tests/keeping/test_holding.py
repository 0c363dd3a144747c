"""One process at a time plays a run or a match."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from game.keeping.holding import Holding

HOLDS = """
import sys, time
from pathlib import Path
from game.keeping.holding import Holding
print(Holding(Path(sys.argv[1])).take("run-7"), flush=True)
sys.stdin.read()
"""


def other(folder: Path) -> subprocess.Popen[str]:
    """Another process that takes it and goes on until its input ends."""
    started = subprocess.Popen(
        [sys.executable, "-c", HOLDS, str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert started.stdout is not None
    assert started.stdout.readline() == "True\n"
    return started


def test_another_process_holds_it(tmp_path: Path) -> None:
    """It is not to be had until that process has ended, killed or not; others are free."""
    holding = Holding(tmp_path)
    process = other(tmp_path)
    assert holding.is_elsewhere("run-7")
    assert not holding.take("run-7")
    assert holding.take("run-8")
    process.kill()
    process.wait()
    assert not holding.is_elsewhere("run-7")
    assert holding.take("run-7")
    for stream in (process.stdin, process.stdout):
        assert stream is not None
        stream.close()


def test_one_process_may_take_it_twice(tmp_path: Path) -> None:
    """What is held here is not elsewhere; what is let go can be had again, and leaves no file."""
    holding = Holding(tmp_path / "held")
    assert holding.take("run-7") and holding.take("run-7")
    assert not holding.is_elsewhere("run-7")
    holding.release("run-7")
    holding.release("run-7")
    assert list((tmp_path / "held").iterdir()) == []


def test_where_nothing_can_be_locked_nobody_is_kept_out(tmp_path: Path) -> None:
    """A folder that cannot be made costs nothing."""
    (tmp_path / "file").write_text("")
    assert Holding(tmp_path / "file").take("run-7")
