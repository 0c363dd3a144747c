"""A match at one keyboard: who plays when, what may be seen, and what is kept."""

from __future__ import annotations

import json
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.moves import parse_line
from game.errors import MatchError
from game.friends.contest import Contest, Rules
from game.friends.entry import LATEST, LONGEST
from game.friends.match import (
    MAX_MATCH_TEXT,
    MAX_NAME,
    UNPLAYED,
    Match,
    MatchTry,
    begin_match,
    match_of,
    match_text,
)
from game.friends.standings import standings
from game.play.position import position_after
from game.play.result import Result

SETUPS = ("R U R'", "F' U' F", "R U2 R'", "L' U' L", "R U R' U'")
POSITIONS = tuple(position_after(parse_line(setup)) for setup in SETUPS)
ABC = ("Ada", "Bo", "Cem")


def begun(names: tuple[str, ...] = ABC, positions: int = 5, by: str = "turns") -> Match:
    return begin_match(Contest("At the table", POSITIONS[:positions], Rules(by)), names)


def result(turns: int = 3, seeing: int = 100) -> Result:
    return Result(parse_line("R U") * turns, seeing, 200, called=False, solved=True)


def play(match: Match, count: int) -> tuple[Match, list[tuple[str, int]]]:
    """The match after so many have played, and who played which position."""
    done = []
    for _ in range(count):
        assert match.next is not None
        done.append((match.players[match.next].name, match.number))
        match = match.after(result())
    return match, done


# -- who plays when ------------------------------------------------------------------------------


def test_who_begins_moves_on() -> None:
    """At each position the next player begins, and the others follow as they sit."""
    match, done = play(begun(), 9)
    assert done == [
        ("Ada", 0), ("Bo", 0), ("Cem", 0),
        ("Bo", 1), ("Cem", 1), ("Ada", 1),
        ("Cem", 2), ("Ada", 2), ("Bo", 2),
    ]  # fmt: skip
    assert [match.players[seat].name for seat in match.order] == ["Ada", "Bo", "Cem"]


@given(st.integers(2, 8), st.integers(1, 5))
def test_everyone_begins_as_often(players: int, positions: int) -> None:
    """With nobody leaving, no player begins two positions more than another."""
    match = begun(tuple("ABCDEFGH"[:players]), positions)
    _, done = play(match, players * positions)
    began = Counter(done[at][0] for at in range(0, len(done), players))
    assert max(began.values()) - min(began[name] for name in "ABCDEFGH"[:players]) <= 1


def test_a_beginner_who_leaves_is_not_made_up_for_twice() -> None:
    """Bo, who was to begin, leaves: Cem begins, and then it is Ada's turn to."""
    match, _ = play(begun(), 3)
    _, done = play(match.without(1), 4)
    assert done == [("Cem", 1), ("Ada", 1), ("Ada", 2), ("Cem", 2)]


@given(st.data())
def test_each_who_stays_plays_each_position_once(data: st.DataObject) -> None:
    """In whatever order players leave, those who stay play every position once, and none ahead."""
    names = tuple("ABCDEFGH"[: data.draw(st.integers(2, 8), "players")])
    match = begun(names, data.draw(st.integers(1, 5), "positions"))
    done: list[tuple[str, int]] = []
    while not match.is_finished:
        seat = match.next
        assert seat is not None and not match.players[seat].left
        assert match.order[0] == seat or match.players[match.order[0]].results
        leaving = data.draw(st.none() | st.integers(0, len(names) - 1), "leaving")
        if leaving is not None and not match.players[leaving].left:
            match = match.without(leaving)
            continue
        turn = (match.players[seat].name, match.number)
        assert turn not in done and (not done or done[-1][1] <= turn[1])
        done.append(turn)
        match = match.after(result())
    assert match.next is None
    for player in match.players:
        played = [number for name, number in done if name == player.name]
        assert played == list(range(len(player.results)))
        assert player.left or len(played) == len(match.contest.positions)


def test_over_is_over() -> None:
    """After the last position nobody plays any more, nor when everybody has left."""
    match, _ = play(begun(positions=1), 3)
    assert match.is_finished and match.next is None and match.order == ()
    with pytest.raises(MatchError, match="over"):
        match.after(result())
    left = begun().without(0).without(2).without(1)
    assert left.is_finished and left.so_far is None


# -- what may be seen ----------------------------------------------------------------------------


