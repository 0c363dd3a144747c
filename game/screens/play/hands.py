"""The hands: what keys, clicks and typed lines do to the cube of a sitting."""

from __future__ import annotations

from game.cube.geometry import Matrix
from game.cube.line import Line
from game.cube.moves import Move
from game.errors import ForbiddenTurn
from game.screens.play.playing import Playing
from game.screens.play.rules import Rules
from game.screens.shared.board_words import forbidden_words

CAPS_LOCK = "Every turn goes the other way. Is Caps Lock on? k reads capitals as plain."
OVER = "This attempt is over: a begins another."


class Hands:
    """Makes turns at the screen `playing`, as its rules admit them."""

    def __init__(self, playing: Playing, rules: Rules) -> None:
        self._playing = playing
        self._rules = rules

    def press(self, key: str) -> None:
        """A key of a turn."""
        playing = self._playing
        move, playing.letters = playing.letters.press(key)
        suspicious, sitting = playing.letters.is_suspicious, playing.sitting
        self.turn((move,))
        if suspicious and sitting is playing.sitting and not sitting.outcome:
            playing.say(CAPS_LOCK)

    def click(self, letter: str, back: bool) -> None:
        """A turn was clicked."""
        move, self._playing.letters = self._playing.letters.turn(letter, back)
        self.turn((move,))

    def turn(self, moves: tuple[Move, ...]) -> None:
        """Make turns; the last is seen turning."""
        playing = self._playing
        if not self._rules.admits(moves):
            return
        if playing.sitting.outcome:
            playing.show(said=OVER)
            return
        playing.opened.gives_up = False
        said = ""
        made = len(playing.sitting.attempt.line)
        try:
            playing.sitting.turn(moves, playing.host.moment)
        except ForbiddenTurn as fault:
            playing.host.bell()
            said = self._refused(fault, playing.sitting.cube.grip)
        made = len(playing.sitting.attempt.line) - made
        playing.after(moves[made - 1] if made else None, said)

    def undo(self) -> None:
        """Take the last turn back."""
        self._playing.after(self._playing.sitting.undo(self._playing.host.moment))

    def redo(self) -> None:
        """Make a turn again that was taken back."""
        if self._rules.may_go_on():
            self._playing.after(self._playing.sitting.redo(self._playing.host.moment))

    def restart(self) -> None:
        """Back to the start."""
        self._playing.sitting.restart(self._playing.host.moment)
        self._playing.show()

    def wide(self) -> None:
        """The next face turn is a wide one, or not after all."""
        self._playing.letters = self._playing.letters.toggle_wide()
        self._playing.show()

    def capitals(self) -> None:
        """Read capitals the other way round."""
        self._playing.letters = self._playing.letters.toggle_flipped()
        flipped = self._playing.letters.flipped
        now = "plain turns" if flipped else "turns the other way, as usual"
        self._playing.show(said=f"Capitals are now {now}.")

    def refusal(self, line: Line) -> str:
        """Why a line cannot be made from here; nothing where it can."""
        attempt = self._playing.sitting.attempt
        for move in line:
            try:
                attempt = attempt.turn(move, self._playing.sitting.ms(self._playing.host.moment))
            except ForbiddenTurn as fault:
                return self._refused(fault, attempt.cube.grip)
        return ""

    def _refused(self, fault: ForbiddenTurn, grip: Matrix) -> str:
        return forbidden_words(fault, grip, self._playing.shown().look.scheme)
