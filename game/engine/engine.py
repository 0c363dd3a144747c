"""Searches in the background: one thread that answers questions.

The thread loads NumPy and the tables itself, so nothing of either stands between the command and
the first picture. A screen asks, and hears `Advanced` (a better lower bound) and then `Answered`;
what it no longer wants to know it forgets, and a search under way stops at its next batch.
Answers are kept, so asking twice costs nothing.

It begins with the small tables. A question that takes long with them is put off until the large
ones are there (`large_tables`), of which its askers are told by `Preparing`; others are answered
meanwhile. Where there can be no large ones, it is answered with the small ones, however long.
"""

from __future__ import annotations

from collections import OrderedDict, deque
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from threading import Condition, Thread
from typing import TYPE_CHECKING, Protocol, cast

from game.engine.answers import (
    Advanced,
    Answer,
    Answered,
    AnsweredByPairs,
    Failed,
    Preparing,
)
from game.engine.large_tables import LargeTables
from game.engine.questions import (
    ByPairs,
    Question,
    first_question,
    hand_question,
    pairs_question,
    whole_question,
)
from game.engine.searching import needs_more, outcome_of

if TYPE_CHECKING:
    from game.search.outcome import Outcome, Progress
    from game.search.pair_by_pair import Found
    from game.search.tables import Tables

__all__ = [
    "Advanced",
    "Answer",
    "Answered",
    "AnsweredByPairs",
    "Asker",
    "ByPairs",
    "Engine",
    "Failed",
    "Preparing",
    "Question",
    "first_question",
    "hand_question",
    "pairs_question",
    "whole_question",
]

KEPT = 200
"""Answers that are kept at most; the oldest go first."""


class Asker(Protocol):
    """Who asks: a screen, or anything else that can take an answer from another thread."""

    def hear(self, answer: Answer) -> None:
        """Take an answer; called in the thread of the engine or of the large tables."""


@dataclass(eq=False)
class _Job:
    """A question under way or waiting. askers: each with whether it is patient.

    held: it waits for the large tables. breaks: it was told to break off, so it has no outcome.
    """

    question: Question | ByPairs
    askers: list[tuple[Asker, bool]] = field(default_factory=list)
    held: bool = False
    breaks: bool = False

    @property
    def patient(self) -> bool:
        return all(patient for _, patient in self.askers)

    def tell(self, answer: Answer, *, to_all: bool = True) -> None:
        for asker, patient in self.askers:
            if to_all or not patient:
                asker.hear(answer)


