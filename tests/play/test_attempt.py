"""One try at a position, without a screen."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.cube import SOLVED
from game.cube.line import inverse
from game.cube.moves import MOVES, line_text, parse_line
from game.errors import ForbiddenTurn, PositionError
from game.play.attempt import MAX_EVENTS, Attempt, begin, replay, replayed, written
from game.play.position import position_after

HOOK = position_after(inverse(parse_line("R B U2 B' R'")))


def played(text: str, faces: str = "FBRLUD", step: int = 100) -> Attempt:
    """An attempt at the inverse of R U R', a move each `step` milliseconds."""
    attempt = begin(position_after(parse_line("R U' R'"), faces=faces))
    for i, move in enumerate(parse_line(text), 1):
        attempt = attempt.turn(move, i * step)
    return attempt


def test_solving_ends_the_attempt() -> None:
    """After the solving turn nothing changes the attempt any more."""
    done = played("R U R'")
    assert done.is_solved
    assert done.turn(MOVES["U"], 999) is done
    assert done.undo(999) is done
    assert done.restart(999) is done
    assert done.look(True, 999) is done


def test_times() -> None:
    """Seeing ends at the first turn, side time at the first turn of a side, doing at the last."""
    done = played("y U U' y' R U R'")
    assert (done.seeing_ms, done.first_side_ms) == (200, 500)
    assert (done.solved_ms, done.doing_ms) == (700, 500)


def test_a_slice_counts_as_a_side_turn() -> None:
    """A slice turns two side centres past their pieces, so it ends side time as well."""
    assert played("M").first_side_ms == 100


def test_no_times_before_a_turn() -> None:
    """An attempt without turns has no times."""
    fresh = played("x y")
    assert fresh.seeing_ms is None
    assert fresh.first_side_ms is None
    assert fresh.solved_ms is None
    assert fresh.doing_ms is None


def test_counts_by_centres() -> None:
    """Turns are counted tidied, executions as written (WCA 12a5, 12a6; slices 2, our rule)."""
    attempt = played("R R M U U'")
    assert (attempt.turns, attempt.executed) == (2, 4)


def test_the_same_key_twice_is_a_half_turn() -> None:
    """Equal quarter turns are written in twos; a third stands alone."""
    assert line_text(
        written(parse_line("R R U' U' R R R x x M2 M2"))
    ) == "R2 U'2 R2 R x2 M2 M2".replace("U'2", "U2")


def test_undo_redo_restart() -> None:
    """Undo takes back one move, restart all of them, and redo brings each back in order."""
    start = played("")
    attempt = played("F U D")
    undone = attempt.undo(400)
    assert line_text(undone.line) == "F U"
    assert undone.redo(500).cube == attempt.cube
    fresh = attempt.undo(400).restart(500)
    assert fresh.cube == start.cube
    assert fresh.turns == 0
    again = fresh.redo(600).redo(700).redo(800)
    assert again.cube == attempt.cube
    assert again.redo(900) is again
    assert [e.what for e in again.events[-5:]] == ["undo", "restart", "redo", "redo", "redo"]


def test_a_new_turn_forgets_what_was_undone() -> None:
    """Redo never jumps to another line."""
    attempt = played("F U").undo(300).turn(MOVES["B"], 400)
    assert attempt.redo(500) is attempt


def test_forbidden_faces_go_by_centres() -> None:
    """A face is forbidden by its centre however the cube is held, wide turns and slices too."""
    with pytest.raises(ForbiddenTurn, match="turns face F; here only R and U may turn"):
        played("F", faces="RU")
    assert played("y F", faces="RU").turns == 1  # the R centre is in front
    assert played("Lw", faces="RU").turns == 1  # R and a rotation
    with pytest.raises(ForbiddenTurn, match="M turns face L"):
        played("M", faces="RU")
    assert played("x y z", faces="RU").turns == 0


def test_any_grip_solves() -> None:
    """A goal reached in another grip is reached."""
    assert played("y F U F'").is_solved
    assert played("x2 R D R'").is_solved


def test_looking_is_recorded() -> None:
    """Asking for the far side leaves its mark in the events."""
    attempt = played("").look(True, 5).look(False, 9)
    assert attempt.events == ((5, "far on"), (9, "far off"))
    assert attempt.seeing_ms is None


@given(
    st.lists(st.sampled_from([*MOVES, "undo", "redo", "restart", "far on", "far off"]), max_size=40)
)
def test_replayed_gives_every_attempt_on_the_way(whats: list[str]) -> None:
    """After each event the attempt is the one that the events up to there make."""
    events = list(enumerate(whats))
    assert list(replayed(HOOK, events)) == [
        replay(HOOK, events[: count + 1]) for count in range(len(events))
    ]


@given(
    st.lists(st.sampled_from([*MOVES, "undo", "redo", "restart", "far on", "far off"]), max_size=40)
)
def test_replay_gives_the_same_attempt(whats: list[str]) -> None:
    """Replaying the events of an attempt gives that attempt, and its line makes its cube."""
    attempt = replay(HOOK, list(enumerate(whats)))
    assert replay(HOOK, attempt.events) == attempt
    assert attempt.cube == HOOK.cube.turn(attempt.line)


@pytest.mark.parametrize(
    ("events", "message"),
    [
        ([(0, "Q")], "event 1 is 'Q'"),
        ([(5, "R"), (4, "U")], "event 2 happens before"),
        ([(0, "far on")] * (MAX_EVENTS + 1), "more than 20000 events"),
    ],
)
def test_hostile_events_are_refused(events: list[tuple[int, str]], message: str) -> None:
    """Events from outside are checked and bounded."""
    with pytest.raises(PositionError, match=message):
        replay(HOOK, events)


def test_a_solved_start_needs_an_event() -> None:
    """A position that is already solved is not solved by nothing."""
    assert not begin(position_after(())).is_solved
    assert SOLVED.is_solved()


def test_an_attempt_has_an_end() -> None:
    """An attempt of `MAX_EVENTS` events takes no more, so that it can always be kept."""
    attempt = replay(HOOK, [(0, "far on")] * MAX_EVENTS)
    assert attempt.turn(MOVES["U"], 1) is attempt
    assert not attempt.is_solved