def test_no_line_is_seen_before_all_have_played() -> None:
    """A position's lines are refused until the last has played it, and then given as they sit."""
    match, _ = play(begun(), 2)
    for number in (-1, 0, 1, 99):
        with pytest.raises(MatchError, match="not yet played by all"):
            match.played(number)
    match = match.after(result(7))
    assert [name for name, _ in match.played(0)] == list(ABC)
    assert match.played(0)[2][1] == result(7)
    with pytest.raises(MatchError):
        match.played(1)


def test_the_last_one_leaving_opens_the_position() -> None:
    """Whoever leaves is not waited for; what they did not play is not among the lines."""
    match, _ = play(begun(), 2)
    match = match.without(2)
    assert [name for name, _ in match.played(0)] == ["Ada", "Bo"]


def test_the_cards_are_of_what_all_have_played() -> None:
    """A card counts only positions that all have played; one who left has not solved the rest."""
    match = begun(positions=3)
    assert match.so_far is None
    match, _ = play(match, 4)
    assert match.so_far is not None
    contest, cards = match.so_far
    assert contest.positions == POSITIONS[:1]
    assert [len(card.results) for card in cards] == [1, 1, 1]
    match, _ = play(match.without(2), 1)
    assert match.so_far is not None
    contest, cards = match.so_far
    assert contest.positions == POSITIONS[:2]
    assert cards[2].results == (result(), UNPLAYED)


@pytest.mark.parametrize(("by", "first"), [("turns", ["Bo"]), ("time", ["Ada", "Cem"])])
def test_ranked_by_turns_or_by_time(by: str, first: list[str]) -> None:
    """The same lines rank otherwise by turns and by time, and equal ones share their rank."""
    match = begun(positions=1, by=by)
    for line, seeing in (("U R U2 R'", 50), ("R U' R'", 900), ("U R U2 R'", 50)):
        match = match.after(Result(parse_line(line), seeing, 100, called=False, solved=True))
    assert match.so_far is not None
    rows = standings(*match.so_far).rows
    assert [row.card.name for row in rows if row.rank == 1] == first


# -- players -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("names", "problem"),
    [
        (("Ada",), "a match of one player; it takes 2 to 8"),
        (tuple("ABCDEFGHI"), "a match of nine players"),
        (("Ada", " ada "), "Ada and ada cannot be told apart"),
        (("\u00e9", "e\u0301"), "cannot be told apart"),
        (("Straße", "STRASSE"), "cannot be told apart"),
        (("Ada", "  "), "characters that can be seen"),
        (("Ada", "\x1b\u202e"), "characters that can be seen"),
        (("Ada", "B" * (MAX_NAME + 1)), "at most 40"),
        (("Ada", "\U0001f600" * 41), "at most 40"),
    ],
)
def test_names_that_cannot_be(names: tuple[str, ...], problem: str) -> None:
    """Too few, too many, too long, too alike, or not to be seen: each is told in one line."""
    with pytest.raises(MatchError, match=problem) as caught:
        begun(names)
    assert "\n" not in str(caught.value)


def test_names_of_any_script() -> None:
    """Names keep their script; spaces are single, and what cannot be shown goes."""
    names = (" Zoë  B ", "日本", "\u05e2\u05d3\u05d4", "Bo\x07b\u202e", "\U0001f600" * 40)
    assert [player.name for player in begun(names).players] == [
        "Zoë B", "日本", "\u05e2\u05d3\u05d4", "Bob", "\U0001f600" * 40,
    ]  # fmt: skip


@given(st.lists(st.text(), max_size=9))
def test_any_names_make_a_match_or_one_clear_line(names: list[str]) -> None:
    """Whatever is typed, there is a match of names that can be shown, or a MatchError."""
    try:
        match = begun(tuple(names))
    except MatchError as fault:
        assert str(fault).isprintable()
    else:
        assert all(player.name.isprintable() and player.name for player in match.players)


# -- as text -------------------------------------------------------------------------------------


@given(st.data())
def test_a_match_is_found_again(data: st.DataObject) -> None:
    """From its text and the attempts in the order they were made, a match is the same again."""
    match = begun(tuple("ABCD"[: data.draw(st.integers(2, 4))]), data.draw(st.integers(1, 5)))
    tries: list[MatchTry] = []
    while not match.is_finished and data.draw(st.integers(0, 9)):
        seat, number = match.next, match.number
        assert seat is not None
        if data.draw(st.integers(0, 5)) == 0:
            match = match.without(seat)
            continue
        if data.draw(st.booleans()):
            match = match.showing(data.draw(st.integers(0, LATEST)))
        if data.draw(st.integers(0, 5)) == 0:
            break
        name = match.players[seat].name
        made = result(data.draw(st.integers(1, 9)))
        tries.append(MatchTry(name, match.contest.positions[number].text, made))
        match = match.after(made)
    text = match_text(match)
    assert len(text) <= MAX_MATCH_TEXT
    assert match_of(text, tries) == match


