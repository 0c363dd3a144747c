"""Work shared by the cores, in threads: NumPy lets go of the interpreter while it computes."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from itertools import islice
from threading import Event
from typing import TypeVar

T = TypeVar("T")
R = TypeVar("R")

CORES = os.cpu_count() or 1
PATIENCE = 0.05
"""Seconds after which the caller is asked, whether anything is done or not."""


class Cancelled(Exception):
    """The caller wants no more."""


def shared(
    work: Callable[[T], R], tasks: Iterable[T], check: Callable[[], None], stop: Event
) -> Iterator[R]:
    """What the work gives for each task, in the order in which they are done.

    check: called in the caller's thread, every `PATIENCE` seconds at least; what it raises ends
    the iteration, as does closing it. `stop` is set then, for the work to see; tasks that have
    begun are waited for, the others are not begun.
    """
    waiting = iter(tasks)
    with ThreadPoolExecutor(CORES) as pool:
        running: set[Future[R]] = set()
        try:
            while True:
                more = islice(waiting, 2 * CORES - len(running))
                running |= {pool.submit(work, task) for task in more}
                if not running:
                    return
                check()
                done, running = wait(running, PATIENCE, FIRST_COMPLETED)
                for future in done:
                    yield future.result()
        finally:
            stop.set()
            for future in running:
                future.cancel()
