"""What the driver writes and reads; how a game ends: tests/test_terminal.py."""

from __future__ import annotations

import os
from io import TextIOWrapper
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual import events

from game.screens.driver import Lossy, Reader, is_sound


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


SEQUENCES = {
    "a key beyond all characters": "\x1b[1114112u",
    "a key beyond all numbers": "\x1b[99999999999u",
    "half a character": "\x1b[55296u",
    "a key that goes up": "\x1b[97;1:3u",
    "a window that is too wide": "\x1b[48;40;99999;0;0t",
    "a window that is too high": "\x1b[48;99999;100;0;0t",
    "a window without pixels, and a click": "\x1b[48;40;100;0;0t\x1b[<0;5;5M",
}


@pytest.mark.parametrize("sequence", SEQUENCES.values(), ids=SEQUENCES)
def test_what_no_terminal_means_is_dropped(sequence: str) -> None:
    """Malformed reports give no key and no size out of bounds, and what follows is read."""
    read = list(Reader().read(f"r{sequence}U\x1b[<0;8;4M"))
    assert [m.character for m in read if isinstance(m, events.Key)] == ["r", "U"]
    assert all(m.size == (100, 40) for m in read if isinstance(m, events.Resize))
    assert [(m.x, m.y) for m in read if isinstance(m, events.MouseDown)][-1:] == [(7, 3)]


@given(st.text(st.sampled_from("\x1b[<>?;:0123456789OMmtuyRI~AZ \ud800é"), max_size=60))
def test_nothing_that_arrives_is_too_much(text: str) -> None:
    """Whatever a terminal sends, what is read of it is sound, and reading goes on."""
    reader = Reader()
    assert all(map(is_sound, reader.read(text)))
    rest = [*reader.read("\x1b[201~"), *reader.read("rr")]
    assert [m for m in rest if isinstance(m, events.Key) and m.key == "r"]
