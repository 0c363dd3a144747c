"""The output of the driver; how a game ends when its terminal closes: tests/test_terminal.py."""

from __future__ import annotations

import os
from io import TextIOWrapper
from pathlib import Path

from game.screens.driver import Lossy


def test_what_can_be_written_is(tmp_path: Path) -> None:
    """While there is something to write to, everything arrives, and the number is the file's."""
    with (tmp_path / "out").open("w") as file:
        lossy = Lossy(file)
        lossy.write("one ")
        lossy.write("two")
        lossy.flush()
        assert lossy.fileno() == file.fileno()
        assert (tmp_path / "out").read_text() == "one two"


def test_what_cannot_be_written_is_dropped() -> None:
    """Once the reader has gone, writing and flushing go on without a word."""
    reader, writer = os.pipe()
    os.close(reader)
    raw = os.fdopen(writer, "wb", buffering=0)
    lossy = Lossy(TextIOWrapper(raw, write_through=True))
    lossy.write("one")
    lossy.flush()
    raw.close()
