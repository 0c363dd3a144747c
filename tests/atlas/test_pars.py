"""Pars of the atlas, each searched once for all images, held against what is known of them."""

from __future__ import annotations

import pytest

from game.atlas import CELLS, SHEETS, Facts, Par, Pars, Spot, named, spots
from game.cube.line import Line
from game.cube.moves import line_text
from game.packs.difficulty import Find
from game.search.outcome import Solved, Stopped
from tests.atlas.conftest import Searched

ALL_OPEN = ("FL", "BL", "BR")


def mean_par(pars: Pars, open_: tuple[str, ...]) -> float:
    """The mean over the 149 unsolved states with no piece astray, each counted once."""
    found = [pars.of(spot) for spot in spots("FR", open_, SHEETS[0].cells)]
    turns = [par.turns for par in found if par is not None]
    assert len(turns) == 150
    return sum(turns) / 149


@pytest.mark.slow
@pytest.mark.parametrize(
    ("open_", "mean"),
    [((), 6.66), (("FL",), 6.06), (("BR",), 6.06), (("BL",), 6.20), (ALL_OPEN, 5.78)],
)
def test_the_mean_par(searched: Searched, open_: tuple[str, ...], mean: float) -> None:
    """Three slots kept 6.66 turns on average, a neighbour open 6.06, all open 5.78 (computed)."""
    assert round(mean_par(searched("FR", open_), open_), 2) == mean


@pytest.mark.slow
def test_the_510_shortest_lines(searched: Searched) -> None:
    """One slot with three kept has 510 shortest lines in all (computed)."""
    pars = searched("FR", ())
    found = [pars.of(spot) for spot in spots("FR", (), SHEETS[0].cells)]
    assert sum(par.solutions for par in found if par is not None and par.turns) == 510


@pytest.mark.slow
def test_par_depends_on_the_turn_for_33_of_41(searched: Searched) -> None:
    """33 of the 41 have a par that depends on the turn of the top (computed)."""
    facts = [searched("FR", ()).facts(cell, "FR", ()) for cell in SHEETS[0].cells]
    differ = [len({par.turns for par in fact.pars if par is not None}) > 1 for fact in facts]
    assert sum(differ) == 33


def test_the_hook_has_par_five(searched: Searched) -> None:
    """a3 is solved in five turns by one line only, and is no shorter with the top turned."""
    facts = searched("FR", ()).facts(named("a3"), "FR", ())
    assert (facts.pars[0], facts.least) == (Par(5, 1), 5)


def test_every_slot_and_mirror_has_the_same_pars(searched: Searched) -> None:
    """What is known of one slot is known of all: nothing is left to search."""
    pars = searched("FR", ("BL",))
    assert list(pars.missing(spots("BR", ("FL",)))) == []
    for cell in CELLS:
        spot = Spot(cell, "FL", 0, ("BR",))
        assert pars.of(spot) == pars.of(Spot(cell, "FR", 0, ("BL",))) is not None


def test_half_the_searches_serve_all(searched: Searched) -> None:
    """Of 384 states, 200 are searched where the open slots are their own mirror image."""
    models = list(Pars().missing(spots("FR", ())))
    assert len(models) == len(set(models)) == 200


def test_solutions_of_the_least_par_turn_no_top_first(find: Find) -> None:
    """At a turn of the top with the least par no solution begins with the top."""
    pars = Pars()
    for cell in SHEETS[0].cells[::4]:
        lines: list[Line] = []
        turns = []
        for spot in spots("FR", (), (cell,)):
            outcome = find(spot.position.cube, spot.position.solve, spot.position.faces)
            assert isinstance(outcome, Solved)
            pars.learn(spot, outcome)
            turns.append(outcome.par)
            lines += [line for line in outcome.solutions if outcome.par <= min(turns)]
        facts = pars.facts(cell, "FR", ())
        best = {line_text(line) for line in lines if len(line) == facts.least}
        assert len(best) == facts.solutions
        assert not any(text.startswith("U") for text in best)


def test_what_was_not_finished_is_not_known() -> None:
    """A search that was stopped, or found some solutions only, leaves the par open."""
    pars, spot = Pars(), Spot(named("a0"))
    pars.learn(spot, Stopped(5))
    pars.learn(spot, Solved(5, ((),), complete=False))
    assert pars.of(spot) is None
    assert pars.facts(spot.cell, "FR", ()).least is None


def test_least_and_count_of_facts() -> None:
    """The least of the pars, and the solutions at every turn that has it."""
    facts = Facts((Par(7, 3), Par(5, 1), Par(6, 9), Par(5, 2)))
    assert (facts.least, facts.solutions) == (5, 3)
    assert Facts((Par(7, 3), None)).least is None
