"""Hands that solve whatever position is in front."""

from __future__ import annotations

from game.cube.line import Line
from game.engine.engine import Question
from game.screens.round.screen import RoundScreen
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


async def solve(game: Game, *, seeing: float = 1.0, doing: float = 2.0, detour: str = "") -> None:
    """Solve the position in front, in these seconds.

    detour: turns of faces made first; a shortest way follows from where they lead.
    """
    screen = game.app.screen
    assert isinstance(screen, RoundScreen)
    await game.until(lambda: screen.sitting.running_since is not None)
    game.clock.now += seeing
    if detour:
        await game.press(detour)
    position = screen.rules.round.position
    here = Question(screen.sitting.cube, position.solve, position.faces, first=True)
    game.app.engine.ask(here, screen)
    await game.until(lambda: game.app.engine.known(here) is not None)
    outcome = game.app.engine.known(here)
    assert isinstance(outcome, Solved)
    first, *rest = keys_of(outcome.solutions[0]).split()
    if detour:
        rest.insert(0, first)
    else:
        await game.press(first)
    game.clock.now += doing
    await game.press(" ".join(rest))
