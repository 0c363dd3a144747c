"""Who plays: a run or a match is held by one process at a time, until it ends in whatever way."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl


class Holding:
    """What this process holds. folder: where a file a name is locked; made at the first use.

    The system lets go of a lock when its process ends, so nothing stays held for ever. Where
    nothing can be locked nobody is kept out.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._held: dict[str, int] = {}

    def take(self, name: str) -> bool:
        """Hold it; False if another process does."""
        if name in self._held:
            return True
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            file = os.open(self._folder / f"{name}.lock", os.O_RDWR | os.O_CREAT, 0o600)
        except OSError:
            return True
        if not _lock(file):
            os.close(file)
            return False
        self._held[name] = file
        return True

    def release(self, name: str) -> None:
        """Let go of it."""
        file = self._held.pop(name, None)
        if file is not None:
            with suppress(OSError):
                (self._folder / f"{name}.lock").unlink()
            os.close(file)

    def is_elsewhere(self, name: str) -> bool:
        """Whether another process holds it."""
        if name in self._held:
            return False
        is_free = self.take(name)
        self.release(name)
        return not is_free


def _lock(file: int) -> bool:
    """Lock an open file; False if another process has locked it."""
    try:
        if sys.platform == "win32":
            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    except OSError:  # a file system without locks
        return True
    return True
