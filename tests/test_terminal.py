"""The game in a real terminal, from end to end: keys in, what the emulator shows out."""

from __future__ import annotations

import re
import signal
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from threading import Thread
from time import monotonic

import pexpect  # type: ignore[import-untyped]
import pyte  # type: ignore[import-untyped]
import pytest

from game.cube.moves import parse_line
from game.play.position import position_after
from game.records import open_records
from tests.cli.running import let_go, spawn

PATIENCE_SECONDS = 60
COLUMNS, ROWS = 100, 40


class Terminal:
    """The game in a terminal emulator."""

    def __init__(
        self,
        folder: Path,
        env: Mapping[str, str] | None = None,
        arguments: Iterable[str] = (),
        before: str = "",
    ) -> None:
        given = (*arguments, "--data-dir", str(folder))
        self.game = spawn(*given, columns=COLUMNS, env=env, before=before)
        self.written = ""
        self._screen = pyte.Screen(COLUMNS, ROWS)
        self._stream = pyte.Stream(self._screen)

    @property
    def text(self) -> str:
        """What the window shows."""
        return "\n".join(self._screen.display)

    def shows(self, *words: str) -> None:
        """Reads what the game writes until all these words stand in the window."""
        self._read(lambda: self._holds(words))

    def _holds(self, words: Iterable[str]) -> bool:
        text = self.text
        return all(word in text for word in words)

    def press(self, *keys: str) -> None:
        """Presses keys at once, none of which waits for what the one before shows."""
        self.game.send("".join(keys))

    def resize(self, columns: int, rows: int) -> None:
        """Makes the window another size."""
        self._screen.resize(rows, columns)
        self.game.setwinsize(rows, columns)

    def clear(self) -> None:
        """Forgets what the window shows."""
        self._screen.reset()

    def ends(self) -> int:
        """Reads to the end; the exit code."""
        self._read(lambda: False)
        let_go(self.game)
        return int(self.game.exitstatus)

    def inks(self) -> set[str]:
        """The colours of the window, foreground and background, as the emulator names them."""
        cells = [cell for row in self._screen.buffer.values() for cell in row.values()]
        return {cell.fg for cell in cells} | {cell.bg for cell in cells}

    def _read(self, is_enough: Callable[[], bool]) -> None:
        end = monotonic() + PATIENCE_SECONDS
        while not is_enough():
            assert monotonic() < end, f"in vain:\n{self.text}"
            try:
                read = self.game.read_nonblocking(65_536, timeout=1)
            except pexpect.TIMEOUT:
                continue
            except pexpect.EOF:
                assert not self.game.isalive()
                return
            self.written += read
            self._stream.feed(read)


@contextmanager
def terminal(
    folder: Path,
    env: Mapping[str, str] | None = None,
    arguments: Iterable[str] = (),
    before: str = "",
) -> Iterator[Terminal]:
    """The game, ended at the end whatever has happened."""
    started = Terminal(folder, env, arguments, before)
    try:
        yield started
    finally:
        if started.game.isalive():
            started.game.kill(signal.SIGKILL)
        let_go(started.game)


def test_the_first_level_from_its_start_to_the_records(tmp_path: Path) -> None:
    """Three keys solve the first level, two leave, and the records know that it was done in par."""
    with terminal(tmp_path) as game:
        game.shows("Solve the pair at the front right", "par 3", "turns 0")
        game.press("r", "U", "R")
        game.shows("Solved in 3: at par", "R U' R'")
        game.press("q")
        game.shows("go on", "quit")
        game.press("q")
        assert game.ends() == 0
        assert "\x1b[?1049l" in game.written  # back from the alternate screen (xterm)
    records = open_records(tmp_path / "records.db")
    best = records.best(position_after(parse_line("R U R'")).text)
    records.close()
    assert best is not None
    assert (best.attempts, best.turns, best.at_par) == (1, 3, True)


@pytest.mark.parametrize(
    ("env", "inks"),
    [
        # Front green and centre yellow of the palette, as the emulator names them.
        ({"COLORTERM": "truecolor"}, {"07a066", "ffe814"}),
        ({"TERM": "xterm-256color"}, {"00af5f", "ffd700"}),
        ({"TERM": "xterm"}, {"green", "brightbrown"}),
    ],
)
def test_each_depth_has_its_own_colours(
    env: dict[str, str], inks: set[str], tmp_path: Path
) -> None:
    """With true colour, 256 and 16 colours the cube is painted in the palette of that depth."""
    with terminal(tmp_path, env) as game:
        game.shows("Solve the pair", "far side")
        assert inks <= game.inks()


