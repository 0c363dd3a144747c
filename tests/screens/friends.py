"""A small contest and its cards, for the tests of what friends do over a chat."""

from __future__ import annotations

from textual import events

from game.cube.line import Line, inverse
from game.cube.moves import parse_line
from game.friends.codes import Addressed, card_code, invite_code, key
from game.friends.contest import Card, Contest, Rules
from game.play.position import position_after
from game.play.result import Result
from game.screens.contests.paste import PasteScreen
from game.screens.round.screen import RoundScreen
from tests.screens.conftest import Game

RIGHT, LEFT, HOOK = map(parse_line, ("R U R'", "L' U' L", "R B U2 B' R'"))
CONTEST = Contest("Two for Ada", tuple(position_after(inverse(line)) for line in (RIGHT, LEFT)))
KEYS = ("r u R", "L U l")
"""What solves the two in three turns each, their pars: R U R' and L' U' L undo themselves."""


def result(line: Line, *, seeing: int = 200, doing: int = 150, called: bool = False) -> Result:
    """A solution."""
    return Result(line, seeing, doing, called=called, solved=True)


def card(name: str, contest: Contest = CONTEST, *, called: bool = False, seeing: int = 200) -> Card:
    """Both solved at par."""
    results = (result(RIGHT, called=called, seeing=seeing), result(LEFT))
    return Card(name, results[: len(contest.positions)])


def code(card_: Card, contest: Contest = CONTEST) -> str:
    """The card as text."""
    return card_code(Addressed(key(contest), card_))


def chat(*cards: Card, contest: Contest = CONTEST) -> str:
    """A chat as one saves it: quotes, times, other words."""
    lines = [f"[19:02] Ada: who plays?\n> {invite_code(contest).lower()}"]
    lines += [f"[19:{n}] somebody\n> look!\n> {code(c, contest)}" for n, c in enumerate(cards, 10)]
    return "\n".join(lines)


async def paste(game: Game, text: str) -> None:
    """Paste into the field, as a terminal that marks pastes does; wait until it is looked through.

    The field takes one change; what is found is told a moment later.
    """
    assert isinstance(game.app.screen, PasteScreen)
    game.app.screen.post_message(events.Paste(text))
    await game.until(lambda: not game.says("Nothing found yet."))


async def solve(game: Game, keys: str, *, call: bool = False) -> None:
    """Solve the round in front, and answer what is asked after it."""
    await game.until(lambda: isinstance(game.app.screen, RoundScreen))
    screen = game.app.screen
    assert isinstance(screen, RoundScreen)
    await game.until(lambda: screen.sitting.running_since is not None)
    game.clock.now += 2.0
    await game.press(keys)
    await game.press("c" if call else "enter")
    await game.until(lambda: game.app.screen is not screen)


TIMED = Contest("Quick", CONTEST.positions, Rules("time", inspection=True))
