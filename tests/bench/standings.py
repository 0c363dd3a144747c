"""How long it takes to find and rank a thousand cards in a chat."""

from __future__ import annotations

import random

from game.cube.line import Line, inverse, tidy
from game.cube.moves import MOVES
from game.friends.codes import Addressed, card_code, find, invite_code, key
from game.friends.contest import Card, Contest
from game.friends.standings import standings
from game.play.position import Position, position_after
from game.play.result import Result
from tests.bench.table import Row, seconds_each

CARDS, POSITIONS, MOVES_EACH = 1000, 5, 15
RUNS = 3
GOAL = "under 10 s together"


def rows() -> list[Row]:
    """A chat of a thousand cards of five positions, fifteen moves of all kinds at each."""
    contest, text = _chat()
    found = find([text])
    assert len(found.cards) == CARDS
    cards = [addressed.card for addressed in found.cards]
    assert len(standings(contest, cards).rows) == CARDS
    what = f"{CARDS:,} cards of {POSITIONS} positions"
    return [
        Row(f"{what}: found", seconds_each(find, [[text]] * RUNS), GOAL),
        Row(
            f"{what}: ranked", seconds_each(lambda _: standings(contest, cards), range(RUNS)), GOAL
        ),
    ]


def _chat() -> tuple[Contest, str]:
    dice = random.Random(1)
    lines = [_line(dice) for _ in range(POSITIONS)]
    contest = Contest("Bench", tuple(map(_undone, lines)))
    codes = [invite_code(contest)]
    for number in range(CARDS):
        times = (dice.randrange(6000) for _ in range(2 * POSITIONS))
        results = (Result(line, next(times), next(times), False, True) for line in lines)
        card = Card(f"Player {number}", tuple(results))
        codes.append(f"> {card_code(Addressed(key(contest), card))}")
    return contest, "\nand something else that was said\n".join(codes)


def _line(dice: random.Random) -> Line:
    """Any moves that solve what they undo by the last of them only."""
    while True:
        line = tuple(dice.choices(list(MOVES.values()), k=MOVES_EACH))
        position = _undone(line)
        if not any(position.is_goal(position.cube.turn(line[:n])) for n in range(MOVES_EACH)):
            return line


def _undone(line: Line) -> Position:
    """The position that the line solves."""
    return position_after(inverse(tidy(line).turns))
