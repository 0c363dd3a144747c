"""The words of the atlas' screen: heads of columns, rows, facts."""

from __future__ import annotations

from textwrap import wrap

import pytest

from game.atlas import CELLS, SHEETS, Par, Spot, named
from game.cube.colours import HOME_COLOURS, colour_scheme
from game.cube.pair import SLOTS
from game.screens.atlas.words import facts, heads, lines, open_words
from tests.screens.atlas.test_survey import AT_PAR, SOLVED

CHART = 57
"""Columns of the chart in a window of 80 (in the stylesheet)."""


def test_heads_of_the_first_sheet() -> None:
    """The colour that is up over four sides each, then the slot with where green looks."""
    over, under = heads(SHEETS[0], "FR", HOME_COLOURS)
    assert over == {0: "green up", 4: "orange up", 8: "in slot"}
    assert list(under.values()) == [*"FRBLFRBL", "gF", "gR"]


def test_heads_of_the_last_sheet_at_another_slot() -> None:
    """Seen at BL, the colours and slots are those that lie there."""
    over, under = heads(SHEETS[2], "BL", HOME_COLOURS)
    assert over == {0: "above", 2: "in slot", 4: "in BR", 6: "in FR", 8: "in FL"}
    assert list(under.values()) == ["bU", "rU", "bB", "bL", "bB", "bR", "bF", "bR", "bF", "bL"]


@pytest.mark.parametrize("slot", SLOTS)
def test_columns_have_heads_of_their_own(slot: str) -> None:
    """Over and under together tell the columns of a sheet apart."""
    for sheet in SHEETS:
        over, under = heads(sheet, slot, HOME_COLOURS)
        names, head = set(), ""
        for column in under:
            head = over.get(column, head)
            names.add((head, under[column]))
        assert len(names) == len(sheet.edges)


def test_lines_of_a_sheet() -> None:
    """Three lines of heads with the digits in the last, then rows under where the corner is."""
    found = lines(SHEETS[2], "FR", HOME_COLOURS, airy=False)
    assert [line.label for line in found] == [
        "", "", "corner in FL", "white down", "white front", "white left",
        "corner in BL", "white down", "white back", "white left",
        "corner in BR", "white down", "white back", "white right",
    ]  # fmt: skip
    assert [line.row for line in found if line.row] == list("noprstvxz")
    assert list(found[2].heads.values()) == list("0123456789")


def test_airy_lines_are_apart() -> None:
    """With room every row has an empty line before it."""
    close, airy = (lines(SHEETS[0], "FR", HOME_COLOURS, airy=a) for a in (False, True))
    assert len(airy) == len(close) + 5
    assert [line for line in airy if line.label] == [line for line in close if line.label]


def told(spot: Spot, *pars: Par | None, hidden: str = "") -> list[list[str]]:
    """The facts as lines of words; the first turn was met at par, the second solved."""
    bests = [AT_PAR, SOLVED._replace(turns=8), None, None][: len(pars)]
    return [
        line.split() for line in str(facts(spot, pars, bests, HOME_COLOURS, hidden)).split("\n")
    ]


def test_facts_of_an_entry() -> None:
    """Words, par with its sign at each turn, solutions, twins and the player's tries."""
    pars = Par(5, 1), Par(6, 3), None, Par(6, 2)
    head, top, par, solutions, twins, you = told(Spot(named("a3")), *pars)
    assert head[:5] == ["a3", "corner", "above", "its", "slot,"]
    assert top == ["top", "as", "listed", "U", "U2", "U'"]
    assert par == ["par", "5", "●", "6", "◐", "..", "6", "·"]
    assert solutions == ["solutions", "1", "3", "..", "2"]
    assert " ".join(twins) == "twins a6: left-right FL, front-back BR, diagonal FR"
    assert you[:4] == ["you", "1", "try;", "best"]


def test_turns_of_a_low_corner_are_named_by_their_columns() -> None:
    """In rows d to f each turn of the top is a column of its own, told in their order."""
    spot = Spot(named("e0"), turn=named("e0").turn_to("2"))
    pars = [Par(7, 1), Par(6, 2), Par(6, 3), Par(7, 4)]
    _, top, par, solutions, *_ = told(spot, *pars)
    assert top == ["top", "e0", "e1", "e2", "e3"]
    by_column = [pars[named("e0").turn_to(c)] for c in "0123"]
    assert solutions[1:] == [str(p.solutions) for p in by_column]
    assert par[1::2] == [str(p.turns) for p in by_column]


def test_a_hidden_par_is_not_told() -> None:
    """Par and the number of solutions are hidden, save where the player was at par."""
    pars = Par(5, 1), Par(6, 3), Par(7, 1), Par(6, 2)
    _, _, par, solutions, *_ = told(Spot(named("a3")), *pars, hidden="?")
    assert par == ["par", "5", "●", "?", "◐", "?", "·", "?", "·"]
    assert solutions == ["solutions", "1", "?", "?", "?"]


def test_slots_that_must_be_open_are_named() -> None:
    """A slot is named where it is open only because a piece lies in it."""
    assert open_words(Spot(named("a0"), "FR", 0, ("BL",))) == ""
    assert open_words(Spot(named("g0"))).startswith("Played with slot FL open: a piece")
    assert open_words(Spot(named("g0"), "FR", 0, ("FL",))) == ""
    assert "slots FL and BR open" in open_words(Spot(named("n8")))


def test_facts_fit_into_the_chart() -> None:
    """At 80 columns the words take two lines at most, and everything else one each."""
    pars = [Par(9, 31)] * 4
    colours = colour_scheme("yellow", "orange")
    for slot in SLOTS:
        for cell in CELLS:
            bests = [None] * len(cell.turns)
            found = str(facts(Spot(cell, slot), pars[: len(bests)], bests, colours, ""))
            words, *rest = found.split("\n")
            assert len(wrap(words, CHART)) <= 2
            assert max(len(line.rstrip()) for line in rest) <= CHART
