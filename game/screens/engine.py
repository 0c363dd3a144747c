"""Searches in the background: one thread that answers questions by posting messages.

The thread loads NumPy and the tables itself, so nothing of either stands between the command and
the first picture. A screen asks, and hears `Advanced` (a better lower bound) and then `Answered`;
what it no longer wants to know it forgets, and a search under way stops at its next batch.
Answers are kept, so asking twice costs nothing.
"""

from __future__ import annotations

from collections import OrderedDict, deque
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from threading import Condition, Thread
from typing import TYPE_CHECKING, Protocol

from textual.message import Message

from game.cube.cube import Cube
from game.position import Position

if TYPE_CHECKING:
    from game.search.outcome import Outcome, Progress

KEPT = 200
"""Answers that are kept at most; the oldest go first."""


@dataclass(frozen=True)
class Question:
    """A search: bring `cube` to where the cross and these slots are solved with these faces."""

    cube: Cube
    solve: tuple[str, ...]
    faces: str


def whole_question(position: Position) -> Question:
    """Par and every shortest solution of a position."""
    return Question(position.cube, position.solve, position.faces)


def hand_question(position: Position) -> Question:
    """The same with only the faces at the hands."""
    return Question(position.cube, position.solve, position.hand_faces)


class Asker(Protocol):
    """Who asks: a screen, or anything that messages can be posted to from a thread."""

    def post_message(self, message: Message) -> bool:
        """Take a message; whether it was taken."""


class Advanced(Message):
    """A search has proven a longer lower bound."""

    def __init__(self, question: Question, progress: Progress) -> None:
        super().__init__()
        self.question = question
        self.progress = progress


class Answered(Message):
    """A search has ended."""

    def __init__(self, question: Question, outcome: Outcome) -> None:
        super().__init__()
        self.question = question
        self.outcome = outcome


class Failed(Message):
    """The engine cannot answer any more: what went wrong, in one line."""

    def __init__(self, problem: str) -> None:
        super().__init__()
        self.problem = problem


@dataclass(eq=False)
class _Job:
    question: Question
    asker: Asker
    patient: bool
    dropped: bool = False


class Engine:
    """Answers questions one after another. `start` it once the first picture stands."""

    def __init__(self, cache: Path) -> None:
        self._cache = cache
        self._waiting: deque[_Job] = deque()
        self._running: _Job | None = None
        self._answers: OrderedDict[Question, Outcome] = OrderedDict()
        self._change = Condition()
        self._stopping = False
        self._problem = ""
        self.is_awake = False
        """Whether the thread has loaded what it needs, NumPy above all."""
        self._thread = Thread(target=self._work, name="engine", daemon=True)

    def start(self) -> None:
        """Load the tables and begin to answer."""
        self._thread.start()

    def known(self, question: Question) -> Outcome | None:
        """The answer, if it is known already."""
        return self._answers.get(question)

    def ask(self, question: Question, asker: Asker, *, patient: bool = False) -> None:
        """Have the answer posted to `asker`; a patient one lets all others go first.

        It is told the answer only, nothing on the way: such questions come by the hundred.
        """
        with self._change:
            if self._problem:
                asker.post_message(Failed(self._problem))
                return
            self._waiting.append(_Job(question, asker, patient))
            self._change.notify()

    def forget(self, asker: Asker) -> None:
        """Drop everything this asker still waits for."""
        with self._change:
            for job in (*self._waiting, self._running):
                if job is not None and job.asker is asker:
                    job.dropped = True

    def stop(self) -> None:
        """Stop for good; a search under way ends at its next batch."""
        with self._change:
            self._stopping = True
            self._change.notify()

    # -- in the thread ---------------------------------------------------------------------------

    def _work(self) -> None:
        try:
            self._answer_all()
        except Exception as fault:  # a thread has nobody above it: whatever it is must be said
            with self._change:
                self._problem = f"The search has stopped: {fault or type(fault).__name__}"
                jobs = [job for job in (self._running, *self._waiting) if job is not None]
            for asker in {id(job.asker): job.asker for job in jobs}.values():
                asker.post_message(Failed(self._problem))

    def _answer_all(self) -> None:
        from game.search.cache import load_tables  # noqa: PLC0415 - NumPy only in this thread
        from game.search.shortest import search  # noqa: PLC0415

        self.is_awake = True
        tables = load_tables(self._cache)
        while (job := self._next()) is not None:
            question, asker = job.question, job.asker
            outcome = self._answers.get(question)
            if outcome is None:
                outcome = search(
                    question.cube,
                    question.solve,
                    question.faces,
                    tables=tables,
                    progress=None if job.patient else partial(_tell, job),
                    cancelled=partial(self._is_unwanted, job),
                )
                if self._is_unwanted(job):
                    continue
                self._answers[question] = outcome
                if len(self._answers) > KEPT:
                    self._answers.popitem(last=False)
            asker.post_message(Answered(question, outcome))

    def _is_unwanted(self, job: _Job) -> bool:
        return job.dropped or self._stopping

    def _next(self) -> _Job | None:
        """Wait for a job that somebody still wants; None when it is time to stop."""
        with self._change:
            self._running = None
            while not self._stopping:
                if not self._waiting:
                    self._change.wait()
                    continue
                hurried = (job for job in self._waiting if not job.patient)
                job = next(hurried, self._waiting[0])
                self._waiting.remove(job)
                if not job.dropped:
                    self._running = job
                    return job
            return None


def _tell(job: _Job, progress: Progress) -> None:
    job.asker.post_message(Advanced(job.question, progress))
