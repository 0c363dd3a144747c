"""A timed run so far: what was done at each position, the clock, what is added to it, the end.

Times are hundredths of a second. What is *added* for inspection and turns over par stands apart
from the *clock*; both together are the *total*. A dash is as good as its total is small, where
every position was solved. In an hourglass what is added runs through the glass too: a position
counts when it is solved and the total up to it is within the time.

Par may become known after a position is over. Until then nothing is added for it, and the run is
not *settled*.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from itertools import accumulate
from typing import Any

from game.errors import SelectionError
from game.modes import DASH
from game.play.inspection import LOSES_MS
from game.runs.terms import RunTerms

MAX_SEED = 80
MAX_BREAKS = 10_000
MAX_TEXT = 1000
"""Characters of a run's text at most."""


@dataclass(frozen=True)
class Done:
    """A position that is over. position: its text; par: None while it is not known.

    seeing, doing: on the clock; inspection: seconds that its rule added.
    """

    position: str
    turns: int
    par: int | None
    seeing: int
    doing: int
    inspection: int
    solved: bool

    @property
    def clock(self) -> int:
        """Seeing and doing together."""
        return self.seeing + self.doing

    @property
    def took_inspection(self) -> bool:
        """Whether it has what a position has that was lost in its inspection: all its time."""
        return not self.solved and (self.seeing, self.doing) == (LOSES_MS // 10, 0)

    @property
    def over(self) -> int | None:
        """Turns over par; None where it was not solved or par is not known."""
        return max(0, self.turns - self.par) if self.solved and self.par is not None else None

    def added(self, a_turn: int) -> int:
        """What is added, as far as par is known, when so much is added for a turn."""
        return 100 * self.inspection + a_turn * (self.over or 0)


@dataclass(frozen=True)
class Run:
    """A run on its terms. seed: of its positions; breaks: how often it was left and taken up."""

    terms: RunTerms
    seed: str
    done: tuple[Done, ...] = ()
    breaks: int = 0

    def plus(self, done: Done) -> Run:
        """With one more position over."""
        return replace(self, done=(*self.done, done))

    def knowing(self, pars: Mapping[str, int]) -> Run:
        """With these pars, position text -> par, filled in where they were missing."""
        known = (replace(d, par=pars.get(d.position)) if d.par is None else d for d in self.done)
        return replace(self, done=tuple(known))

    # -- sums ------------------------------------------------------------------------------------

    @property
    def clock(self) -> int:
        """Time on the clock."""
        return sum(done.clock for done in self.done)

    @property
    def added(self) -> int:
        """What is added to it, as far as is known."""
        return sum(done.added(self.terms.added) for done in self.done)

    @property
    def total(self) -> int:
        """Both together."""
        return self.clock + self.added

    @property
    def splits(self) -> tuple[int, ...]:
        """The total after each position."""
        return tuple(accumulate(d.clock + d.added(self.terms.added) for d in self.done))

    @property
    def is_settled(self) -> bool:
        """Whether the par of everything solved is known."""
        return all(done.par is not None for done in self.done if done.solved)

    @property
    def counts(self) -> tuple[bool, ...]:
        """Which positions count: those solved, in an hourglass while time had not run out."""
        if self.terms.mode == DASH:
            return tuple(done.solved for done in self.done)
        end = 100 * self.terms.amount
        return tuple(
            d.solved and split <= end for d, split in zip(self.done, self.splits, strict=True)
        )

    @property
    def solved(self) -> int:
        """How many positions count."""
        return sum(self.counts)

    # -- the end ---------------------------------------------------------------------------------

    @property
    def left(self) -> int | None:
        """What is left in the glass; None in a dash."""
        if self.terms.mode == DASH:
            return None
        return max(0, 100 * self.terms.amount - self.total)

    @property
    def is_finished(self) -> bool:
        """Whether all positions are over, or the time is."""
        return self.left == 0 or (self.left is None and len(self.done) >= self.terms.amount)

    @property
    def score(self) -> tuple[int, int] | None:
        """What ranks it among runs of its kind, the least being the best; None where nothing does.

        Unranked are a run that is not over or not settled, one that was left and taken up again,
        a dash with a position unsolved, and an hourglass with none solved.
        """
        if not (self.is_finished and self.is_settled) or self.breaks:
            return None
        if self.terms.mode == DASH:
            return (self.total, self.clock) if all(self.counts) else None
        last = [split for split, does in zip(self.splits, self.counts, strict=True) if does]
        return (-len(last), last[-1]) if last else None


STORED = {"selection": "programme"}
"""Fields of the terms -> what they are called in the records, where that is something else."""


def run_text(run: Run) -> str:
    """What is kept of a run besides its attempts."""
    terms = {STORED.get(name, name): value for name, value in asdict(run.terms).items()}
    kept = {"terms": terms, "seed": run.seed, "breaks": run.breaks}
    return json.dumps(kept, separators=(",", ":"))


def parse_run(text: str) -> Run:
    """The run of a text, nothing done yet. Raises SelectionError for anything else."""
    try:
        if len(text) > MAX_TEXT:
            raise ValueError
        kept: dict[str, Any] = json.loads(text)
        terms, seed, breaks = kept["terms"], kept["seed"], kept["breaks"]
        numbers = (terms["amount"], terms["added"], breaks)
        texts = (terms["mode"], terms["programme"], seed)
        if not all(type(n) is int for n in numbers) or not all(type(t) is str for t in texts):
            raise ValueError
        if not 0 <= breaks <= MAX_BREAKS or len(seed) > MAX_SEED or not seed.isprintable():
            raise ValueError
        named = {name: terms.pop(stored) for name, stored in STORED.items()} | terms
        named["inspection"] = named["inspection"] is True
        return Run(RunTerms(**named), seed, (), breaks)
    except SelectionError:
        raise
    except (ValueError, TypeError, KeyError, RecursionError):
        raise SelectionError("what is kept of a run cannot be read") from None
