"""Runs the command: in this process, in one of its own, or in a terminal, with bytes in and out.

Most tests call it in this process, which is quicker by far. What is about the process itself (its
streams, signals, what it imports) is started as a person starts it.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from contextlib import chdir
from io import BytesIO, TextIOWrapper
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

import pexpect  # type: ignore[import-untyped]

from game.cli import main

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


def run(*arguments: str | bytes | Path, stdin: bytes = b"") -> Ran:
    """`pairwright` with these arguments, in this process: with streams of its own, as bytes."""
    streams = Streams(stdin)
    with (
        streams,
        patch.dict(os.environ, environment(), clear=True),
        chdir(ROOT),
    ):
        code = main([os.fsdecode(argument) for argument in arguments])
    return Ran(code, streams.said(streams.out), streams.said(streams.err))


class Streams:
    """Standard input, output and error as they are without a terminal, in UTF-8."""

    def __init__(self, stdin: bytes) -> None:
        self.input = TextIOWrapper(BytesIO(stdin), encoding="utf-8")
        self.out = TextIOWrapper(BytesIO(), encoding="utf-8")
        self.err = TextIOWrapper(BytesIO(), encoding="utf-8", errors="backslashreplace")
        self._own = (sys.stdin, sys.stdout, sys.stderr)

    def __enter__(self) -> None:
        sys.stdin, sys.stdout, sys.stderr = self.input, self.out, self.err

    def __exit__(self, *_: object) -> None:
        sys.stdin, sys.stdout, sys.stderr = self._own

    @staticmethod
    def said(stream: TextIOWrapper) -> str:
        """What has been written to a stream, line ends as they are."""
        stream.flush()
        assert isinstance(stream.buffer, BytesIO)
        return stream.buffer.getvalue().decode()


def run_apart(*arguments: str | bytes | Path, stdin: bytes = b"", **env: str) -> Ran:
    """`pairwright` with these arguments, as a person starts it: in a process of its own."""
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
    let_go(terminal)
    assert terminal.exitstatus is not None
    return int(terminal.exitstatus)


def let_go(terminal: pexpect.spawn[str]) -> None:
    """Close the terminal of a command that has ended."""
    terminal.wait()
    terminal.ptyproc.delayafterclose = 0  # for one that has not
    terminal.close()


def one_line(text: str) -> bool:
    """Whether it is exactly one line and no traceback."""
    return text.count("\n") == 1 and text.endswith("\n") and "Traceback" not in text