def test_what_was_shown_stays_shown() -> None:
    """The first time counts, until that position is played or its player has left."""
    match = begun().showing(1000).showing(2000)
    assert (match.shown, match.gone(1007), match.gone(900)) == (1000, 7, 0)
    assert match.gone(2**40) == LONGEST
    assert match.without(2).shown == 1000
    for later in (match.after(result()), match.without(0)):
        assert (later.shown, later.gone(1007)) == (None, 0)
    over, _ = play(begun(positions=1), 3)
    assert over.showing(5).shown is None


def test_what_was_shown_of_an_earlier_position_is_forgotten() -> None:
    """Kept before the attempt was, it says nothing of who plays next; older texts lack it."""
    match = begun().showing(1000)
    text = match_text(match)
    assert match_of(text).shown == 1000
    assert match_of(text, [MatchTry("Ada", POSITIONS[0].text, result())]).shown is None
    older = {key: value for key, value in json.loads(text).items() if key != "shown"}
    assert match_of(json.dumps(older)) == begun()


def test_tries_that_do_not_fit_are_passed_over() -> None:
    """Tries of strangers, at other positions, or beyond the last change nothing."""
    match, _ = play(begun(positions=1), 2)
    text, first = match_text(match), POSITIONS[0].text
    tries = [
        MatchTry("Eve", first, result()),
        MatchTry("Ada", POSITIONS[1].text, result()),
        MatchTry("Ada", first, result()),
        MatchTry("Ada", first, result(9)),
        MatchTry("Bo", first, result()),
    ]
    assert match_of(text, tries) == match


def test_the_largest_match_fits() -> None:
    """Forty positions and eight long names are within the bound of the text."""
    names = tuple(chr(0x1F600 + at) * MAX_NAME for at in range(8))
    match = begin_match(Contest("é" * 80, POSITIONS * 8, Rules("time", inspection=True)), names)
    match = match.without(3)
    assert match_of(match_text(match)) == match


@pytest.mark.parametrize(
    "change",
    [
        {"format": 2}, {"by": "luck"}, {"by": None}, {"inspection": 1}, {"title": 5},
        {"positions": []}, {"positions": ["x"]}, {"positions": [["a"] * 5]}, {"positions": 7},
        {"names": "AB"[:1]}, {"names": ["A", 7]}, {"names": [["A"], "B"]}, {"names": ["A"] * 99},
        {"left": [3]}, {"left": [-1]}, {"left": [True]}, {"left": "0"}, {"left": None},
        {"shown": [0, 0, -1]}, {"shown": [0, 0, 2**40 + 1]}, {"shown": [0, 0]}, {"shown": 5},
        {"shown": [0, 0, 1.5]}, {"shown": [0, True, 5]},
    ],
)  # fmt: skip
def test_texts_that_are_no_match(change: dict[str, object]) -> None:
    """A text with anything in it that cannot be is refused in one line."""
    text = json.dumps(json.loads(match_text(begun())) | change)
    with pytest.raises(MatchError):
        match_of(text)


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=9),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=9), inner),
    max_leaves=12,
)


@given(st.text(max_size=60) | json_values.map(json.dumps))
def test_any_other_text_is_refused(text: str) -> None:
    """No text crashes: it is no match, and that is said."""
    with pytest.raises(MatchError):
        match_of(text)


@given(st.sampled_from(sorted(json.loads(match_text(begun())))), json_values)
def test_no_value_in_a_text_crashes(key: str, value: object) -> None:
    """Whatever stands in one place of a text, it is a match or refused."""
    text = json.dumps(json.loads(match_text(begun())) | {key: value})
    try:
        assert match_of(text).players
    except MatchError as fault:
        assert str(fault)


def test_a_text_that_is_too_long_is_not_read() -> None:
    """Beyond the bound nothing is parsed."""
    with pytest.raises(MatchError, match="at most"):
        match_of("[" * (MAX_MATCH_TEXT + 1))
    with pytest.raises(MatchError):
        match_of("[" * MAX_MATCH_TEXT)
