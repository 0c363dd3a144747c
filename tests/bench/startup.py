"""How long the game takes from its command to its first picture, beside an empty Textual app.

Both run from compiled modules, as installed programs do: they are compiled into a folder of the
bench's own, whatever the environment says of writing them.
"""

from __future__ import annotations

import os
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
ROUNDS = 15
SOLVED_KEYS = "rUR"
"""What solves the first level, so that the next start opens at home."""
STARTS = (
    ("first", "the very first start", "1.5 times the empty app at most"),
    ("later", "a later start", "1.4 times the empty app at most"),
)
"""Each kind of start, what it is called, and how long it may be waited for."""


class Spent(NamedTuple):
    """Seconds from the start of a process to the last words of its first picture, and of work."""

    waited: float
    worked: float


def rows() -> Iterator[Row]:
    """First pictures: of an empty app, of the very first start, of a later one; in turn.

    One round before them compiles the modules and warms the disk. What is waited depends on what
    else the machine does; what is worked, by all threads of the process (Linux tells it), hardly
    does. Beside the ratio of the medians stands the median of the ratios of each round.
    """
    spent: dict[str, list[Spent]] = {"empty": [], "first": [], "later": []}
    with TemporaryDirectory() as compiled, TemporaryDirectory() as later:
        _play_once(later, compiled)
        for _ in range(ROUNDS + 1):
            spent["empty"].append(_until(["-c", EMPTY], "an empty app", compiled))
            with TemporaryDirectory() as fresh:
                first = ["-m", "game", "--data-dir", fresh]
                spent["first"].append(_until(first, "far side", compiled))
            again = ["-m", "game", "--data-dir", later]
            spent["later"].append(_until(again, "quit", compiled))
    for kind, what, most in STARTS:
        for measure, goal in (("waited", most), ("worked", "")):
            ours, empty = (
                [getattr(one, measure) for one in spent[name][1:]] for name in (kind, "empty")
            )
            ratio = median(ours) / median(empty)
            of_rounds = median(one / other for one, other in zip(ours, empty, strict=True))
            reference = f"an empty Textual app; median of the rounds' ratios {of_rounds:.3g}"
            yield Row(f"{what}, {measure}", ours, goal, ratio, reference)


def _play_once(folder: str, compiled: str) -> None:
    terminal = _spawn(["-m", "game", "--data-dir", folder], compiled)
    terminal.expect_exact("far side")
    terminal.send(SOLVED_KEYS)
    terminal.expect_exact("Solved in 3")
    terminal.kill(signal.SIGTERM)
    terminal.expect(pexpect.EOF)
    terminal.wait()


def _spawn(arguments: list[str], compiled: str) -> pexpect.spawn[str]:
    """Python with these arguments in a terminal. compiled: where its compiled modules are kept."""
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": compiled}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return pexpect.spawn(
        sys.executable,
        arguments,
        cwd=str(ROOT),
        env=environment,
        encoding="utf-8",
        dimensions=(24, 80),
        timeout=PATIENCE_SECONDS,
    )


def _until(arguments: list[str], words: str, compiled: str) -> Spent:
    """What Python takes with these arguments until the words are shown."""
    start = perf_counter()
    terminal = _spawn(arguments, compiled)
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
