"""Held against the keys that the game promises; notation from WCA Regulations 12a and practice."""

from __future__ import annotations

import pytest

from game.screens.play.letters import SUSPICIOUS, Letters, is_foreign


def read(keys: str, reading: Letters | None = None) -> tuple[list[str], Letters]:
    names = []
    reading = reading or Letters()
    for key in keys.split():
        move, reading = reading.press(key)
        names.append(move.name)
    return names, reading


def test_a_small_letter_turns_clockwise_and_a_capital_the_other_way() -> None:
    """All twelve letters, in both cases."""
    names, _ = read("f b r l u d x y z m e s")
    assert names == ["F", "B", "R", "L", "U", "D", "x", "y", "z", "M", "E", "S"]
    names, _ = read("F B R L U D X Y Z M E S")
    assert names == ["F'", "B'", "R'", "L'", "U'", "D'", "x'", "y'", "z'", "M'", "E'", "S'"]


def test_wide_holds_for_one_face_turn() -> None:
    """The prefix makes the next letter of a face wide, and nothing after it."""
    names, reading = read("r u", Letters().toggle_wide())
    assert names == ["Rw", "U"]
    assert not reading.wide


@pytest.mark.parametrize("key", ["x", "M"])
def test_wide_means_nothing_to_slices_and_rotations(key: str) -> None:
    """A slice or rotation after the prefix is itself, and ends the prefix."""
    names, reading = read(key, Letters().toggle_wide())
    assert "w" not in names[0]
    assert not reading.wide


def test_capitals_can_be_read_as_plain() -> None:
    """Flipped, capitals turn clockwise and small letters the other way."""
    names, _ = read("R r", Letters().toggle_flipped())
    assert names == ["R", "R'"]


def test_a_shift_that_is_told_is_always_the_other_way() -> None:
    """`shift+r` goes back in either reading, and never looks like Caps Lock."""
    for reading in (Letters(), Letters().toggle_flipped()):
        names, after = read("shift+r " * SUSPICIOUS, reading)
        assert set(names) == {"R'"}
        assert not after.is_suspicious


def test_caps_lock_is_suspected_once_after_a_row_of_turns_back() -> None:
    """At the last of the row, not before, and not again with each turn that follows."""
    suspicions = []
    reading = Letters()
    for key in "RUFLDB":
        _, reading = reading.press(key)
        suspicions.append(reading.is_suspicious)
    assert suspicions == [count == SUSPICIOUS for count in range(1, 7)]


def test_a_plain_turn_ends_the_row() -> None:
    """Three back, one plain, three back: nothing is suspected."""
    _, reading = read("R U F l R U F")
    assert not reading.is_suspicious


def test_small_letters_are_suspicious_when_capitals_are_plain() -> None:
    """Once Caps Lock is off again, the flipped reading is noticed in its turn."""
    _, reading = read("r u f l", Letters().toggle_flipped())
    assert reading.is_suspicious


@pytest.mark.parametrize(
    ("character", "foreign"),
    [
        ("к", True),
        ("ל", True),
        ("é", True),
        ("r", False),
        ("7", False),
        ("→", False),
        (None, False),
    ],
)
def test_letters_of_other_scripts_are_told_from_keys(character: str | None, foreign: bool) -> None:
    """A letter outside ASCII is foreign; digits, signs and keys without a character are not."""
    assert is_foreign(character) is foreign
