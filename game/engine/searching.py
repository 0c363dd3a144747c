"""Which tables a search takes: the small ones, and the large ones once those do not do.

The engine searches like this in its thread, and so do the commands, which have none.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from game.engine.questions import Question
from game.errors import CacheBusy

if TYPE_CHECKING:
    from game.search.growth import Growing
    from game.search.outcome import Outcome, Progress
    from game.search.tables import Tables

PAUSE = 0.1
"""Seconds between two looks at whether another process has ended its build."""


def outcome_of(
    question: Question,
    tables: Tables,
    *,
    may_gain: bool,
    progress: Callable[[Progress], None] | None,
    cancelled: Callable[[], bool],
) -> Outcome:
    """What a search finds with these tables; see `needs_more` for whether that is all.

    may_gain: whether there can be larger tables than these; if not, it takes as long as it takes.
    """
    from game.search.cache import ENOUGH  # noqa: PLC0415 - NumPy when it is needed
    from game.search.shortest import search  # noqa: PLC0415 - likewise

    return search(
        question.cube,
        question.solve,
        question.faces,
        tables=tables,
        first=question.first,
        max_nodes=ENOUGH if may_gain else None,
        progress=progress,
        cancelled=cancelled,
    )


def needs_more(question: Question, outcome: Outcome) -> bool:
    """Whether the search was cut short: it is to be made with larger tables, or was cancelled."""
    from game.search.outcome import is_finished  # noqa: PLC0415 - likewise

    return not is_finished(outcome, first=question.first)


def build_large(
    cache: Path,
    tell: Callable[[Growing], None],
    busy: Callable[[], None],
    cancelled: Callable[[], bool],
) -> bool:
    """Build the large tables, or wait while another process does; whether they are there now.

    tell: called with how far the build is; busy: while another process builds. Raises CacheError.
    """
    from game.search.cache import build_near_sets  # noqa: PLC0415 - likewise

    while not cancelled():
        try:
            return build_near_sets(cache, tell, cancelled)
        except CacheBusy:
            busy()
            time.sleep(PAUSE)
    return False
