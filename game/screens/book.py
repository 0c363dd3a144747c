"""The contests that a player has entered, as the records keep them: a run each, open to its end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from game.contest import Contest
from game.entered import Entered, entered_of, entered_text
from game.errors import PairwrightError

if TYPE_CHECKING:
    from game.records import KeptRun, Records
    from game.screens.app import PairwrightApp

CONTEST, DAY = "contest", "day"
"""Modes of the attempts and runs of contests by invite, and of days' fives."""


@dataclass(frozen=True)
class Entry:
    """A contest, and what the records call it. run: its number there, None while it is not kept.

    began: when it was entered, None while it is not kept.
    """

    entered: Entered
    run: int | None = None
    began: datetime | None = None

    @property
    def mode(self) -> str:
        """What attempts at it are recorded as."""
        return DAY if self.entered.day else CONTEST


def entries(app: PairwrightApp) -> tuple[Entry, ...]:
    """Every contest by invite that was entered, the newest first."""
    return app.record(lambda records: tuple(_entries(records, CONTEST)), ()) if app.has_records else ()


def entry_for(app: PairwrightApp, contest: Contest, day: str = "") -> Entry:
    """The entry for a contest: the one kept, or else a new one that is not kept yet."""
    new = Entry(Entered(contest, day))
    if not app.has_records:
        return new
    kind = new.entered.kind
    found = app.record(lambda records: tuple(_entries(records, new.mode, kind)), ())
    return found[0] if found else new
