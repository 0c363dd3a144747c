"""Contests as invites."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from game.cube.moves import parse_line
from game.deal.deal import Kind, deal
from game.friends.codes import invite_code, key, read_invite
from game.friends.codes.invite import KEY_BITS
from game.friends.contest import MAX_BYTES, MAX_POSITIONS, Contest, Rules
from game.play.position import position_after
from tests.friends.codes.values import contests

CROSS_UNDONE = position_after(parse_line("F R2 D L' B U2 R F2 D' L B2 U"), view="full")
FIVE = tuple(deal(Kind(4, 0, "full"), f"five {number}") for number in range(5))
BASE = Contest("Friday", FIVE)


@given(contests())
def test_contests_come_back(contest: Contest) -> None:
    """What an invite carries is the contest that it was made of."""
    assert read_invite(invite_code(contest)) == contest


@given(st.integers(0, 10**9), st.integers(1, 4))
def test_five_positions_fit_120_characters(seed: int, pairs: int) -> None:
    """With the cross done and a title of 16 bytes: prefix and end mark included."""
    positions = tuple(deal(Kind(pairs, 0, "full"), f"{seed} {n}") for n in range(5))
    title = "\N{MUSICAL SYMBOL G CLEF}" * 4
    assert len(title.encode()) == 16
    assert len(invite_code(Contest(title, positions, Rules("time", True)))) <= 120


def test_no_five_positions_are_longer() -> None:
    """The largest numbers that can be packed for such an invite still fit."""
    states = 40_320**2 * 3**7 * 2**6
    position = 2 * states * 16 * 63 * 2
    most = 4 * (MAX_BYTES + 1) * 256**16 * MAX_POSITIONS * position**5
    digits = 0
    while 31**digits < most:
        digits += 1
    assert len("EPAIRV1" + "OVER") + digits + digits % 2 + 4 <= 120


def test_nothing_is_cut() -> None:
    """Crosses undone, the longest title and the most positions are carried, in a longer code."""
    contest = Contest("x" * MAX_BYTES, (CROSS_UNDONE,) * MAX_POSITIONS)
    assert read_invite(invite_code(contest)) == contest


def test_a_key_is_of_all_that_is_in_a_contest() -> None:
    """Another title, order, position or rule has another key."""
    others = [
        replace(BASE, title="Friday "),
        replace(BASE, positions=FIVE[::-1]),
        replace(BASE, positions=(*FIVE[:-1], CROSS_UNDONE)),
        replace(BASE, rules=Rules("time")),
        replace(BASE, rules=Rules(inspection=True)),
    ]
    assert len({key(contest) for contest in (BASE, *others)}) == 6
    assert len(key(BASE)) == KEY_BITS // 4


def test_an_invite_of_the_first_version_can_always_be_read() -> None:
    """Codes and keys that are in chats stay true (computed)."""
    code = "EPAIRV101NJX9ZR77814MDHS1GDT80L2HPQQVZJZYHZC5NBN59BOVER"
    setups = ("R U R'", "F' U2 F")
    contest = Contest("Warm-up", tuple(position_after(parse_line(setup)) for setup in setups))
    assert read_invite(code) == contest
    assert invite_code(contest) == code
