"""A game without a terminal: own folders, a clock that stands until it is moved, no animation."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from dataclasses import dataclass, field
from pathlib import Path
from threading import Event
from typing import Any, Protocol

import pytest
from textual import events
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
from tests.screens.quick import parsed_once, read_once, searched_once, undrawn
from tests.screens.resting import RestingLoop, rest

CHARACTERS = {"space": " ", "apostrophe": "'", "question_mark": "?"}
"""What a key of this name types."""
PATIENCE = 1000
"""Looks at a condition before a test gives it up."""


@pytest.hookimpl
def pytest_asyncio_loop_factories() -> dict[str, Callable[[], RestingLoop]]:
    """Every test of a screen runs on a loop that tells when the game has come to rest."""
    return {"resting": RestingLoop}


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Textual does what a player would wait for, and does the rest once."""
    undrawn(monkeypatch)
    parsed_once(monkeypatch)
    searched_once(monkeypatch)
    read_once(monkeypatch)


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
    told: list[str] = field(default_factory=list)
    """The notices that were shown, in order."""
    was_seen: bool = False
    """Whether a test has looked at the screen."""

    def __post_init__(self) -> None:
        """Listen to the notices."""
        notify = self.app.notify

        def noted(message: str, **how: Any) -> None:
            self.told.append(message)
            notify(message, **how)

        self.app.notify = noted  # type: ignore[method-assign]

    async def until(self, condition: Callable[[], object]) -> None:
        """Wait, within a bound, for what is asserted."""
        for _ in range(PATIENCE):
            await self.settle()
            if condition():
                return
            await asyncio.sleep(0.005)
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
        screen = self.app.screen
        widget = target if isinstance(target, Widget) else screen.query_one(target or "*")
        if target is None:
            widget = screen
        x, y = widget.region.offset + offset
        for event in (events.MouseMove, events.MouseDown, events.MouseUp):
            pressed = 0 if event is events.MouseMove else button
            self.app.post_message(event(None, x, y, 0, 0, pressed, False, False, False))
            await self.settle()

    async def resize(self, columns: int, rows: int) -> None:
        """A window of another size, drawn anew."""
        await self.settle()
        await self.pilot.resize_terminal(columns, rows)
        await self.settle()

    async def settle(self) -> None:
        """Until every message has been dealt with and the screen is laid out."""
        await rest()

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
        self.was_seen = True
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
    """Start a game: `async with start() as game`. Starting again finds the same folders.

    What is on the screen at the end is drawn even if a test has never looked at it.
    """

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
            game = Game(app, pilot, clock)
            yield game
            if app.is_running and not game.was_seen:
                game.rows()

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
