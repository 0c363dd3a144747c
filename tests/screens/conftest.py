"""A game without a terminal: own folders, a clock that stands until it is moved, no animation."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Event
from typing import Any, Protocol

import pytest
from textual import events
from textual.message_pump import MessagePump
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from game.cube.cube import Cube
from game.folders import Folders
from game.packs import Puzzle
from game.play.sitting import Sitting
from game.screens.app import PairwrightApp
from game.screens.play.board import Board
from game.screens.play.casual import CasualRules, PlayScreen
from game.search.outcome import Outcome, Progress
from game.search.shortest import search
from game.settings import Settings, save_settings

CHARACTERS = {"space": " ", "apostrophe": "'", "question_mark": "?"}
"""What a key of this name types."""
PATIENCE = 400
"""Looks at a condition before a test gives it up."""
SETTLING = 50_000
"""Turns of the event loop before a game that never comes to rest fails its test."""


def _unpainted(screen: Screen[object]) -> bool:
    """Whether something waits for the screen's next tick."""
    return screen.is_current and bool(
        screen._layout_required
        or screen._scroll_required
        or screen._repaint_required
        or screen._recompose_required
        or screen._dirty_widgets
        or screen._callbacks
    )


class StandingClock:
    """Seconds that pass only when a test says so."""

    def __init__(self) -> None:
        self.now = 1000.0

    def __call__(self) -> float:
        return self.now


class QuietApp(PairwrightApp):
    """The game over an empty first screen, so that a test pushes the one it is about."""

    def get_default_screen(self) -> Screen[Any]:
        """An empty one."""
        return Screen()

    def open_first(self) -> None:
        """Nothing opens by itself."""


@dataclass
class Game:
    """A running game and the hands at it."""

    app: PairwrightApp
    pilot: Pilot[int]
    clock: StandingClock

    async def until(self, condition: Callable[[], object]) -> None:
        """Wait, within a bound, for what is asserted."""
        for _ in range(PATIENCE):
            if condition():
                return
            await self.pilot.pause(0.01)
        raise AssertionError("it never came to that")

    async def press(self, keys: str) -> None:
        """Keys with spaces between them, each handled before the next."""
        await self.settle()
        for key in keys.split():
            character = key if len(key) == 1 else CHARACTERS.get(key)
            self.app.post_message(events.Key(key, character))
            await self.settle()

    async def click(
        self,
        target: str | type[Widget] | None = None,
        *,
        offset: tuple[int, int] = (0, 0),
        button: int = 1,
    ) -> None:
        """A click on a widget (or on the screen), once it has its place, and what follows."""
        await self.settle()
        await self.pilot.click(target, offset=offset, button=button)
        await self.settle()

    async def resize(self, columns: int, rows: int) -> None:
        """A window of another size, drawn anew."""
        await self.settle()
        await self.pilot.resize_terminal(columns, rows)
        await self.settle()

    async def settle(self) -> None:
        """Until every message has been dealt with and the screen is laid out, looked at twice.

        Textual lays a screen out at the next tick of a timer; here that tick comes at once.
        """
        quiet = 0
        for _ in range(PATIENCE):
            await self._deal_with_all()
            screen = self.app.screen
            if any(not pump._message_queue.empty() for pump in self._pumps()):
                quiet = 0
            elif _unpainted(screen):
                quiet = 0
                screen._on_timer_update()
            elif quiet:
                return
            else:
                quiet = 1
        raise AssertionError(f"never came to rest: {_unpainted(screen)}, {self._pumps()}")

    async def _deal_with_all(self) -> None:
        """Until each widget has come to a message put behind all those that it had."""
        behind: set[MessagePump] = set()

        def reached(pump: MessagePump) -> None:
            behind.discard(pump)

        for pump in self._pumps():
            if pump.call_later(reached, pump):
                behind.add(pump)
        for _ in range(SETTLING):
            await asyncio.sleep(0)
            if all(pump._closed for pump in behind) or self.app._exception_event.is_set():
                return
        raise AssertionError(f"never came to rest: {behind}")

    def _pumps(self) -> tuple[MessagePump, ...]:
        """The app, the screen in front, and all that is on it."""
        return (self.app, *self.app.screen.walk_children(with_self=True))

    async def play(self, puzzle: Puzzle) -> PlayScreen:
        """The playing screen at a puzzle, its clock running."""
        screen = PlayScreen(CasualRules(puzzle))
        await self.app.push_screen(screen)
        await self.until(lambda: screen.is_active and screen.sitting.running_since is not None)
        await self.until(lambda: screen.query_one(Board).is_furnished)
        return screen

    @property
    def sitting(self) -> Sitting:
        """The sitting of the playing screen in front."""
        assert isinstance(self.app.screen, PlayScreen)
        return self.app.screen.sitting

    def text(self, selector: str) -> str:
        """What a widget that holds text says now; nothing when it is not shown."""
        widget = self.app.screen.query_one(selector, Static)
        return str(widget.render()) if widget.is_on_screen else ""

    def rows(self) -> list[str]:
        """The whole screen as text, row by row."""
        lines = self.app.screen._compositor.render_strips()
        return ["".join(segment.text for segment in strip) for strip in lines]

    def says(self, words: str) -> bool:
        """Whether these words stand somewhere on the screen, line breaks aside."""
        return words in " ".join(" ".join(self.rows()).split())


@pytest.fixture
def folders(tmp_path: Path, table_folder: Path) -> Folders:
    """Folders of one test; the tables are shared."""
    return Folders(tmp_path / "data", tmp_path / "config", table_folder, tmp_path / "state")


class Start(Protocol):
    """What the fixture `start` gives."""

    def __call__(
        self,
        *,
        settings: Settings | None = None,
        size: tuple[int, int] = (80, 24),
        app_type: type[PairwrightApp] = QuietApp,
        packs: Path | None = None,
    ) -> AbstractAsyncContextManager[Game]: ...


@pytest.fixture
def start(folders: Folders) -> Start:
    """Start a game: `async with start() as game`. Starting again finds the same folders."""

    @asynccontextmanager
    async def started(
        *,
        settings: Settings | None = None,
        size: tuple[int, int] = (80, 24),
        app_type: type[PairwrightApp] = QuietApp,
        packs: Path | None = None,
    ) -> AsyncIterator[Game]:
        if settings is not None:
            save_settings(folders.settings, settings)
        clock = StandingClock()
        app = app_type(folders, packs, clock=clock)
        app.animation_level = "none"
        async with app.run_test(size=size) as pilot:
            yield Game(app, pilot, clock)

    return started


class Slow:
    """In place of the search: it says that par is two or more, and waits until it may go on."""

    def __init__(self) -> None:
        self.may_go_on = Event()

    def __call__(
        self, cube: Cube, *rest: Any, progress: Callable[[Progress], None] | None, **named: Any
    ) -> Outcome:
        if progress is not None:
            progress(Progress(2, 10))
        cancelled: Callable[[], bool] = named["cancelled"]
        while not self.may_go_on.wait(0.01) and not cancelled():
            pass
        return search(cube, *rest, progress=progress, **named)


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch) -> Slow:
    """A search that does not come to an end until it may."""
    made = Slow()
    monkeypatch.setattr("game.search.shortest.search", made)
    return made
