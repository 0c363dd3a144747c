"""What speaks to the terminal: Textual's own driver for Unix, not held up by a closed terminal.

When a terminal closes, nothing can be written to it any more, and the system sends SIGHUP and then
SIGCONT. Textual's writer ends at the first failure, and what is still to be written piles up before
it until the game stands still; and it takes SIGCONT for the end of a suspension and begins anew.
Here what cannot be written is dropped, and a terminal that has gone is not begun with again, so
that the game ends in good order.
"""

from __future__ import annotations

import os
from contextlib import suppress
from typing import IO, Any, cast

from textual.drivers.linux_driver import LinuxDriver


class TerminalDriver(LinuxDriver):
    """Textual's driver, with an output that never fails."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        # The writer thread writes, flushes and asks for the number; nothing else of a file is used.
        self._file = cast(Any, Lossy(cast(IO[str], self._file)))

    def _sigcont_application(self, *args: Any) -> None:
        if os.isatty(self.fileno):
            super()._sigcont_application(*args)


class Lossy:
    """A file that drops what cannot be written."""

    def __init__(self, file: IO[str]) -> None:
        self._file = file
        self.fileno = file.fileno

    def write(self, text: str) -> None:
        """Write the text, if that is possible."""
        with suppress(OSError):
            self._file.write(text)

    def flush(self) -> None:
        """Have what was written reach the terminal, if that is possible."""
        with suppress(OSError):
            self._file.flush()
