"""What speaks to the terminal: Textual's own driver for Unix, held up by nothing from outside.

When a terminal closes, nothing can be written to it any more, and the system sends SIGHUP and then
SIGCONT. Textual's writer ends at the first failure, and what is still to be written piles up before
it until the game stands still. Here what cannot be written is dropped.

Textual takes every SIGCONT for the end of a suspension of its own and begins anew, with a second
thread that reads. Here what goes on is ended first, and neither a terminal that has gone nor a game
that is ending is begun with again.

A sequence that no terminal means, like a key of no character or a window of 99,999 columns, ends
the thread that reads, or is drawn without end. Here it is dropped.
"""

from __future__ import annotations

import os
import selectors
import signal
from codecs import getincrementaldecoder
from collections.abc import Iterable, Iterator
from contextlib import suppress
from typing import IO, Any, cast

from textual import events
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver
from textual.message import Message

MOST_COLUMNS, MOST_ROWS = 2000, 1000
"""No window is larger than that; of one that says so a part is used."""


class TerminalDriver(LinuxDriver):
    """Textual's driver, with an output that never fails and an input that is bounded."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        # The writer thread writes, flushes and asks for the number; nothing else of a file is used.
        self._file = cast(Any, Lossy(cast(IO[str], self._file)))

    # -- going on after a stop -------------------------------------------------------------------

    def _sigcont_application(self, *args: Any) -> None:
        if self._must_signal_resume:  # all was ended before the stop, and nothing runs meanwhile
            self._begin_again()
        else:  # not within a signal, which may have come in the middle of anything
            self._loop.call_soon_threadsafe(self._begin_again)

    def _begin_again(self) -> None:
        """Take the terminal over once more: while the process stood, others may have had it."""
        if self._app._exit or not self._auto_restart or not os.isatty(self.fileno):
            return
        if not self._must_signal_resume:
            self.suspend_application_mode()
            self._must_signal_resume = True
        self.resume_application_mode()
        self._app.call_later(self._app.refresh)

    def close(self) -> None:
        """Stop writing; what stops the process is from now on nothing of ours."""
        super().close()
        if self._app._exit:
            for number in (signal.SIGTSTP, signal.SIGCONT):
                signal.signal(number, signal.SIG_DFL)

    def _run_input_thread(self) -> None:
        """Read; what is raised here is a fault as any other."""
        try:
            self.run_input_thread()
        except Exception as error:
            self._loop.call_soon_threadsafe(self._app._handle_exception, error)

    # -- what is read ----------------------------------------------------------------------------

    def run_input_thread(self) -> None:
        """Read until the driver is stopped. An input that has ended is a terminal that has gone."""
        reader = Reader()
        decode = getincrementaldecoder("utf-8")("replace").decode
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                text = ""
                if selector.select(0.1):
                    raw = self._read()
                    if not raw:
                        self._loop.call_soon_threadsafe(self._app.exit, 128 + signal.SIGHUP)
                        return
                    text = decode(raw)
                for message in reader.read(text):
                    self.process_message(message)

    def _read(self) -> bytes:
        with suppress(OSError):
            return os.read(self.fileno, 4096)
        return b""

    def _get_terminal_size(self) -> tuple[int, int]:
        """Columns and rows as the terminal says.

        Textual goes by COLUMNS and LINES first, which do not change with the window.
        """
        try:
            columns, rows = os.get_terminal_size(self.fileno)
        except OSError:
            columns = rows = 0
        if not columns or not rows:  # a terminal that does not know
            columns, rows = super()._get_terminal_size()
        return min(columns, MOST_COLUMNS), min(rows, MOST_ROWS)


class Reader:
    """Textual's parser; what it cannot take, and what no terminal means, is dropped."""

    def __init__(self) -> None:
        self._parser = XTermParser()

    def read(self, text: str) -> Iterator[Message]:
        """What this text means after all that came before it. Call it now and then without one."""
        for letter in text:
            yield from self._sound(self._parser.feed(letter))
        yield from self._sound(self._parser.tick())

    def _sound(self, messages: Iterable[Message]) -> Iterator[Message]:
        try:
            for message in messages:
                if not is_sound(message):
                    raise ValueError(message)
                yield message
        except (ValueError, ArithmeticError):  # its state may be as bad as the message
            self._parser = XTermParser()


def is_sound(message: Message) -> bool:
    """Whether a terminal can mean what was read."""
    match message:
        case events.Key(character=str(typed)):
            return not any("\ud800" <= letter <= "\udfff" for letter in typed)
        case events.Resize(size=size):
            return 0 < size.width <= MOST_COLUMNS and 0 < size.height <= MOST_ROWS
    return True


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
