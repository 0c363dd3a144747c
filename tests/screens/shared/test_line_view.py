from __future__ import annotations

import pytest

from game.screens.shared.line_view import CUT, line_rows


def test_a_sign_stands_under_the_first_letter_of_its_turn() -> None:
    """Names of different lengths keep their signs under themselves."""
    above, below = line_rows(["R", "U'", "Rw2", "F"], ["", "&", "", "&"], 40)
    assert (above, below) == ("R U' Rw2 F", "  &      &")


@pytest.mark.parametrize("width", [10, 20, 33, 46])
def test_a_long_line_shows_its_end(width: int) -> None:
    """A line that is too wide loses its earliest turns, and says so."""
    names = [f"{face}{suffix}" for face in "RUFLDB" for suffix in ("", "'", "2")]
    above, below = line_rows(names, ["&"] * len(names), width)
    assert len(above) <= width
    assert above.startswith(CUT)
    shown = above.removeprefix(CUT).split()
    assert shown == names[-len(shown) :]
    assert below.count("&") == len(shown)


def test_an_empty_line_is_two_empty_rows() -> None:
    """No turn, nothing to show."""
    assert line_rows([], [], 40) == ("", "")
