"""A setup, searched: the answer as words and as JSON.

The keys of the JSON object, in order:

    setup       as it was given
    par         outer block turns of a shortest solution; null if not known or not to be had
    solutions   shortest solutions in notation, turns named by centres, the easiest first
    complete    whether `solutions` holds all there are
    open        slots that need not be solved, a list
    faces       faces that may turn
    seconds     how long the search took, the tables being there
    verdict     only where par is null: why
    pairs       only when asked for: the best total pair by pair, null if it does not apply:
                `total`, `order` of the slots, `cross` and `steps`, the lines one after another

or, for a setup that cannot be answered, `setup` (its first 200 characters) and `error`.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from game.cli.progress import progress_line
from game.cli.searching import Searcher
from game.coach.ways import is_by_pairs, pairs_words
from game.cube import ease
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import line_text, parse_line
from game.errors import NotationError, PairwrightError
from game.play.position import Position, position_after
from game.search.outcome import NoneUpTo, Outcome, Solved, Unsolvable

if TYPE_CHECKING:
    from game.cli.progress import ProgressLine
    from game.search.pair_by_pair import PairByPair

SOLVED_BY_THE_WAY = "no turns: solved by the way"
MAX_ECHO = 200
"""Characters of a faulty setup that are given back."""


@dataclass(frozen=True)
class Answer:
    """What a search found. seconds: that it took; stopped: whether Ctrl-C ended it.

    asks_pairs: whether the best total pair by pair was asked for; pairs: that, where there is one.
    """

    setup: str
    position: Position
    outcome: Outcome
    seconds: float
    stopped: bool
    asks_pairs: bool = False
    pairs: PairByPair | None = None


@dataclass(frozen=True)
class Asker:
    """Answers setups.

    open_: slots left open; first: one solution is enough; pairs: the best total pair by pair, too;
    cache: of tables.
    """

    cache: Path
    open_: tuple[str, ...] = ()
    faces: str = FACES
    first: bool = False
    pairs: bool = False

    @cached_property
    def _searcher(self) -> Searcher:
        return Searcher(self.cache, first=self.first)

    def position(self, setup: str) -> Position:
        """What the setup makes of a solved cube. Raises NotationError."""
        return position_after(parse_line(setup), self.open_, self.faces, "full")

    def answer(self, setup: str) -> Answer:
        """Par and solutions. Raises NotationError."""
        position = self.position(setup)
        with progress_line() as watch:
            outcome = self._searcher.search(position.cube, position.solve, position.faces, watch)
            seconds = self._searcher.seconds
            pairs = self._by_pairs(position, watch) if self.pairs and not watch.stopped else None
        return Answer(setup, position, outcome, seconds, watch.stopped, self.pairs, pairs)

    def _by_pairs(self, position: Position, watch: ProgressLine) -> PairByPair | None:
        from game.search.pair_by_pair import PairByPair, pair_by_pair  # noqa: PLC0415 - NumPy

        if not is_by_pairs(position):
            return None
        found = pair_by_pair(
            position.cube,
            position.solve,
            tables=self._searcher.tables,
            cancelled=watch.cancelled,
        )
        return found if isinstance(found, PairByPair) else None


def answer_json(answer: Answer) -> str:
    """The answer as one line of JSON, ASCII only."""
    outcome = answer.outcome
    solved = outcome if isinstance(outcome, Solved) else None
    found: dict[str, object] = {
        "setup": answer.setup,
        "par": solved.par if solved else None,
        "solutions": [line_text(line) for line in solved.solutions] if solved else [],
        "complete": solved.complete if solved else isinstance(outcome, Unsolvable),
        "open": list(answer.position.open),
        "faces": answer.position.faces,
        "seconds": round(answer.seconds, 4),
    }
    if solved is None:
        found["verdict"] = verdict(outcome)
    if answer.asks_pairs:
        found["pairs"] = _pairs_object(answer.pairs)
    return json.dumps(found)


def _pairs_object(pairs: PairByPair | None) -> dict[str, object] | None:
    if pairs is None:
        return None
    return {
        "total": pairs.total,
        "order": list(pairs.order),
        "cross": line_text(pairs.cross),
        "steps": [line_text(step) for step in pairs.steps],
    }


def error_json(setup: str, error: PairwrightError) -> str:
    """A setup that cannot be answered, and why, as one line of JSON."""
    problem = error.problem if isinstance(error, NotationError) else str(error)
    # What came as bytes that are no text stands in it as half a character, which is no JSON.
    told = setup[:MAX_ECHO].encode(errors="backslashreplace").decode()
    return json.dumps({"setup": told, "error": problem})


def verdict(outcome: Outcome) -> str:
    """What the search came to, in a few words."""
    match outcome:
        case Solved(par, solutions, complete):
            return f"par {par}; {_how_many(len(solutions), complete)}"
        case Unsolvable(proof):
            return f"no solution: {proof}"
        case NoneUpTo(turns):
            return f"no solution of up to {turns} turns; whether a longer one exists is not proven"
        case _:
            return f"stopped; par is at least {outcome.at_least}"


def answer_words(answer: Answer) -> str:
    """The answer for a reader: what was asked, par, and each solution with its easiest grip."""
    asked = _asked(answer.position)
    told = verdict(answer.outcome)
    lines = [told[0].upper() + told[1:] + asked]
    if isinstance(answer.outcome, Solved):
        if answer.outcome.par:
            lines += ["", *_table(answer.outcome.solutions)]
        else:
            lines = [f"Par 0: the setup leaves it solved{asked}"]
        if answer.stopped:
            lines += ["", "Stopped: there may be more."]
    if answer.asks_pairs and not answer.stopped:
        lines += ["", *_pairs_rows(answer)]
    return "\n".join(lines)


def _pairs_rows(answer: Answer) -> list[str]:
    """The best total pair by pair, and a row for each step."""
    pairs, outcome = answer.pairs, answer.outcome
    if pairs is None:
        return ["Pair by pair: only where two pairs or more are in play and every face may turn."]
    told = pairs_words(pairs, outcome.par if isinstance(outcome, Solved) else None)
    steps = [("cross", pairs.cross)] if pairs.cross else []
    steps += zip(pairs.order, pairs.steps, strict=True)
    rows = (f"  {name:<5}  {line_text(step) or SOLVED_BY_THE_WAY}" for name, step in steps)
    return [f"{told}.", "", *rows]


def _how_many(count: int, complete: bool) -> str:
    if not complete:
        return "one shortest solution" if count == 1 else f"{count} of the shortest solutions"
    few = {1: "the only shortest solution", 2: "both shortest solutions"}
    return few.get(count, f"all {count} shortest solutions")


def _asked(position: Position) -> str:
    """What is asked, where it is not everything with every face."""
    asked = f" ({' '.join(position.open)} open" if position.open else ""
    if position.faces != FACES:
        asked += f"{', ' if asked else ' ('}turning {' '.join(position.faces)} only"
    return asked and f"{asked})"


def _table(solutions: Iterable[Line]) -> list[str]:
    """A row for each solution: by centres, and in the easiest grip where that is another."""
    rows = [(line_text(line), line_text(ease.easiest_grip(line))) for line in solutions]
    if all(centres == grip for centres, grip in rows):
        return [f"  {centres}" for centres, _ in rows]
    heading = ("as the cube is held", "easiest grip")
    wide = max(len(centres) for centres, _ in (heading, *rows))
    told = (f"  {c:<{wide}}    {g if g != c else 'the same'}" for c, g in rows)
    return [f"  {heading[0]:<{wide}}    {heading[1]}", *told]
