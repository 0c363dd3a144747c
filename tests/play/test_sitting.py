from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime

import pytest

from game.cube.moves import parse_line
from game.errors import ForbiddenTurn
from game.packs import Puzzle
from game.play.position import Position
from game.play.sitting import ABANDONED, GAVE_UP, SOLVED, Sitting
from game.search.outcome import NoneUpTo, Solved, Stopped, Unsolvable
from game.search.pair_by_pair import PairByPair

BEGAN = datetime(2026, 3, 4, 18, 30, tzinfo=UTC)
FIRST, HOOK = "00-first-turns/open-door", "00-first-turns/other-way-round"


@dataclass(frozen=True)
class Unclaimed:
    """Something to play without a claim of its par."""

    position: Position

    par = None
    key = source = name = aside = place = why = ""
    mode = "casual"

    def note(self, colours: Mapping[str, str]) -> str:
        """Nothing is said."""
        return ""


@pytest.fixture
def first(shipped: dict[str, Puzzle]) -> Sitting:
    """A sitting at the first level, of par 3, its clock running from moment 10."""
    sitting = Sitting(shipped[FIRST], BEGAN)
    sitting.resume(10.0)
    return sitting


def test_the_clock_counts_only_what_is_in_view(first: Sitting) -> None:
    """Pauses do not count, and pausing twice is pausing once."""
    first.pause(12.5)
    first.pause(20.0)
    first.resume(100.0)
    assert first.ms(101.25) == 3750


def test_time_never_runs_backwards(first: Sitting) -> None:
    """A moment before the last event, as two threads may stamp them, counts as that event's."""
    first.turn(parse_line("R"), 13.0)
    first.turn(parse_line("U"), 12.9)
    assert [event.ms for event in first.attempt.events] == [3000, 3000]


def test_the_clock_stands_once_it_is_solved(first: Sitting) -> None:
    """After the last turn no time passes, in view or not."""
    first.turn(parse_line("R U' R'"), 14.0)
    assert first.outcome == SOLVED
    first.resume(20.0)
    assert first.ms(30.0) == 4000


def test_turns_before_a_forbidden_one_stand(shipped: dict[str, Puzzle]) -> None:
    """A line is followed up to the turn that may not be made."""
    restricted = next(p for p in shipped.values() if "B" not in p.position.faces)
    sitting = Sitting(restricted, BEGAN)
    allowed = restricted.position.faces[0]
    with pytest.raises(ForbiddenTurn):
        sitting.turn(parse_line(f"{allowed} B {allowed}"), 0.0)
    assert [event.what for event in sitting.attempt.events] == [allowed]


def test_undo_and_redo_tell_the_move_that_is_seen(first: Sitting) -> None:
    """Undo is seen as the inverse of the last move, redo as the move; with none, nothing is."""
    assert first.undo(11.0) is None
    first.turn(parse_line("R U2 F'"), 11.0)
    undone = first.undo(12.0)
    redone = first.redo(12.0)
    assert undone is not None
    assert redone is not None
    assert (undone.name, redone.name) == ("F", "F'")
    assert first.redo(12.0) is None


@pytest.mark.parametrize(("end", "outcome"), [("give_up", GAVE_UP), ("abandon", ABANDONED)])
def test_after_its_end_nothing_changes(first: Sitting, end: str, outcome: str) -> None:
    """An attempt that is over takes no turn, undo, redo, restart or look."""
    first.turn(parse_line("R"), 11.0)
    getattr(first, end)(12.0)
    before = first.attempt
    first.turn(parse_line("U"), 13.0)
    first.look(True, 13.0)
    assert not first.restart(13.0)
    assert (first.undo(13.0), first.redo(13.0)) == (None, None)
    assert (first.attempt, first.outcome) == (before, outcome)


def test_par_is_hidden_until_it_is_called(shipped: dict[str, Puzzle]) -> None:
    """Where par must be called it stays hidden to the end, and after the call it is told."""
    sitting = Sitting(shipped[FIRST], BEGAN, must_call=True)
    assert sitting.is_par_hidden
    sitting.turn(parse_line("R U' R'"), 1.0)
    assert sitting.is_calling
    assert sitting.is_par_hidden
    sitting.called = True
    assert not sitting.is_par_hidden
    assert sitting.record("always", "").called == "right"


def test_par_is_what_is_proven(shipped: dict[str, Puzzle]) -> None:
    """A pack's claim gives way to the proof, and before that to an attempt that beats it."""
    puzzle = shipped[FIRST]
    claim = Puzzle(puzzle.pack, replace(puzzle.level, par=9), "")
    sitting = Sitting(claim, BEGAN)
    assert sitting.par == 9
    sitting.turn(parse_line("R U' R'"), 0.0)
    assert sitting.par == 3
    sitting.learn(Solved(2, (parse_line("R U'"),), complete=True))
    assert sitting.par == 2


