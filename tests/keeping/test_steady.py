"""A clock that nobody moves by setting the computer's."""

from __future__ import annotations

from pathlib import Path

import pytest

from game.keeping.steady import SteadyClock, boot_id, since_boot


class Computer:
    """A clock on the wall, the time since the start, and the name of the start."""

    def __init__(self) -> None:
        self.wall, self.up, self.boot = 1_800_000_000.0, 100.0, "first"

    def passes(self, seconds: float) -> None:
        self.wall += seconds
        self.up += seconds

    def starts_anew(self) -> None:
        self.boot, self.up = self.boot + "'", 0.0

    def clock(self, folder: Path) -> SteadyClock:
        """As another process makes it."""
        return SteadyClock(
            folder / "clock", wall=lambda: self.wall, up=lambda: self.up, boot=lambda: self.boot
        )


@pytest.mark.parametrize("moved", [-86_400.0, -5.0, 0.0, 7.0, 86_400.0])
def test_setting_the_clock_changes_nothing(tmp_path: Path, moved: float) -> None:
    """While the computer is on, only what goes by counts, in every process."""
    computer = Computer()
    before = computer.clock(tmp_path).now()
    computer.passes(60)
    computer.wall += moved
    clock = computer.clock(tmp_path)
    assert clock.now() - before == 60
    assert not clock.is_unsure


def test_over_a_start_the_clock_is_believed(tmp_path: Path) -> None:
    """A computer that was off for an hour has been away for an hour."""
    computer = Computer()
    before = computer.clock(tmp_path).now()
    computer.passes(3600)
    computer.starts_anew()
    clock = computer.clock(tmp_path)
    assert clock.now() - before == 3600
    computer.passes(10)
    computer.wall -= 1000
    assert clock.now() - before == 3610
    assert not clock.is_unsure


def test_a_clock_that_went_back_over_a_start_is_told(tmp_path: Path) -> None:
    """Then nobody knows what has gone by: no time is won, and it is marked."""
    computer = Computer()
    before = computer.clock(tmp_path).now()
    computer.starts_anew()
    computer.wall -= 500
    clock = computer.clock(tmp_path)
    assert clock.now() == before
    assert clock.is_unsure
    computer.passes(30)
    assert clock.now() == before + 30


def test_without_a_name_of_the_start_the_clock_is_believed(tmp_path: Path) -> None:
    """Where the system tells neither, there is nothing better."""
    computer = Computer()
    computer.boot, computer.up = "", 0.0
    before = computer.clock(tmp_path).now()
    computer.wall += 60
    assert computer.clock(tmp_path).now() - before == 60


@pytest.mark.parametrize(
    "text",
    ["", "{}", "[]", '{"boot": 1}', '{"boot":"","offset":1e300,"last":0}', "\x00", "[" * 9999],
)
def test_a_damaged_file_is_done_without(tmp_path: Path, text: str) -> None:
    """It is as if there were none, and is mended."""
    computer = Computer()
    (tmp_path / "clock").write_text(text, encoding="utf-8")
    assert computer.clock(tmp_path).now() == 1_800_000_000
    computer.wall += 99
    assert computer.clock(tmp_path).now() == 1_800_000_000


def test_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    """The time is told all the same."""
    (tmp_path / "file").write_text("")
    assert Computer().clock(tmp_path / "file").now() == 1_800_000_000


def test_this_computer_tells_how_long_it_is_on() -> None:
    """The system's own answers are of the right kind (clock_gettime(2), random(4))."""
    assert since_boot() >= 0.0
    assert boot_id() == boot_id()
