"""How long the game takes from its command to its first picture, beside an empty Textual app."""

from __future__ import annotations

import signal
import sys
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter

import pexpect  # type: ignore[import-untyped]

ROOT = Path(__file__).parents[2]
EMPTY = """
from textual.app import App
from textual.widgets import Static

class Empty(App[None]):
    def compose(self):
        yield Static("an empty app")

Empty().run()
"""
PATIENCE_SECONDS = 60


def startup_seconds(rounds: int = 7) -> tuple[float, float]:
    """Medians: the game at its very first start, to the first level in view; the empty app.

    Each round starts both, in turn, after one round that warms the disk. Start to picture is from
    the start of the process to the last words of its first picture, in a terminal of 80x24.
    """
    game, empty = [], []
    for number in range(rounds + 1):
        with tempfile.TemporaryDirectory() as folder:
            seconds = _until(["-m", "game", "--data-dir", folder], "far side")
        other = _until(["-c", EMPTY], "an empty app")
        if number:
            game.append(seconds)
            empty.append(other)
    return median(game), median(empty)


def _until(arguments: list[str], words: str) -> float:
    """Seconds from the start of Python with these arguments until the words are shown."""
    start = perf_counter()
    terminal = pexpect.spawn(
        sys.executable,
        arguments,
        cwd=str(ROOT),
        encoding="utf-8",
        dimensions=(24, 80),
        timeout=PATIENCE_SECONDS,
    )
    try:
        terminal.expect_exact(words)
        return perf_counter() - start
    finally:
        terminal.kill(signal.SIGKILL)
        terminal.wait()