@pytest.mark.parametrize(
    ("outcome", "words"),
    [
        (Unsolvable("two edges are exchanged"), "has no solution: two edges are exchanged."),
        (NoneUpTo(12), "No solution of up to 12 turns"),
        (Stopped(9), "par is at least 9"),
    ],
)
def test_a_search_without_solutions_is_put_into_words(
    first: Sitting, outcome: Unsolvable | NoneUpTo | Stopped, words: str
) -> None:
    """What the search says instead of solutions is told, and the claim stands."""
    assert words in first.learn(outcome)
    assert (first.par, first.solutions) == (3, ())


def test_a_hand_that_cannot_solve_it_is_held_to_par(first: Sitting) -> None:
    """Where the faces at the hands do not suffice, the mark for the hand is that for par."""
    first.learn_hand(Unsolvable("the faces do not reach"))
    assert first.hand_par == 3


def test_a_record_holds_what_happened(shipped: dict[str, Puzzle]) -> None:
    """Every fact of a solved attempt over par stands in its record."""
    sitting = Sitting(shipped[HOOK], BEGAN, shown=True)
    sitting.resume(0.0)
    sitting.learn_hand(Solved(7, (), complete=True))
    for second, name in enumerate(["R", "U'", "R'", "U2", "R", "U", "R'"], 2):
        sitting.turn(parse_line(name), float(second))
    record = sitting.record("asked", "Ada")
    assert (record.puzzle, record.position) == (HOOK, shipped[HOOK].position.text)
    assert (record.outcome, record.turns, record.executed, record.par) == ("solved", 7, 7, 5)
    assert (record.over, record.at_hand, record.shown, record.called) == (2, True, True, "")
    assert (record.seeing_ms, record.first_side_ms, record.doing_ms) == (2000, 2000, 6000)
    assert (record.far_side, record.player) == ("asked", "Ada")
    assert record.events == sitting.attempt.events


def test_an_attempt_is_taken_up_again(shipped: dict[str, Puzzle]) -> None:
    """Events and clock of an attempt that was left lead on from where it was."""
    sitting = Sitting(shipped[HOOK], BEGAN)
    assert sitting.take_up([(500, "R"), (900, "B")], 2000)
    sitting.resume(50.0)
    assert sitting.ms(51.0) == 3000
    assert [move.name for move in sitting.attempt.line] == ["R", "B"]


@pytest.mark.parametrize(
    "events",
    [
        [(0, "Q")],
        [(5, "R"), (4, "U")],
        [(0, "R"), (0, "U'"), (0, "R'")],
    ],
)
def test_events_that_do_not_fit_are_not_taken_up(
    first: Sitting, events: list[tuple[int, str]]
) -> None:
    """No move, out of order, or already solved: the attempt begins anew."""
    assert not first.take_up(events, 1000)
    assert first.attempt.events == ()


def test_some_of_the_shortest_are_not_all(first: Sitting) -> None:
    """A search that was cut short has proven par, but not that its solutions are all."""
    line = parse_line("R U' R'")
    for complete in (False, True):
        assert first.learn(Solved(3, (line,), complete=complete)) == ""
        assert (first.par, first.solutions, first.knows_all) == (3, (line,), complete)


def test_a_par_that_nobody_claims(first: Sitting) -> None:
    """Where nothing is claimed and nothing proven, par and score are not known, even solved."""
    sitting = Sitting(Unclaimed(first.puzzle.position), BEGAN)
    sitting.resume(0.0)
    sitting.turn(parse_line("R U' R'"), 1.0)
    assert (sitting.outcome, sitting.par, sitting.score) == (SOLVED, None, None)
    assert sitting.record("always", "").par is None
    sitting.learn(Solved(3, (parse_line("R U' R'"),), complete=False))
    assert sitting.score is not None
    assert sitting.score.at_par
    assert not sitting.knows_all


def test_a_claim_whose_truth_is_not_known(first: Sitting) -> None:
    """Called before par is known is kept as claimed, and right or wrong once it is."""
    sitting = Sitting(Unclaimed(first.puzzle.position), BEGAN, must_call=True)
    sitting.resume(0.0)
    sitting.turn(parse_line("R U2 U R'"), 1.0)
    sitting.called = True
    assert sitting.record("always", "").called == "claimed"
    sitting.learn(Solved(3, (parse_line("R U' R'"),), complete=True))
    assert sitting.record("always", "").called == "right"


def test_pair_by_pair_is_learnt(first: Sitting) -> None:
    """The best total pair by pair is taken where it was found."""
    found = PairByPair(6, ("FR", "FL"), ((), ()), ())
    first.learn_by_pairs(Stopped(0))
    assert first.by_pairs is None
    first.learn_by_pairs(found)
    assert first.by_pairs == found
