"""Runs the command as a person does: in a process of its own, with bytes in and out."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

import pexpect  # type: ignore[import-untyped]

ROOT = Path(__file__).parents[2]
COMMAND = [sys.executable, "-m", "game"]
STARTS = "\nimport sys\nfrom game.cli import main\nsys.exit(main(sys.argv[1:]))\n"


class Ran(NamedTuple):
    """How a command ended and what it said."""

    code: int
    out: str
    err: str


def environment(**more: str) -> dict[str, str]:
    """The process's environment without what tells of its own terminal, and more."""
    own = ("NO_COLOR", "COLORTERM", "TERM", "COLUMNS", "LINES")
    kept = {k: v for k, v in os.environ.items() if k not in own}
    return kept | more


def run(*arguments: str | bytes | Path, stdin: bytes = b"", **env: str) -> Ran:
    """`pairwright` with these arguments."""
    command = [*COMMAND, *arguments]
    ended = subprocess.run(
        command, input=stdin, capture_output=True, cwd=ROOT, env=environment(**env), check=False
    )
    return Ran(ended.returncode, ended.stdout.decode(), ended.stderr.decode())


def spawn(
    *arguments: str, columns: int = 80, env: Mapping[str, str] | None = None, before: str = ""
) -> pexpect.spawn[str]:
    """`pairwright` in a terminal of 40 rows. before: Python that is run first in its process."""
    command = COMMAND if not before else [COMMAND[0], "-c", before + STARTS]
    return pexpect.spawn(
        command[0],
        [*command[1:], *arguments],
        cwd=str(ROOT),
        env=environment(**{"TERM": "xterm-256color", **(env or {})}),
        encoding="utf-8",
        dimensions=(40, columns),
        timeout=60,
    )


def ended(terminal: pexpect.spawn[str]) -> int:
    """The exit code, once all has been read."""
    terminal.expect(pexpect.EOF)
    terminal.close()
    assert terminal.exitstatus is not None
    return int(terminal.exitstatus)


def one_line(text: str) -> bool:
    """Whether it is exactly one line and no traceback."""
    return text.count("\n") == 1 and text.endswith("\n") and "Traceback" not in text
