"""The coach at a sitting: a ladder of hints while it goes on, facts of shorter ways afterwards."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from game.coach.ways import Asked, Way, ways
from game.cube import line as lines
from game.cube.line import Line
from game.engine.answers import Answered
from game.engine.engine import Asker
from game.engine.questions import Question
from game.keeping import attempts
from game.play.attempt import RUNGS
from game.screens.play.board import Shown
from game.screens.play.playing import Playing
from game.screens.shared.looks import look_of

if TYPE_CHECKING:
    from game.coach.hints import Hint

LOOKING = "Looking for the shortest way from here ..."
NO_WAY = "No way from here is known."


class Coach:
    """Gives hints from where the player stands, and tells whether there is a shorter way.

    asker: who hears what the engine answers, and hands it on by `answered`.
    """

    def __init__(self, playing: Playing, asker: Asker) -> None:
        self._playing = playing
        self._asker = asker
        self._hint: Hint | None = None  # the last one given
        self._awaits: Question | None = None  # the way from here, for the hint that was asked for
        self.asks_ways = False
        """Whether the questions of a shorter way are in view."""

    def begin(self) -> None:
        """Another sitting is opened."""
        self._hint, self._awaits, self.asks_ways = None, None, False

    def shown(self, shown: Shown) -> Shown:
        """With the hint that was given here, and the questions."""
        hint, sitting = self._hint, self._playing.sitting
        is_here = hint is not None and hint.cube == sitting.cube and not sitting.outcome
        asked = self._asked() if self.asks_ways else ()
        return replace(shown, hint=hint if is_here else None, ways=asked)

    def ask(self) -> None:
        """The next rung of the ladder; once it is over, the questions of a shorter way."""
        sitting = self._playing.sitting
        if sitting.is_calling:
            return
        if sitting.outcome:
            self.asks_ways = not self.asks_ways
            engine = self._playing.host.engine
            for question in map(self._question, ways(sitting.position)):
                if self.asks_ways and engine.known(question) is None:
                    engine.ask(question, self._asker)
            self._playing.show()
            return
        self._climb()

    def answered(self, answer: Answered) -> None:
        """Give the hint that waited for this, unless the player went on meanwhile."""
        if answer.question == self._awaits:
            if self._awaits == self._way_from_here() and not self._playing.sitting.outcome:
                self._climb()
            self._awaits = None

    # -- hints -----------------------------------------------------------------------------------

    def _climb(self) -> None:
        """Give the next hint, or have the way from here searched first."""
        ahead = self._ahead()
        if ahead is None:
            self._awaits = self._way_from_here()
            self._playing.host.engine.ask(self._awaits, self._asker)
            self._playing.show(said=LOOKING)
        elif not ahead:
            self._playing.show(said=NO_WAY)
        else:
            self._give(ahead)

    def _give(self, ahead: tuple[Line, ...]) -> None:
        from game.coach import hints  # noqa: PLC0415 - not before the first picture

        host, sitting = self._playing.host, self._playing.sitting
        colours = look_of(host.settings, host.depth, sitting.position).scheme
        rung = hints.next_rung(self._hint, sitting.attempt)
        self._hint = hints.hint(sitting.attempt, rung, ahead, colours)
        sitting.hint(rung, host.moment)
        if rung == RUNGS:
            sitting.shown = True
            attempts.mark_shown(host.keeper, sitting)
            self._play_from_here(self._hint)
        self._playing.show()

    def _play_from_here(self, hint: Hint) -> None:
        """Let the whole line be seen, in the grip of the player."""
        from game.screens.lines.watch import WatchScreen  # noqa: PLC0415 - when it is pushed

        cube = hint.cube
        position = replace(self._playing.sitting.position, cube=cube.upright)
        self._playing.host.push_screen(
            WatchScreen(position, (hint.rest,), grip=cube.grip, runs=True)
        )

    def _ahead(self) -> tuple[Line, ...] | None:
        """The shortest lines from here; () if there is no way, None while they are not known."""
        sitting = self._playing.sitting
        made = lines.tidy(sitting.attempt.line).turns
        rests = (lines.rest(made, solution) for solution in sitting.solutions)
        on_the_way = tuple(rest for rest in rests if rest is not None)
        if on_the_way:
            return on_the_way
        outcome = self._playing.host.engine.known(self._way_from_here())
        if outcome is None:
            return None
        from game.search.outcome import Solved  # noqa: PLC0415 - after the first picture

        return outcome.solutions if isinstance(outcome, Solved) else ()

    def _way_from_here(self) -> Question:
        """All ways, so that the easiest can be chosen; one where all may take long."""
        position = self._playing.sitting.position
        whole = Question(self._playing.sitting.cube.upright, position.solve, position.faces)
        return whole._replace(first=whole.is_large)

    # -- shorter ways ----------------------------------------------------------------------------

    def _asked(self) -> tuple[Asked, ...]:
        known = self._playing.host.engine.known
        position = self._playing.sitting.position
        return tuple((way, known(self._question(way))) for way in ways(position))

    def _question(self, way: Way) -> Question:
        position = self._playing.sitting.position
        return Question(position.cube, position.solve, way.faces)
