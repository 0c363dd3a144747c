"""The tree of errors and the text of each."""

from __future__ import annotations

import inspect
import re

import pytest

from game import errors
from game.errors import (
    SHOWN,
    Fault,
    ForbiddenTurn,
    NotationError,
    PackError,
    PairwrightError,
    did_you_mean,
    printable,
)


def tree_in_the_docstring() -> dict[str, str]:
    """Name -> the name it stands below, as the drawing at the top of the module shows."""
    parents: dict[str, str] = {}
    above: list[tuple[int, str]] = []
    for line in (errors.__doc__ or "").splitlines():
        drawn = re.match(r"    ([ |]*)(?:\+-- )?([A-Z]\w+)(?:\s|$)", line)
        if drawn:
            depth = len(drawn[1])
            depth += 4 if "+-- " in line else 0
            above = [(d, name) for d, name in above if d < depth]
            parents[drawn[2]] = above[-1][1] if above else "ValueError"
            above.append((depth, drawn[2]))
    return parents


def test_the_tree_at_the_top_is_the_tree_of_classes() -> None:
    """Every error of the module stands in the drawing, below the class it derives from."""
    classes = {
        name: kind.__base__.__name__
        for name, kind in inspect.getmembers(errors, inspect.isclass)
        if issubclass(kind, Exception) and kind.__module__ == errors.__name__
    }
    assert tree_in_the_docstring() == classes
    assert classes["PairwrightError"] == "ValueError"
    assert len(classes) > 10


def test_a_notation_error_is_a_line_and_a_caret() -> None:
    """The problem, the text, and carets under what is wrong; the fields are kept."""
    error = NotationError("R Q2 U", 2, 2, "unknown turn")
    assert str(error) == "unknown turn\n    R Q2 U\n      ^^"
    assert error.caret(indent="") == "R Q2 U\n  ^^"
    assert (error.text, error.place, error.length) == ("R Q2 U", 2, 2)
    assert isinstance(error, PairwrightError)


@pytest.mark.parametrize("place", [0, 1, 29, 30, 31, 150, 270, 299])
def test_a_long_text_is_cut_around_the_caret(place: int) -> None:
    """At most `SHOWN` characters are shown and the caret still stands under the fault."""
    text = "." * place + "Q" + "." * (299 - place)
    shown, caret = NotationError(text, place, 1, "").caret("").split("\n")
    assert len(shown) <= SHOWN
    assert shown[caret.index("^")] == "Q"
    assert caret.count("^") == 1


def test_carets_end_with_the_text_shown() -> None:
    """A fault longer than what is shown is marked to the end of that, and at least once."""
    shown, caret = NotationError("Q" * 500, 0, 500, "").caret("").split("\n")
    assert caret == "^" * SHOWN == "^" * len(shown)
    assert NotationError("R", 1, 0, "").caret("") == "R\n ^"


def test_a_forbidden_turn_names_the_faces_that_may_turn() -> None:
    """The player reads what was turned and what is allowed."""
    assert str(ForbiddenTurn("Fw'", "B", "RU")) == "Fw' turns face B; here only R and U may turn"


def test_a_fault_says_where_it_is() -> None:
    """File, level, key, problem and caret, as far as they are known."""
    assert str(Fault("a.toml", "", "", "not TOML")) == "a.toml: not TOML"
    full = Fault("a.toml", "first", "setup", "unknown turn", "    R Q\n      ^")
    assert str(full) == 'a.toml: level "first": setup: unknown turn\n    R Q\n      ^'


def test_a_pack_error_lists_every_fault() -> None:
    """All faults of a file, one after the other."""
    faults = (Fault("a.toml", "x", "par", "one"), Fault("a.toml", "", "title", "two"))
    assert str(PackError(faults)) == 'a.toml: level "x": par: one\na.toml: title: two'
    assert PackError(faults).faults == faults


def test_did_you_mean_suggests_only_what_is_close() -> None:
    """A near miss is suggested, anything else is not."""
    assert did_you_mean("setp", ["setup", "open"]) == '; did you mean "setup"?'
    assert did_you_mean("zzz", ["setup", "open"]) == ""


def test_an_offending_text_is_made_fit_for_one_line() -> None:
    """Control characters do not reach the terminal, and long texts are cut."""
    assert printable("a\n\x1b[31m\u202eb") == "a??[31m?b"
    assert printable("x" * 99) == "x" * 12
    assert printable("x" * 99, 3) == "xxx"
