"""One thing to do on one screen."""

from __future__ import annotations

from typing import NamedTuple


class Command(NamedTuple):
    """One thing to do on one screen.

    keys: Textual's key names, the first one shown in the key bar. shown: the keys as the help
    writes them. label: a word or two for the key bar and palette. help: a sentence for the help.
    group: the heading it stands under. bar: its place in the key bar (0: not there); when room is
    short the highest go first. each: every key is a case of its own.
    """

    screen: str
    action: str
    keys: tuple[str, ...]
    shown: str
    label: str
    help: str
    group: str
    bar: int = 0
    each: bool = False
