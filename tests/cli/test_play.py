"""Starting the game."""

from __future__ import annotations

import signal
from pathlib import Path

from game.cli.exits import Exit
from tests.cli.running import ended, one_line, run_apart, spawn


def test_no_terminal(tmp_path: Path) -> None:
    """Without a terminal the game says so in one line, exits 2 and creates nothing."""
    code, out, err = run_apart("--data-dir", tmp_path / "home")
    assert (code, out) == (Exit.CANNOT, "")
    assert "needs a terminal" in err
    assert one_line(err)
    assert list(tmp_path.iterdir()) == []


def test_in_a_terminal(tmp_path: Path) -> None:
    """In a terminal the game starts; a signal ends it with its number and restores the terminal."""
    terminal = spawn("--data-dir", str(tmp_path), columns=100)
    terminal.expect_exact("\x1b[?1049h")  # the alternate screen (xterm)
    terminal.expect_exact("far side")
    terminal.kill(signal.SIGTERM)
    terminal.expect_exact("\x1b[?1049l")
    assert ended(terminal) == 128 + signal.SIGTERM


def test_an_environment_that_makes_no_sense(tmp_path: Path) -> None:
    """A system of colours that does not exist counts as none named."""
    env = {"TEXTUAL_COLOR_SYSTEM": "x"}
    terminal = spawn("--data-dir", str(tmp_path), columns=100, env=env)
    terminal.expect_exact("far side")
    terminal.kill(signal.SIGTERM)
    assert ended(terminal) == 128 + signal.SIGTERM
