"""Hands that solve whatever position is in front."""

from __future__ import annotations

from game.cube.line import Line
from game.screens.engine import first_question
from game.screens.round import RoundScreen
from game.search.outcome import Solved
from tests.screens.conftest import Game


def keys_of(line: Line) -> str:
    """The keys of a line of face turns, spaces between them."""
    keys = []
    for move in line:
        letter = move.name[0].lower()
        times = 2 if move.quarters == 2 else 1
        keys += [letter.upper() if move.name.endswith("'") else letter] * times
    return " ".join(keys)


async def solve(game: Game, *, seeing: float = 1.0, doing: float = 2.0, wasted: str = "") -> None:
    """Solve the position in front by a shortest way, in these seconds.

    wasted: keys pressed first, which come to nothing but cost turns.
    """
    screen = game.app.screen
    assert isinstance(screen, RoundScreen)
    await game.until(lambda: screen.sitting._since is not None)
    question = first_question(screen.round.position)
    await game.until(lambda: game.app.engine.known(question) is not None)
    outcome = game.app.engine.known(question)
    assert isinstance(outcome, Solved)
    first, *rest = f"{wasted} {keys_of(outcome.solutions[0])}".split()
    game.clock.now += seeing
    await game.press(first)
    game.clock.now += doing
    await game.press(" ".join(rest))
