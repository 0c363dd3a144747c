"""An invite: a contest as text. It carries the positions themselves, so that none is dealt anew.

Packed are the ways of ranking, the title, the count of positions, then each position.
"""

from __future__ import annotations

import json
from hashlib import sha256

from game.friends.codes import parts
from game.friends.codes.mixed import Packing, Unpacking
from game.friends.codes.symbols import sealed
from game.friends.contest import BY, MAX_POSITIONS, Contest, Rules

INVITE = "V"
"""The symbol that says a code is an invite."""
KEY_BITS = 40
"""Bits of a contest's key: among a thousand contests, two of one key come once in two million."""


def invite_code(contest: Contest) -> str:
    """The contest as an invite."""
    packing = Packing()
    packing.put(BY.index(contest.rules.by), len(BY))
    packing.put(contest.rules.inspection, 2)
    parts.put_text(packing, contest.title)
    packing.put(len(contest.positions) - 1, MAX_POSITIONS)
    for position in contest.positions:
        parts.put_position(packing, position)
    return sealed(INVITE, packing.number)


def contest_in(number: int) -> Contest:
    """The contest that an invite carries.

    Raises CodeError, PositionError or ContestError where it carries none.
    """
    packed = Unpacking(number)
    rules = Rules(BY[packed.take(len(BY))], bool(packed.take(2)))
    title = parts.take_text(packed)
    count = packed.take(MAX_POSITIONS) + 1
    positions = tuple(parts.take_position(packed) for _ in range(count))
    packed.close()
    return Contest(title, positions, rules)


def key(contest: Contest) -> str:
    """What cards name their contest by: ten hexadecimal digits of a hash of all that is in it."""
    rules = contest.rules
    texts = [position.text for position in contest.positions]
    content = json.dumps([rules.by, rules.inspection, contest.title, texts])
    return sha256(content.encode()).hexdigest()[: KEY_BITS // 4]
