"""What the atlas knows and picks under its terms, and who stands beside whom."""

from __future__ import annotations

import pytest

from game.atlas import CELLS, SHEETS, Group, Pars, named, spots
from game.packs.difficulty import Find
from game.records.record import Best
from game.screens.atlas.survey import Survey
from game.screens.atlas.terms import SurveyTerms
from game.screens.atlas.words import Met

SOLVED = Best(1, True, False, False, False, 2, 7, 1000, 1000)
AT_PAR = SOLVED._replace(at_hand=True, at_par=True)
TRIED = SOLVED._replace(solved=False)


@pytest.fixture(scope="module")
def pars(find: Find) -> Pars:
    """The first sheet at FR, three slots kept."""
    found = Pars()
    for model in found.missing(spots("FR", (), SHEETS[0].cells)):
        position = model.position
        found.learn(model, find(position.cube, position.solve, position.faces))
    return found


def played(terms: SurveyTerms, **bests: Best) -> dict[str, Best]:
    """Bests by the names of cells, as listed; `b1_2` is b1 with the top turned twice."""
    found = {}
    for name, best in bests.items():
        cell, _, turn = name.partition("_")
        found[terms.spot(named(cell), int(turn or 0)).position.text] = best
    return found


def test_an_entry_has_the_most_of_its_turns() -> None:
    """At par at any turn of the top is at par; solved and tried come after."""
    terms = SurveyTerms("BL", ("FR",))
    bests = played(terms, a3=TRIED, b1=SOLVED, b1_2=AT_PAR, c4_3=SOLVED)
    survey = Survey(terms, Pars(), bests)
    signs = [survey.met(named(name)) for name in ("a3", "b1", "c4", "c5", "d8")]
    assert signs == [Met.NOT, Met.AT_PAR, Met.SOLVED, Met.NOT, Met.NONE]
    assert survey.tally == (168, 2, 1)


def test_records_of_other_terms_do_not_count() -> None:
    """What was solved at another slot or with other open slots is another position."""
    bests = played(SurveyTerms("FR"), a3=AT_PAR)
    assert Survey(SurveyTerms("FR"), Pars(), bests).met(named("a3")) is Met.AT_PAR
    assert Survey(SurveyTerms("FL"), Pars(), bests).met(named("a3")) is Met.NOT
    assert Survey(SurveyTerms("FR", ("BL",)), Pars(), bests).met(named("a3")) is Met.NOT


def test_a_filter_picks(pars: Pars) -> None:
    """Kind, least par, and what is not yet at par; the solved cell counts as met."""
    bests = played(SurveyTerms(), b1=AT_PAR)
    names = [e.name for e in CELLS if Survey(SurveyTerms(par=3), pars, bests).picks(e)]
    assert names == ["b1", "b7", "c2", "c4"]
    left = Survey(SurveyTerms(par=3, unmet=True), pars, bests)
    assert [e.name for e in CELLS if left.picks(e)] == ["b7", "c2", "c4"]
    kinds = Survey(SurveyTerms(group=Group.BOTH_IN, unmet=True), pars, bests)
    assert [e.name for e in CELLS if kinds.picks(e)] == ["d9", "e8", "e9", "f8", "f9"]


def test_pars_to_choose_are_those_found(pars: Pars) -> None:
    """Least pars from three to nine are known on the first sheet; none while par is hidden."""
    assert Survey(SurveyTerms(), pars, {}).pars_found == (3, 5, 6, 7, 8, 9)
    assert Survey(SurveyTerms(), pars, {}, hides_par=True).pars_found == ()


def test_a_hidden_par_is_told_once_met(pars: Pars) -> None:
    """With par hidden, only cells at par tell it."""
    survey = Survey(
        SurveyTerms(), pars, played(SurveyTerms(), b1=AT_PAR, c2=SOLVED), hides_par=True
    )
    told = [survey.tells_par(named(name)) for name in ("b1", "c2", "a0", "d8")]
    assert told == [True, False, False, True]


def test_arrows_go_from_cell_to_cell() -> None:
    """To the side within a row, up and down from row to row and on to the next sheet."""
    survey = Survey(SurveyTerms(), Pars(), {})

    def way(name: str, *ways: str) -> str:
        spot = survey.at(name)
        for each in ways:
            spot = survey.step(spot, each) or spot
        return spot.name

    assert way("a0", "left", "right", "right") == "a2"
    assert way("a9", "right", "down", "down") == "c9"
    assert way("d0", "right", "right") == "d2"
    assert way("f9", "down") == "g5"
    assert way("g5", "up") == "f5"
    assert way("z0", "down") == "z0"
    assert way("a4", "up") == "a4"


def test_arrows_leap_over_what_is_not_picked(pars: Pars) -> None:
    """With a filter the arrows stop only at cells that are picked, the nearest in a row."""
    survey = Survey(SurveyTerms(par=3), pars, {})
    right, down = survey.step(survey.at("b1"), "right"), survey.step(survey.at("b7"), "down")
    assert right is not None
    assert right.name == "b7"
    assert down is not None
    assert down.name == "c4"
    assert survey.step(survey.at("c4"), "down") is None


def test_play_goes_along_what_is_picked(pars: Pars) -> None:
    """The next and the one before in the order of the atlas, never the one that is solved."""
    survey = Survey(SurveyTerms(par=3), pars, {})
    assert survey.beside(named("b1"), 1) is named("b7")
    assert survey.beside(named("b1"), -1) is None
    assert survey.beside(named("c4"), 1) is None
    every = Survey(SurveyTerms(), pars, {})
    assert every.beside(named("d4"), 1) is named("d9")
    assert every.beside(named("g0"), -1) is named("f9")


def test_the_sheet_in_view_is_searched_first(pars: Pars) -> None:
    """The chosen cell, its sheet, then the sheets after it; nothing that is known."""
    survey = Survey(SurveyTerms(), pars, {})
    first = survey.missing(named("h3"))
    assert first[0] == survey.spots(named("h3"))[0].model
    assert {spot.cell.sheet for spot in first} == {SHEETS[1]}
    assert {spot.cell.sheet for spot in survey.missing(named("a0"))} == {SHEETS[1]}


def test_a_row_without_the_column_gives_its_last() -> None:
    """Rows g to l end at column 5."""
    survey = Survey(SurveyTerms(), Pars(), {})
    assert survey.in_row("h", "9").name == "h5"
    assert survey.in_row("n", "9").name == "n9"
    first = survey.first(SHEETS[2].cells)
    assert first is not None
    assert first.name == "n0"
