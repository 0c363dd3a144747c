"""Plays events in a game without a terminal, and looks whether it stands, answers and keeps."""

from __future__ import annotations

import asyncio
import sqlite3
import tempfile
import time
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from textual import events
from textual.geometry import Size

from game.folders import Folders
from game.friends.entry import progress_of
from game.modes import CONTEST, DAY, MATCH, TIMED
from game.records import open_records
from game.runs import parse_run
from game.screens.app import PairwrightApp
from tests.monkey.events import Event

LEFT_ALONE = 30.0
"""Seconds after which it is said to hang. It should answer within two; how long it took is told,
but a machine that does much else must not fail the test."""


@dataclass
class Played:
    """What came of some events: what was raised, if anything, and the screens that were seen."""

    fault: BaseException | None = None
    screens: set[str] = field(default_factory=set)
    slowest: float = 0.0
    done: int = 0

    @property
    def kind(self) -> str:
        """What kind of fault it is."""
        return type(self.fault).__name__ if self.fault is not None else ""


class Monkey:
    """A pair of hands at a game."""

    def __init__(self, app: PairwrightApp, clock: list[float]) -> None:
        self._app = app
        self._clock = clock

    async def do(self, event: Event) -> None:
        """Do one thing, without waiting for what comes of it unless it is to wait."""
        what, *how = event
        app, driver = self._app, self._app._driver
        assert driver is not None
        match what:
            case "key":
                (key,) = how
                app.post_message(events.Key(key, key if len(key) == 1 else _CHARACTERS.get(key)))
            case "click":
                x, y, button = how
                for kind in (events.MouseDown, events.MouseUp):
                    driver.process_message(_mouse(kind, x, y, button))
            case "drag":
                x, y, to_x, to_y = how
                driver.process_message(_mouse(events.MouseDown, x, y, 1))
                driver.process_message(_mouse(events.MouseMove, to_x, to_y, 1))
                driver.process_message(_mouse(events.MouseUp, to_x, to_y, 1))
            case "paste":
                app.post_message(events.Paste(*how))
            case "resize":
                size = Size(*how)
                driver._size = size  # type: ignore[attr-defined]
                app.post_message(events.Resize(size, size))
            case "focus":
                app.post_message(events.AppFocus() if how[0] else events.AppBlur())
            case "clock":
                self._clock[0] += how[0]
            case "wait":
                await asyncio.sleep(0.01 * how[0])
            case "settle":
                await self._settle()
        await asyncio.sleep(0)

    async def _settle(self) -> None:
        """Until the game and its screen have come to a message behind all that they had."""
        for pump in (self._app, self._app.screen if self._app._screen_stack else self._app):
            reached = asyncio.Event()
            if pump.call_later(reached.set):
                for _ in range(2000):
                    if reached.is_set() or pump._closed or self._app._exit:
                        break
                    await asyncio.sleep(0.001)


_CHARACTERS = {"space": " ", "apostrophe": "'", "question_mark": "?", "comma": ","}


def _mouse(kind: type[events.MouseEvent], x: int, y: int, button: int) -> events.MouseEvent:
    return kind(
        widget=None, x=x, y=y, delta_x=0, delta_y=0, button=button, shift=False, meta=False,
        ctrl=False, screen_x=x, screen_y=y,
    )  # fmt: skip


async def play(
    what: Sequence[Event], window: tuple[int, int], tables: Path, folder: Path
) -> Played:
    """Play the events from a start in an empty folder; then look at what is kept.

    The game begins anew where it is left by a key, in the same folder.
    """
    played = Played()
    folders = Folders(folder / "data", folder / "config", tables, folder / "state")
    waiting = list(what)
    try:
        while waiting:
            waiting = await _sitting(waiting, window, folders, played)
        look_at_records(folders.records)
    except Exception as fault:
        played.fault = fault
    return played


async def _sitting(
    what: list[Event], window: tuple[int, int], folders: Folders, played: Played
) -> list[Event]:
    """Play until the game is left; the events that are left over."""
    clock = [1000.0]
    app = PairwrightApp(folders, clock=lambda: clock[0])
    app.animation_level = "none"
    async with app.run_test(size=window):
        monkey = Monkey(app, clock)
        await asyncio.sleep(0.02)
        for number, event in enumerate(what, 1):
            began = time.monotonic()
            async with asyncio.timeout(LEFT_ALONE):
                await monkey.do(event)
            if event[0] != "wait":
                played.slowest = max(played.slowest, time.monotonic() - began)
            played.done += 1
            if app._exception is not None:
                break
            if app._exit:
                return what[number:]
            played.screens |= {type(screen).__name__ for screen in app._screen_stack}
        async with asyncio.timeout(LEFT_ALONE):
            await monkey.do(("settle",))
    return []


def look_at_records(path: Path) -> None:
    """Raises what is wrong with the records: the file, or anything in it that cannot be read."""
    if not path.exists():
        return
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    records = open_records(path)
    try:
        attempts = list(records.all_attempts())
        runs = [*records.open_runs()]
        for mode in (*TIMED, MATCH, CONTEST, DAY):
            runs += records.ended_runs(mode)
        for run in runs:
            if run.mode in TIMED:
                parse_run(run.text)
            elif run.mode in (CONTEST, DAY):
                progress_of(run.text)
        assert all(attempt.position for attempt in attempts)
    finally:
        records.close()


def shortest(
    what: Sequence[Event], window: tuple[int, int], tables: Path, kind: str, tries: int = 60
) -> list[Event]:
    """Fewer of the events that raise the same kind of fault, found by leaving parts out."""
    kept, size = list(what), max(1, len(what) // 2)
    while size and tries > 0:
        at = 0
        while at < len(kept) and tries > 0:
            fewer = kept[:at] + kept[at + size :]
            tries -= 1
            with tempfile.TemporaryDirectory() as folder:
                again = asyncio.run(play(fewer, window, tables, Path(folder)))
            if again.kind == kind:
                kept = fewer
            else:
                at += size
        size //= 2
    return kept