class Engine:
    """Answers questions one after another. `start` it once the first picture stands."""

    def __init__(self, cache: Path) -> None:
        self._cache = cache
        self._waiting: deque[_Job] = deque()
        self._running: _Job | None = None
        self._answers: OrderedDict[Question | ByPairs, Outcome | Found] = OrderedDict()
        self._change = Condition()
        self._stopping = False
        self._problem = ""
        self._tables: Tables | None = None
        self._may_gain = True  # larger tables
        self._large = LargeTables(cache, self._tell_held, self._go_on)
        self.is_awake = False
        """Whether the thread has loaded what it needs, NumPy above all."""
        self._thread = Thread(target=self._work, name="engine", daemon=True)

    @property
    def has_started(self) -> bool:
        """Whether `start` was called."""
        return self._thread.ident is not None

    def start(self) -> None:
        """Load the tables and begin to answer."""
        self._thread.start()

    def known(self, question: Question) -> Outcome | None:
        """The answer, if it is known already."""
        return cast("Outcome | None", self._answers.get(question))

    def ask(self, question: Question | ByPairs, asker: Asker, *, patient: bool = False) -> None:
        """Have the answer posted to `asker`; a patient one lets all others go first.

        It is told the answer only, nothing on the way: such questions come by the hundred. Its
        search breaks off for a question that is asked in a hurry, and is begun anew afterwards.
        """
        with self._change:
            if self._problem:
                asker.hear(Failed(self._problem))
                return
            for job in self._jobs():
                if job.question == question and not job.breaks:
                    job.askers = [*job.askers, (asker, patient)]
                    break
            else:
                self._waiting.append(_Job(question, [(asker, patient)]))
            self._change.notify()

    def forget(self, asker: Asker) -> None:
        """Drop everything this asker still waits for."""
        with self._change:
            for job in self._jobs():
                job.askers = [other for other in job.askers if other[0] is not asker]

    def stop(self) -> None:
        """Stop for good; a search under way ends at its next batch."""
        self._large.stop()
        with self._change:
            self._stopping = True
            self._change.notify()

    def _jobs(self) -> list[_Job]:
        running = [] if self._running is None else [self._running]
        return [*running, *self._waiting]

    # -- in the thread ---------------------------------------------------------------------------

    def _work(self) -> None:
        try:
            self._answer_all()
        except Exception as fault:  # a thread has nobody above it: whatever it is must be said
            with self._change:
                self._problem = f"The search has stopped: {fault or type(fault).__name__}"
                askers = {id(asker): asker for job in self._jobs() for asker, _ in job.askers}
            for asker in askers.values():
                asker.hear(Failed(self._problem))

    def _answer_all(self) -> None:
        from game.search import cache  # noqa: PLC0415 - NumPy only in this thread

        self.is_awake = True
        self._tables = cache.load_tables(self._cache)
        while (job := self._next()) is not None:
            found = self._answers.get(job.question)
            self._end(job, found if found is not None else self._found(job))

    def _next(self) -> _Job | None:
        """Wait for a job that somebody still wants; None when it is time to stop."""
        with self._change:
            while not self._stopping:
                self._waiting = deque(job for job in self._waiting if job.askers)
                ready = [job for job in self._waiting if not job.held]
                if not ready:
                    self._change.wait()
                    continue
                job = next((job for job in ready if not job.patient), ready[0])
                self._waiting.remove(job)
                self._running, job.breaks = job, False
                return job
            return None

    def _found(self, job: _Job) -> Outcome | Found | None:
        """What the search finds; nothing if it takes the large tables."""
        question, cancelled = job.question, partial(self._breaks, job)
        with self._change:
            tables, may_gain = self._tables, self._may_gain
        assert tables is not None  # the small ones were loaded before the first job
        if isinstance(question, ByPairs):
            from game.search.pair_by_pair import pair_by_pair  # noqa: PLC0415 - NumPy only here

            return pair_by_pair(question.cube, question.solve, tables=tables, cancelled=cancelled)
        outcome = outcome_of(
            question,
            tables,
            may_gain=may_gain,
            progress=None if job.patient else partial(_tell, job, question),
            cancelled=cancelled,
        )
        return None if needs_more(question, outcome) else outcome

    def _breaks(self, job: _Job) -> bool:
        """Whether a search under way is to break off: it is unwanted, or in the way of others."""
        in_the_way = job.patient and any(
            not other.patient and not other.held for other in tuple(self._waiting)
        )
        job.breaks = self._stopping or not job.askers or in_the_way
        return job.breaks

    def _end(self, job: _Job, found: Outcome | Found | None) -> None:
        """Give the answer, or put the job back if the search has no answer yet."""
        question = job.question
        with self._change:
            self._running = None
            if job.breaks or found is None:
                job.held = not job.breaks and self._may_gain
                self._waiting.appendleft(job)
            else:
                self._answers[question] = found
                if len(self._answers) > KEPT:
                    self._answers.popitem(last=False)
        if job.held and not self._large.has_started:
            self._large.start()
        elif not job.breaks and found is not None:
            job.tell(_answer(question, found))

    # -- in the thread of the large tables -------------------------------------------------------

    def _tell_held(self, state: str) -> None:
        with self._change:
            held = [job for job in self._waiting if job.held]
        for job in held:
            if isinstance(job.question, Question):
                job.tell(Preparing(job.question, state))

    def _go_on(self, tables: Tables, problem: str) -> None:
        """Answer what was put off."""
        if problem:
            self._tell_held(problem)
        with self._change:
            self._tables, self._may_gain = tables, False
            for job in self._waiting:
                job.held = False
            self._change.notify()


def _answer(question: Question | ByPairs, found: Outcome | Found) -> Answer:
    if isinstance(question, ByPairs):
        return AnsweredByPairs(question, cast("Found", found))
    return Answered(question, cast("Outcome", found))


def _tell(job: _Job, question: Question, progress: Progress) -> None:
    job.tell(Advanced(question, progress), to_all=False)
