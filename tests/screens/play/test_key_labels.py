from __future__ import annotations

from datetime import UTC, datetime

import pytest

from game.cube.moves import parse_line
from game.packs import Puzzle
from game.play.sitting import Sitting
from game.screens.play.key_labels import after, key_label

BEGAN = datetime(2026, 3, 4, 18, 30, tzinfo=UTC)


def sitting_after(puzzle: Puzzle, line: str, *, must_call: bool = False) -> Sitting:
    sitting = Sitting(puzzle, BEGAN, must_call=must_call)
    sitting.turn(parse_line(line), 0.0)
    return sitting


@pytest.fixture
def hook(shipped: dict[str, Puzzle]) -> Puzzle:
    """A level of par 5."""
    return shipped["00-first-turns/other-way-round"]


def test_over_par_enter_tries_again(hook: Puzzle) -> None:
    """*Again* is what Enter does, and the solutions can be shown."""
    sitting = sitting_after(hook, "R U' R' U2 R U R'")
    assert after(sitting) == "again"
    assert key_label("go", sitting, reveal=False) == "again"
    assert key_label("show", sitting, reveal=False) == "show"


def test_at_par_enter_goes_on(hook: Puzzle) -> None:
    """*Next* is what Enter does."""
    sitting = sitting_after(hook, "R B U2 B' R'")
    assert after(sitting) == "next"
    assert key_label("go", sitting, reveal=False) == "next"


def test_before_the_end_there_is_nothing_to_go_on_to(hook: Puzzle) -> None:
    """Enter is not offered; giving up is, under its own name."""
    sitting = sitting_after(hook, "R")
    assert key_label("go", sitting, reveal=False) == ""
    assert key_label("show", sitting, reveal=False) is None


def test_while_it_is_called_par_is_not_given_away(hook: Puzzle) -> None:
    """Neither *again* nor *next* tells whether it was par: Enter shows it."""
    for line in ("R U' R' U2 R U R'", "R B U2 B' R'"):
        sitting = sitting_after(hook, line, must_call=True)
        labels = {a: key_label(a, sitting, reveal=False) for a in ("go", "again", "next", "show")}
        assert labels == {"go": "show par", "again": "", "next": "", "show": ""}
