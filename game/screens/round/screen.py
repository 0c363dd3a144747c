"""Rounds on the screen, with the keys for them."""

from __future__ import annotations

from game.screens.play.screen import PlayingScreen
from game.screens.round.rules import RoundRules
from game.screens.shared import keys


class RoundScreen(PlayingScreen):
    """Plays a round and those that follow, by its rules."""

    COMMAND_SCREEN = "round"
    BINDINGS = keys.bindings("round")

    def __init__(self, rules: RoundRules) -> None:
        super().__init__(rules)
        self.rules = rules

    def action_pause(self) -> None:
        """Hide the cube."""
        self.rules.pause()

    def action_give_up(self) -> None:
        """Leave the position unsolved."""
        self.rules.give_up()
