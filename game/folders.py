"""Where Pairwright's files are, and setting one aside that cannot be used.

    data     records.db       every attempt
             packs            packs of levels that the player adds
             chat             invites and cards written to files
    config   settings.toml    what the player chose
    cache    tables of the search, rebuilt whenever they are missing
    state    mishaps          what went wrong that nobody foresaw, see `game.mishap`

The folders are the platform's own for each kind, or all below one folder that the player names.
Nothing is created here: whoever writes a file first makes its folder.
"""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

import platformdirs

from game.errors import SettingsError

NAME = "pairwright"


class Folders(NamedTuple):
    """The four folders, as absolute paths; they need not exist."""

    data: Path
    config: Path
    cache: Path
    state: Path

    @property
    def records(self) -> Path:
        """The database of attempts."""
        return self.data / "records.db"

    @property
    def packs(self) -> Path:
        """The player's own packs of levels."""
        return self.data / "packs"

    @property
    def chat(self) -> Path:
        """Text for chats, where it was written to a file."""
        return self.data / "chat"

    @property
    def mishaps(self) -> Path:
        """A file for each of the last times that something went wrong unforeseen."""
        return self.state / "mishaps"

    @property
    def settings(self) -> Path:
        """The file of settings."""
        return self.config / "settings.toml"


def folders(data_dir: str | Path | None = None) -> Folders:
    """The platform's folders, or everything below `data_dir` when it is given.

    Raises SettingsError for a `data_dir` that cannot be the name of a folder.
    """
    if data_dir is None:
        return Folders(
            platformdirs.user_data_path(NAME, appauthor=False).absolute(),
            platformdirs.user_config_path(NAME, appauthor=False).absolute(),
            platformdirs.user_cache_path(NAME, appauthor=False).absolute(),
            platformdirs.user_state_path(NAME, appauthor=False).absolute(),
        )
    text = os.fspath(data_dir)
    if not text or "\0" in text:
        raise SettingsError("the data folder needs a name")
    try:
        below = Path(text).expanduser().absolute()
    except (OSError, RuntimeError) as error:
        raise SettingsError(f"the data folder {text!r} cannot be found: {error}") from None
    return Folders(below, below, below / "tables", below)


def move_aside(path: Path, word: str) -> Path:
    """Rename a file to `<name>.<word>-<date>-<time>`, beside itself; the new path.

    Nothing is overwritten: a name that is taken gets a number. Raises OSError.
    """
    target = dated(path, word)
    os.rename(path, target)  # noqa: PTH104 (the moved path itself is the answer)
    return target


def dated(path: Path, word: str) -> Path:
    """A free name beside a file: `<name>.<word>-<date>-<time>`, with a number if need be."""
    stem = f"{path.name}.{word}-{datetime.now():%Y%m%d-%H%M%S}"
    target, count = path.with_name(stem), 1
    while os.path.lexists(target):
        count += 1
        target = path.with_name(f"{stem}-{count}")
    return target
