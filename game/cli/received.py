"""Text that others have sent, read from a file or the standard input, whatever its bytes are."""

from __future__ import annotations

from collections.abc import Iterator
from io import TextIOWrapper
from typing import BinaryIO

PIECE = 65_536
"""Characters that are read at once."""


def received(stream: BinaryIO) -> Iterator[str]:
    """The text in received: UTF-16 where it begins with that mark, else UTF-8, faults and all."""
    head = stream.peek(2)[:2] if hasattr(stream, "peek") else b""
    encoding = "utf-16" if head in (b"\xff\xfe", b"\xfe\xff") else "utf-8"
    text = TextIOWrapper(stream, encoding=encoding, errors="replace")
    try:
        while piece := text.read(PIECE):
            yield piece
    finally:
        text.detach()
