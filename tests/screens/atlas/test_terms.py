"""The terms of the atlas, stepped through."""

from __future__ import annotations

from game.atlas import CELLS, Group, Spot, named
from game.screens.atlas.terms import ROWS, SurveyTerms

PARS = (3, 5, 6)


def stepped(terms: SurveyTerms, *rows: int, step: int = 1) -> SurveyTerms:
    for row in rows:
        terms = terms.stepped(row, step, PARS)
    return terms


def test_there_is_a_row_for_each_term() -> None:
    """The slot, three other slots, kind, par, result: each in words."""
    assert len(SurveyTerms().rows()) == ROWS
    assert SurveyTerms().rows() == (
        "slot FR", "FL kept", "BL kept", "BR kept", "any kind", "any par", "any result",
    )  # fmt: skip


def test_another_slot_turns_the_open_ones_too() -> None:
    """From FR with BR open, the next slot is FL with FR open; all round it is as before."""
    terms = SurveyTerms("FR", ("BR",))
    assert stepped(terms, 0) == SurveyTerms("FL", ("FR",))
    assert stepped(terms, 0, 0, 0, 0) == terms
    assert stepped(terms, 0, step=-1) == SurveyTerms("BR", ("BL",))


def test_other_slots_are_opened_and_kept() -> None:
    """Rows 1 to 3 toggle the slots besides the pair's own."""
    assert stepped(SurveyTerms("BL"), 1, 3).chosen == ("FR", "BR")
    assert stepped(SurveyTerms("BL"), 1, 3, 1).rows()[1:4] == ("FR kept", "FL kept", "BR open")


def test_kinds_and_pars_go_round() -> None:
    """Each kind, then any; only pars that there are; a par that has gone gives way."""
    seen = [terms := SurveyTerms()]
    seen += [terms := stepped(terms, 4) for _ in range(len(Group) + 1)]
    assert [each.group for each in seen] == [None, *Group, None]
    assert [stepped(SurveyTerms(), *[5] * k).par for k in range(5)] == [None, 3, 5, 6, None]
    assert stepped(SurveyTerms(), 5, step=-1).par == 6
    assert SurveyTerms(par=4).stepped(5, 1, PARS).par is None
    assert stepped(SurveyTerms(), 6).unmet


def test_what_terms_pick() -> None:
    """Kind, par and result each leave cells out."""
    cell = named("a3")
    assert SurveyTerms().picks(cell, None, met=True)
    assert SurveyTerms(group=Group.BOTH_ABOVE, par=5, unmet=True).picks(cell, 5, met=False)
    assert not SurveyTerms(group=Group.BOTH_IN).picks(cell, 5, met=False)
    assert not SurveyTerms(par=5).picks(cell, None, met=False)
    assert not SurveyTerms(unmet=True).picks(cell, 5, met=True)


def test_terms_follow_a_spot() -> None:
    """Slot and open slots of a spot become the terms'."""
    spot = Spot(CELLS[5], "BR", 0, ("FL",))
    assert SurveyTerms(par=6).follow(spot) == SurveyTerms("BR", ("FL",), par=6)
    assert SurveyTerms("BR", ("FL",)).spot(CELLS[5]) == spot