def test_without_colour_letters_tell_the_stickers_apart(tmp_path: Path) -> None:
    """With NO_COLOR set (no-color.org) every colour written is a grey, and stickers are letters."""
    with terminal(tmp_path, {"NO_COLOR": "1"}) as game:
        game.shows("Solve the pair", "far side", "G*G", "O*O")
        codes = re.findall(r"\x1b\[([0-9;]+)m", game.written)
        colours = [code for sgr in codes for code in re.findall(r"[34]8;5;(\d+)", sgr)]
        plain = {part for sgr in codes for part in re.sub(r"[34]8;5;\d+", "", sgr).split(";")}
        assert all(int(colour) >= 232 for colour in colours)  # the greys of xterm's 256
        assert plain <= {"", "0", "1", "2", "3", "4", "7", "22", "24", "27"}  # no colour at all


@pytest.mark.parametrize("env", [{}, {"COLUMNS": "100", "LINES": "40"}], ids=["", "told"])
def test_playing_goes_on_after_a_window_was_too_small(env: dict[str, str], tmp_path: Path) -> None:
    """A window that shrinks says what is needed; grown again it shows the attempt as it was.

    That the environment tells the size at the start changes nothing.
    """
    with terminal(tmp_path, env) as game:
        game.shows("turns 0")
        game.press("r")
        game.shows("turns 1")
        game.resize(40, 12)
        game.shows("A little more room", "40x12")
        game.resize(COLUMNS, ROWS)
        game.shows("turns 1", "Solve the pair at the front right")
        game.press("U", "R")
        game.shows("Solved in 3: at par")


def test_a_closed_terminal_loses_nothing(tmp_path: Path) -> None:
    """When the terminal goes away the game ends as hung up, and the attempt is taken up again."""
    with terminal(tmp_path) as game:
        game.shows("turns 0")
        game.press("r")
        game.shows("turns 1")
        game.game.ptyproc.fileobj.close()
        waiting = Thread(target=game.game.wait, daemon=True)
        waiting.start()
        waiting.join(PATIENCE_SECONDS)
        assert game.game.exitstatus == 128 + signal.SIGHUP
    with terminal(tmp_path) as game:
        game.shows("turns 1")
        game.press("U", "R")
        game.shows("Solved in 3: at par")


def test_a_burst_of_keys_holds_nothing_up(tmp_path: Path) -> None:
    """Hundreds of keys at once, and a signal among them: the game ends by it, the turns in hand."""
    with terminal(tmp_path) as game:
        game.shows("turns 0")
        game.press("rrrr" * 500)  # back at the start again and again
        game.game.kill(signal.SIGTERM)
        assert game.ends() == 128 + signal.SIGTERM


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_signal_ends_the_game_in_good_order(number: signal.Signals, tmp_path: Path) -> None:
    """The exit code is 128 and the signal's number; the terminal is as it was before."""
    with terminal(tmp_path) as game:
        game.shows("turns 0")
        game.game.kill(number)
        assert game.ends() == 128 + number
        assert "\x1b[?1049l" in game.written  # back from the alternate screen (xterm)


def test_the_game_goes_on_and_ends_after_a_stop(tmp_path: Path) -> None:
    """Told to go on, stopped before or not, the game is drawn anew, hears keys, and can end."""
    with terminal(tmp_path) as game:
        game.shows("turns 0")
        for turns, stops in (("turns 1", [signal.SIGSTOP, signal.SIGCONT]), ("turns 2", [])):
            game.clear()
            for number in (*stops, signal.SIGCONT):
                game.game.kill(number)
            game.shows("Solve the pair")
            game.press("u" if turns == "turns 1" else "R")
            game.shows(turns)
        game.press("q")
        game.shows("go on", "quit")
        game.press("q")
        assert game.ends() == 0


def test_what_no_terminal_means_does_no_harm(tmp_path: Path) -> None:
    """Between malformed sequences every key counts."""
    with terminal(tmp_path) as game:
        game.shows("turns 0")
        game.press("\x1b[1114112u", "r", "\x1b[48;99999;99999;0;0t", "U")
        game.press("\x1b[99999999999u", "R")
        game.shows("Solved in 3: at par")
