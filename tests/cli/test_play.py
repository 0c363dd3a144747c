"""Starting the game."""

from __future__ import annotations

from pathlib import Path

from game.cli.exits import Exit
from tests.cli.running import one_line, run


def test_no_terminal(tmp_path: Path) -> None:
    """Without a terminal the game says so in one line, exits 2 and creates nothing."""
    code, out, err = run("--data-dir", tmp_path / "home")
    assert (code, out) == (Exit.CANNOT, "")
    assert "needs a terminal" in err
    assert one_line(err)
    assert list(tmp_path.iterdir()) == []
