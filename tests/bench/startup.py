"""How long the game takes from its command to its first picture, beside an empty Textual app."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import NamedTuple

import pexpect  # type: ignore[import-untyped]

from tests.bench.table import Row

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


ROUNDS = 7
SOLVED_KEYS = "rUR"
"""What solves the first level, so that the next start opens at home."""


class Spent(NamedTuple):
    """Seconds from the start of a process to the last words of its first picture, and of work."""

    waited: float
    worked: float


def rows() -> Iterator[Row]:
    """First pictures: of the very first start, of a later one, of an empty app; in turn.

    One round before them warms the disk. What is waited depends on what else the machine does;
    what is worked, by all threads of the process (Linux tells it), hardly does.
    """
    spent: dict[str, list[Spent]] = {"empty": [], "first": [], "later": []}
    with TemporaryDirectory() as later:
        _play_once(later)
        for _ in range(ROUNDS + 1):
            spent["empty"].append(_until(["-c", EMPTY], "an empty app"))
            with TemporaryDirectory() as fresh:
                spent["first"].append(_until(["-m", "game", "--data-dir", fresh], "far side"))
            spent["later"].append(_until(["-m", "game", "--data-dir", later], "quit"))
    for kind, what in (("first", "the very first start"), ("later", "a later start")):
        for measure, goal in (("waited", ""), ("worked", "1.6 times the empty app at most")):
            ours, reference = (
                [getattr(one, measure) for one in spent[name][1:]] for name in (kind, "empty")
            )
            ratio = median(ours) / median(reference)
            yield Row(f"{what}, {measure}", ours, goal, ratio, "an empty Textual app")


def _play_once(folder: str) -> None:
    terminal = _spawn(["-m", "game", "--data-dir", folder])
    terminal.expect_exact("far side")
    terminal.send(SOLVED_KEYS)
    terminal.expect_exact("Solved in 3")
    terminal.kill(signal.SIGTERM)
    terminal.expect(pexpect.EOF)
    terminal.wait()


def _spawn(arguments: list[str]) -> pexpect.spawn[str]:
    return pexpect.spawn(
        sys.executable,
        arguments,
        cwd=str(ROOT),
        encoding="utf-8",
        dimensions=(24, 80),
        timeout=PATIENCE_SECONDS,
    )


def _until(arguments: list[str], words: str) -> Spent:
    """What Python takes with these arguments until the words are shown."""
    start = perf_counter()
    terminal = _spawn(arguments)
    try:
        terminal.expect_exact(words)
        return Spent(perf_counter() - start, _worked(terminal.pid))
    finally:
        terminal.kill(signal.SIGKILL)
        terminal.wait()


def _worked(process: int) -> float:
    """Seconds that the threads of a process have run so far; not a number where nobody tells."""
    try:
        threads = list(Path(f"/proc/{process}/task").iterdir())
        return sum(int((thread / "schedstat").read_text().split()[0]) for thread in threads) / 1e9
    except OSError:
        return float("nan")
