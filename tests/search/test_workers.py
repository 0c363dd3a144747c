"""Work shared by threads."""

from __future__ import annotations

from threading import Event, get_ident

import pytest

from game.search import workers
from game.search.workers import Cancelled, shared


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two threads, however many cores there are."""
    monkeypatch.setattr(workers, "CORES", 2)


def nothing() -> None:
    """A check that lets everything go on."""


def test_every_task_is_done_once() -> None:
    """The results are those of all tasks, in whatever order."""
    assert sorted(shared(lambda n: n * n, range(100), nothing, Event())) == [
        n * n for n in range(100)
    ]


def test_no_tasks_no_results() -> None:
    """Without tasks it ends at once."""
    assert list(shared(lambda n: n, [], nothing, Event())) == []


def test_two_tasks_run_at_once() -> None:
    """A task can wait for the next one: both are under way at the same time."""
    met = [Event(), Event()]

    def meet(mine: int) -> bool:
        met[mine].set()
        return met[1 - mine].wait(60)

    assert list(shared(meet, (0, 1), nothing, Event())) == [True, True]


def test_tasks_are_taken_as_they_are_needed() -> None:
    """Of many tasks only a few are made ahead of those that are done."""
    made = []

    def tasks() -> range:
        for n in range(1000):
            made.append(n)
            yield n

    running = shared(lambda n: n, tasks(), nothing, Event())
    next(running)
    assert len(made) < 20
    running.close()


def test_the_check_is_made_in_the_callers_thread() -> None:
    """Checks come from the caller's thread, work is done in others."""
    checked = set()
    done = set(shared(lambda _: get_ident(), range(20), lambda: checked.add(get_ident()), Event()))
    assert checked == {get_ident()}
    assert get_ident() not in done


def test_a_check_that_raises_stops_the_work() -> None:
    """What the check raises comes out, after the work has been told to stop."""
    stop = Event()

    def cancel() -> None:
        raise Cancelled

    with pytest.raises(Cancelled):
        list(shared(lambda _: stop.wait(60), range(1000), cancel, stop))
    assert stop.is_set()


def test_checked_while_a_task_takes_long() -> None:
    """The check is made again and again although no task is done."""
    enough = Event()
    checks = []

    def check() -> None:
        checks.append(1)
        if len(checks) == 3:
            enough.set()

    assert list(shared(lambda _: enough.wait(60), [1], check, Event())) == [True]
    assert len(checks) >= 3


def test_what_a_task_raises_comes_out() -> None:
    """A failing task ends everything with its error."""

    def fail(n: int) -> int:
        raise ZeroDivisionError(n)

    stop = Event()
    with pytest.raises(ZeroDivisionError):
        list(shared(fail, range(3), nothing, stop))
    assert stop.is_set()


def test_closed_early_it_stops_the_work() -> None:
    """Who needs no more results leaves no work behind."""
    stop = Event()
    running = shared(lambda n: n == 0 or stop.wait(60), range(1000), nothing, stop)
    assert next(running) is True
    running.close()
    assert stop.is_set()
