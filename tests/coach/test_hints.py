"""The ladder of hints: each rung is true from where the player stands."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from game.coach.hints import Hint, hint, next_rung
from game.cube import line as lines
from game.cube.colours import HOME_COLOURS
from game.cube.cube import PIECE_OF, Cube
from game.cube.geometry import STICKERS
from game.cube.line import Line, inverse
from game.cube.moves import FACE_MOVES, line_text, parse_line
from game.cube.pair import SLOT, SLOTS
from game.packs.difficulty import Find
from game.play.attempt import RUNGS, Attempt, begin, replay
from game.play.position import Position, position_after, position_of
from game.prose import numeral
from game.search.outcome import Solved
from tests.deals import one_pair_unsolved
from tests.plain_cube import is_home, touches

SHORT = parse_line("R B U2 B' R'")
HOOK = position_after(inverse(SHORT))


def after(position: Position, line: str) -> Attempt:
    """An attempt at which these moves were made."""
    attempt = begin(position)
    for move in parse_line(line):
        attempt = attempt.turn(move, 0)
    return attempt


def given_from(attempt: Attempt, rung: int, *ways: Line) -> Hint:
    """The hint of a rung, where these are the shortest ways."""
    return hint(attempt, rung, ways, HOME_COLOURS)


def ladder(attempt: Attempt, *ways: Line) -> list[str]:
    """The words of all rungs."""
    return [given_from(attempt, rung, *ways).words for rung in range(1, RUNGS + 1)]


def test_the_ladder_of_the_hook() -> None:
    """Where the pair lies, what comes first and where it leads, the next turn, the line."""
    assert ladder(begin(HOOK), SHORT) == [
        "Corner above its slot, white up; edge in the top layer on the left, green up.",
        "Line them up, one turn from here: corner above BR, white to the back;"
        " edge in the top layer on the left, green up.",
        "Turn R: press r.",
        "From here: R B U2 B' R'.",
    ]


def test_from_where_the_player_stands() -> None:
    """After the first turn the next stage is the join, and the line is what is left."""
    assert ladder(after(HOOK, "R"), SHORT[1:])[1:] == [
        "Bring them together, one turn from here: joined, corner above BL, white to the back.",
        "Turn B: press b.",
        "From here: B U2 B' R'.",
    ]


def test_in_the_grip_of_the_player() -> None:
    """With the cube turned round, turns and places are those that the hands and eyes have."""
    turned = after(HOOK, "y")
    assert given_from(turned, 3, SHORT).words == "Turn F: press f."
    assert given_from(turned, 1, SHORT).words == (
        "Corner above its slot, white up; edge in the top layer at the back, green up."
    )


def test_in_a_tilted_grip_the_way_back_is_told() -> None:
    """Places have no words while the cross is not below; turns and marks have."""
    tilted = after(HOOK, "x")
    assert given_from(tilted, 1, SHORT).words.startswith("The cross is not below: x' brings it")
    assert given_from(tilted, 2, SHORT).words == "Line them up, one turn from here."
    assert given_from(tilted, 3, SHORT).words == "Turn R: press r."
    assert given_from(tilted, 2, SHORT).marks


def test_the_easiest_way_for_these_hands_is_told() -> None:
    """Of two shortest ways the one that is easier as the cube is held now."""
    ways = parse_line("B' U B"), parse_line("R U' R'")
    position = position_after(parse_line("R U R'"))
    assert given_from(begin(position), 3, *ways).words == "Turn R: press r."


def test_of_two_pairs_the_one_that_comes_first() -> None:
    """The pair that the line slots first is named and told of."""
    line = parse_line("L U L' R U R'")
    position = position_after(inverse(line))
    assert given_from(begin(position), 1, line).words.startswith("First the BL pair: corner")
    assert given_from(begin(position), 2, line).words.startswith("The BL pair: ")
    rest = after(position, "L U L'")
    assert given_from(rest, 1, line[3:]).words.startswith("First the FR pair: corner")


def test_when_every_pair_is_home() -> None:
    """What is left to do is told without a pair."""
    position = position_after(parse_line("D"), ("FR", "FL", "BL", "BR"))
    words = ladder(begin(position), parse_line("D'"))
    assert words[0] == "Every pair is home. What was moved on the way is to be brought back."
    assert words[1] == "One turn from here everything is whole."


# -- marks ---------------------------------------------------------------------------------------

ONE = one_pair_unsolved("FR") + one_pair_unsolved("BL")
rotations = st.sampled_from(["", "y", "y2", "y'", "x", "z2"]).map(parse_line)


@settings(max_examples=60)
@given(
    st.sampled_from(ONE),
    st.lists(st.sampled_from(FACE_MOVES), max_size=2).map(tuple),
    rotations,
)
def test_what_is_aimed_for_is_what_the_line_does(
    find: Find, cube: Cube, begun: Line, rotation: Line
) -> None:
    """The turns told lead the pieces to the marked places, and there to the stage that is named."""
    position = position_of(cube)
    attempt = begin(position)
    for move in (*begun, *rotation):
        attempt = attempt.turn(move, 0)
    assume(not position.is_goal(attempt.cube))
    outcome = find(attempt.cube.upright, SLOTS, position.faces)
    assert isinstance(outcome, Solved)
    (slot,) = position.pairs
    aim = given_from(attempt, 2, *outcome.solutions)
    way = lines.held(aim.rest, attempt.cube.grip)
    assert aim.rest in outcome.solutions
    assert given_from(attempt, 4, *outcome.solutions).words == f"From here: {line_text(way)}."
    assert given_from(attempt, 3, *outcome.solutions).words.startswith(f"Turn {way[0].name}:")
    if not aim.marks:
        assert is_home(attempt.cube, slot)
        return
    words, turns = aim.words.split(", ")[:2]
    count = [numeral(count) for count in range(11)].index(turns.split()[0])
    then = attempt.cube.turn(way[:count])
    assert aim.marks == {then.where[i] for home in SLOT[slot].home for i in PIECE_OF[home]}
    if words == "Bring them together":
        assert touches(then, slot)
    elif words == "Line them up":
        assert touches(attempt.cube.turn(way[: count + 1]), slot)
        assert not touches(then, slot)
    elif words == "Bring the pair home":
        assert is_home(then, slot)
    else:
        assert words == "Free both pieces"
        places = [STICKERS[then.upright.where[home]].place for home in SLOT[slot].home]
        assert all(
            place[1] == 1 or then.upright.where[home] == home
            for place, home in zip(places, SLOT[slot].home, strict=True)
        )


def test_marks_lie_where_the_cube_is_held() -> None:
    """R takes the corner from above FR to above BR: three stickers there, two at the edge."""
    marks = given_from(begin(HOOK), 2, SHORT).marks
    faces = sorted(STICKERS[i].face for i in marks)
    assert faces == ["B", "L", "R", "U", "U"]
    turned = given_from(after(HOOK, "y"), 2, SHORT).marks
    assert sorted(STICKERS[i].face for i in turned) == ["B", "F", "R", "U", "U"]


# -- climbing ------------------------------------------------------------------------------------


def test_climbing() -> None:
    """Asked again at the same place it is the next rung, up to the last."""
    attempt = begin(HOOK)
    last = None
    climbed = []
    for _ in range(RUNGS + 1):
        rung = next_rung(last, attempt)
        climbed.append(rung)
        last = given_from(attempt, rung, SHORT)
    assert climbed == [1, 2, 3, 4, 4]


@pytest.mark.parametrize(
    ("moves", "rung"),
    [
        ("R", 3),
        ("R B U U", 3),
        ("y", 3),
        ("R R'", 4),
        ("F", 1),
        ("R U", 1),
        ("R R", 1),
    ],
)
def test_after_turns(moves: str, rung: int) -> None:
    """On the line of the last hint it is the same rung again; off it, the first."""
    third = given_from(begin(HOOK), 3, SHORT)
    assert next_rung(third, after(HOOK, moves)) == rung


def test_a_hint_is_kept_among_the_events() -> None:
    """An attempt tells that it was hinted, and a rotation or a look does not make it so."""
    attempt = after(HOOK, "y R").look(True, 5)
    assert not attempt.is_hinted
    hinted = attempt.hint(2, 7)
    assert hinted.is_hinted
    assert hinted.events[-1] == (7, "hint 2")
    assert (hinted.line, hinted.seeing_ms) == (attempt.line, attempt.seeing_ms)
    assert replay(HOOK, hinted.events) == hinted
