"""`pairwright where`: which files the game uses."""

from __future__ import annotations

import argparse
from pathlib import Path

from game.cli.exits import Exit
from game.folders import Folders

NAME = "where"
HELP = "tell the files that the game uses"
DESCRIPTION = "Tell where records, settings, tables and packs are, and which exist so far."


def define(parser: argparse.ArgumentParser) -> None:
    """This command has no arguments of its own."""


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Print a line for each file or folder."""
    from game.packs import pack_folder  # noqa: PLC0415 - nothing of packs for the other commands

    for name, path in (
        ("records", folders.records),
        ("settings", folders.settings),
        ("tables", folders.cache),
        ("packs", pack_folder()),
        ("own packs", folders.packs),
        ("mishaps", folders.mishaps),
    ):
        print(f"{name:<11}{_shown(path)}{'' if _exists(path) else '  (not there yet)'}")
    return Exit.DONE


def _shown(path: Path) -> str:
    """The path; a character that cannot be seen, or moves the cursor, as an escape."""
    escape = "unicode_escape"
    return "".join(c if c.isprintable() else c.encode(escape).decode() for c in str(path))


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except OSError:
        return False
