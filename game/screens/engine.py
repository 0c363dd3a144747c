"""Searches in the background: one thread that answers questions by posting messages.

The thread loads NumPy and the tables itself, so nothing of either stands between the command and
the first picture. A screen asks, and hears `Advanced` (a better lower bound) and then `Answered`;
what it no longer wants to know it forgets, and a search under way stops at its next batch.
Answers are kept, so asking twice costs nothing.

It begins with the small tables. A question that takes long with them is put off until the large
ones are there (`large_tables`), which its asker is told of by `Preparing`; others are answered
meanwhile. Where there can be no large ones, it is answered with the small ones, however long.
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
from game.screens.large_tables import LargeTables

if TYPE_CHECKING:
    from game.search.outcome import Outcome, Progress
    from game.search.tables import Tables

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


class Preparing(Message):
    """A search waits for the large tables: how far they are, or why there are none, in words."""

    def __init__(self, question: Question, state: str) -> None:
        super().__init__()
        self.question = question
        self.state = state


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
        self._put_off: list[_Job] = []
        self._tables: Tables | None = None
        self._may_gain = True  # larger tables
        self._large = LargeTables(cache, self._tell_waiting, self._go_on)
        self._answers: OrderedDict[Question, Outcome] = OrderedDict()
        self._change = Condition()
        self._stopping = False
        self._problem = ""
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
            for job in (*self._waiting, *self._put_off, self._running):
                if job is not None and job.asker is asker:
                    job.dropped = True

    def stop(self) -> None:
        """Stop for good; a search under way ends at its next batch."""
        self._large.stop()
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
                waiting = (self._running, *self._waiting, *self._put_off)
                jobs = [job for job in waiting if job is not None]
            for asker in {id(job.asker): job.asker for job in jobs}.values():
                asker.post_message(Failed(self._problem))

    def _answer_all(self) -> None:
        from game.search.cache import load_tables  # noqa: PLC0415 - NumPy only in this thread

        self.is_awake = True
        self._tables = load_tables(self._cache)
        while (job := self._next()) is not None:
            question, asker = job.question, job.asker
            outcome = self._answers.get(question)
            if outcome is None:
                outcome = self._searched(job)
                if outcome is None or self._is_unwanted(job):
                    continue
                self._answers[question] = outcome
                if len(self._answers) > KEPT:
                    self._answers.popitem(last=False)
            asker.post_message(Answered(question, outcome))

    def _searched(self, job: _Job) -> Outcome | None:
        """What the search finds; nothing if it is put off."""
        from game.search.cache import ENOUGH  # noqa: PLC0415 - likewise
        from game.search.outcome import is_finished  # noqa: PLC0415
        from game.search.shortest import search  # noqa: PLC0415

        with self._change:
            tables, may_gain = self._tables, self._may_gain
        assert tables is not None
        outcome = search(
            job.question.cube,
            job.question.solve,
            job.question.faces,
            tables=tables,
            max_nodes=ENOUGH if may_gain else None,
            progress=None if job.patient else partial(_tell, job),
            cancelled=partial(self._is_unwanted, job),
        )
        if is_finished(outcome, first=False) or self._is_unwanted(job):
            return outcome
        with self._change:
            if self._may_gain:
                self._put_off.append(job)
            else:  # they have come just now
                self._waiting.appendleft(job)
        if not self._large.has_started:
            self._large.start()
        return None

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

    # -- in the thread of the large tables -------------------------------------------------------

    def _tell_waiting(self, state: str) -> None:
        with self._change:
            jobs = [job for job in self._put_off if not job.dropped]
        for job in jobs:
            job.asker.post_message(Preparing(job.question, state))

    def _go_on(self, tables: Tables, problem: str) -> None:
        """Answer what was put off."""
        if problem:
            self._tell_waiting(problem)
        with self._change:
            self._tables = tables
            self._may_gain = False
            self._waiting.extendleft(reversed(self._put_off))
            self._put_off.clear()
            self._change.notify()


def _tell(job: _Job, progress: Progress) -> None:
    job.asker.post_message(Advanced(job.question, progress))
