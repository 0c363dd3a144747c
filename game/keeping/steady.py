"""Seconds since 1970 that nobody moves by setting the computer's clock.

What runs on while the game is away, a contest's clock, is counted in them. While the computer is
on, the time since it was started tells how much has gone by, whatever its clock says; so what the
clock said first after a start is kept in a file, and all else follows. Over a start of the computer
the clock alone can tell. Where it then says an earlier time than was seen before, how much has gone
by cannot be known: no time has, and that is told.

The time since the start is CLOCK_BOOTTIME of Linux, which goes on while the computer sleeps, and
the start is known by the kernel's boot id; where there are none the clock is believed.
"""

from __future__ import annotations

import json
import os
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

_BOOT_ID = Path("/proc/sys/kernel/random/boot_id")
LATEST = 2**40
"""Seconds since 1970 that are taken for a time at most."""


@dataclass(frozen=True)
class _Seen:
    """What is kept: the start of the computer, what its clock said before that, the last time."""

    boot: str
    offset: float
    last: float


def boot_id() -> str:
    """The start of the computer; nothing where the system does not name it."""
    try:
        return _BOOT_ID.read_text(encoding="ascii").strip()
    except (OSError, ValueError):
        return ""


def since_boot() -> float:
    """Seconds since the start of the computer, those asleep included; 0.0 where unknown."""
    clock = getattr(time, "CLOCK_BOOTTIME", None)
    return time.clock_gettime(clock) if clock is not None else 0.0


def asleep() -> float:
    """Seconds for which the computer has slept since its start, as far as the system tells.

    The clock by which a position is played stands meanwhile (CLOCK_MONOTONIC of Linux).
    """
    return max(0.0, since_boot() - time.monotonic())


class SteadyClock:
    """The clock of a data folder. path: of its file, which is made at the first use."""

    def __init__(
        self,
        path: Path,
        *,
        wall: Callable[[], float] = time.time,
        up: Callable[[], float] = since_boot,
        boot: Callable[[], str] = boot_id,
    ) -> None:
        self._path = path
        self._wall = wall
        self._up = up
        self._boot = boot
        self.is_unsure = False
        """Whether the computer's clock went back over a start: what ran on cannot be known."""

    def now(self) -> int:
        """Seconds since 1970. A file that cannot be read or written is done without."""
        boot, up, seen = self._boot(), self._up(), self._read()
        if boot and seen is not None and seen.boot == boot:
            now = seen.offset + up
            offset = seen.offset
        else:
            now = self._wall()
            if seen is not None and now < seen.last:
                self.is_unsure = True
                now = seen.last
            offset = now - up
        self._write(_Seen(boot, offset, max(now, seen.last if seen is not None else 0.0)))
        return int(min(max(now, 0), LATEST))

    def _read(self) -> _Seen | None:
        try:
            found = json.loads(self._path.read_text(encoding="utf-8"))
            seen = _Seen(str(found["boot"]), float(found["offset"]), float(found["last"]))
        except (OSError, ValueError, TypeError, LookupError, RecursionError):
            return None
        is_sound = all(abs(each) <= LATEST for each in (seen.offset, seen.last))
        return seen if is_sound else None

    def _write(self, seen: _Seen) -> None:
        text = json.dumps({"boot": seen.boot, "offset": seen.offset, "last": seen.last})
        beside = self._path.with_name(f"{self._path.name}.{os.getpid()}")
        with suppress(OSError):
            self._path.parent.mkdir(parents=True, exist_ok=True)
            beside.write_text(text, encoding="utf-8")
            beside.replace(self._path)
