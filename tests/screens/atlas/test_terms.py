"""The terms of the atlas, stepped through."""

from __future__ import annotations

from game.atlas import ENTRIES, Group, Spot, named
from game.screens.atlas.terms import ROWS, Terms

PARS = (3, 5, 6)


def stepped(terms: Terms, *rows: int, step: int = 1) -> Terms:
    for row in rows:
        terms = terms.stepped(row, step, PARS)
    return terms


def test_there_is_a_row_for_each_term() -> None:
    """The slot, three other slots, kind, par, result: each in words."""
    assert len(Terms().rows()) == ROWS
    assert Terms().rows() == (
        "slot FR", "FL kept", "BL kept", "BR kept", "any kind", "any par", "any result",
    )  # fmt: skip


def test_another_slot_turns_the_open_ones_too() -> None:
    """From FR with BR open, the next slot is FL with FR open; all round it is as before."""
    terms = Terms("FR", ("BR",))
    assert stepped(terms, 0) == Terms("FL", ("FR",))
    assert stepped(terms, 0, 0, 0, 0) == terms
    assert stepped(terms, 0, step=-1) == Terms("BR", ("BL",))


def test_other_slots_are_opened_and_kept() -> None:
    """Rows 1 to 3 toggle the slots besides the pair's own."""
    assert stepped(Terms("BL"), 1, 3).chosen == ("FR", "BR")
    assert stepped(Terms("BL"), 1, 3, 1).rows()[1:4] == ("FR kept", "FL kept", "BR open")


def test_kinds_and_pars_go_round() -> None:
    """Each kind, then any; only pars that there are; a par that has gone gives way."""
    seen = [terms := Terms()]
    seen += [terms := stepped(terms, 4) for _ in range(len(Group) + 1)]
    assert [each.group for each in seen] == [None, *Group, None]
    assert [stepped(Terms(), *[5] * k).par for k in range(5)] == [None, 3, 5, 6, None]
    assert stepped(Terms(), 5, step=-1).par == 6
    assert Terms(par=4).stepped(5, 1, PARS).par is None
    assert stepped(Terms(), 6).unmet


def test_what_terms_pick() -> None:
    """Kind, par and result each leave entries out."""
    entry = named("a3")
    assert Terms().picks(entry, None, met=True)
    assert Terms(group=Group.BOTH_ABOVE, par=5, unmet=True).picks(entry, 5, met=False)
    assert not Terms(group=Group.BOTH_IN).picks(entry, 5, met=False)
    assert not Terms(par=5).picks(entry, None, met=False)
    assert not Terms(unmet=True).picks(entry, 5, met=True)


def test_terms_follow_a_spot() -> None:
    """Slot and open slots of a spot become the terms'."""
    spot = Spot(ENTRIES[5], "BR", 0, ("FL",))
    assert Terms(par=6).follow(spot) == Terms("BR", ("FL",), par=6)
    assert Terms("BR", ("FL",)).spot(ENTRIES[5]) == spot
