"""A sitting with a coach: a ladder of hints while it goes on, facts of shorter ways afterwards."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from game.coach.telling import told
from game.coach.ways import Asked, Way, ways
from game.cube import line as lines
from game.cube.line import Line
from game.cube.moves import MOVES
from game.engine.engine import Answered, Question
from game.play.attempt import RUNGS
from game.play.playable import Playable
from game.play.sitting import Sitting
from game.screens import keeping
from game.screens.play.board import Shown
from game.screens.play.hands import HandsScreen
from game.screens.shared.looks import look_of
from game.search.outcome import Solved

if TYPE_CHECKING:
    from game.coach.hints import Hint

LOOKING = "Looking for the shortest way from here ..."
NO_WAY = "No way from here is known."


class CoachedScreen(HandsScreen):
    """Gives hints from where the player stands, and tells whether there is a shorter way."""

    def __init__(self, puzzle: Playable) -> None:
        super().__init__(puzzle)
        self._hint: Hint | None = None  # the last one given
        self._awaits: Question | None = None  # the way from here, for the hint that was asked for
        self._asks_ways = False

    def _open(self, sitting: Sitting) -> None:
        self._hint, self._awaits, self._asks_ways = None, None, False
        super()._open(sitting)

    def _shown(self) -> Shown:
        hint, sitting = self._hint, self.sitting
        is_here = hint is not None and hint.cube == sitting.cube and not sitting.outcome
        asked = self._asked() if self._asks_ways else ()
        return replace(super()._shown(), hint=hint if is_here else None, ways=asked)

    def _standing_word(self) -> str:
        """What the last turn came to, where nothing else is to be said."""
        said = super()._standing_word()
        attempt = self.sitting.attempt
        if said or self._is_newcomer or not attempt.events or attempt.events[-1].what not in MOVES:
            return said
        return told(attempt.position, attempt.written)[-1]

    def key_label(self, action: str) -> str | None:
        """The key that shows the questions puts them away again."""
        label = super().key_label(action)
        return "result" if label and action == "hint" and self._asks_ways else label

    def action_hint(self) -> None:
        """The next rung of the ladder; once it is over, the questions of a shorter way."""
        if self.sitting.is_calling:
            return
        if self.sitting.outcome:
            self._asks_ways = not self._asks_ways
            for question in map(self._question, ways(self.sitting.position)):
                if self._asks_ways and self.app.engine.known(question) is None:
                    self.app.engine.ask(question, self)
            self._show()
            return
        self._climb()

    def answered(self, answer: Answered) -> None:
        """Also give the hint that waited for it, unless the player went on meanwhile."""
        super().answered(answer)
        if answer.question == self._awaits:
            if self._awaits == self._way_from_here() and not self.sitting.outcome:
                self._climb()
            self._awaits = None

    # -- hints -----------------------------------------------------------------------------------

    def _climb(self) -> None:
        """Give the next hint, or have the way from here searched first."""
        ahead = self._ahead()
        if ahead is None:
            self._awaits = self._way_from_here()
            self.app.engine.ask(self._awaits, self)
            self._show(said=LOOKING)
        elif not ahead:
            self._show(said=NO_WAY)
        else:
            self._give(ahead)

    def _give(self, ahead: tuple[Line, ...]) -> None:
        from game.coach import hints  # noqa: PLC0415 - not before the first picture

        sitting = self.sitting
        colours = look_of(self.app.settings, self.app.depth, sitting.position).scheme
        rung = hints.next_rung(self._hint, sitting.attempt)
        self._hint = hints.hint(sitting.attempt, rung, ahead, colours)
        sitting.hint(rung, self.app.moment)
        if rung == RUNGS:
            sitting.shown = True
            keeping.mark_shown(self.app, sitting)
            self._play_from_here(self._hint)
        self._show()

    def _play_from_here(self, hint: Hint) -> None:
        """Let the whole line be seen, in the grip of the player."""
        from game.screens.lines.watch import WatchScreen  # noqa: PLC0415 - imported where it is pushed

        cube = hint.cube
        position = replace(self.sitting.position, cube=cube.upright)
        self.app.push_screen(WatchScreen(position, (hint.rest,), grip=cube.grip, runs=True))

    def _ahead(self) -> tuple[Line, ...] | None:
        """The shortest lines from here; none where there is none, None while they are not known."""
        made = lines.tidy(self.sitting.attempt.line).turns
        rests = (lines.rest(made, solution) for solution in self.sitting.solutions)
        on_the_way = tuple(rest for rest in rests if rest is not None)
        if on_the_way:
            return on_the_way
        outcome = self.app.engine.known(self._way_from_here())
        if outcome is None:
            return None
        return outcome.solutions if isinstance(outcome, Solved) else ()

    def _way_from_here(self) -> Question:
        """All ways, so that the easiest can be chosen; one where all may take long."""
        position = self.sitting.position
        whole = Question(self.sitting.cube.upright, position.solve, position.faces)
        return replace(whole, first=whole.is_large)

    # -- shorter ways ----------------------------------------------------------------------------

    def _asked(self) -> tuple[Asked, ...]:
        known = self.app.engine.known
        return tuple((way, known(self._question(way))) for way in ways(self.sitting.position))

    def _question(self, way: Way) -> Question:
        position = self.sitting.position
        return Question(position.cube, position.solve, way.faces)
