"""The application: it owns what every screen shares and opens the first one.

    folders, settings, packs     plain values
    record(...)                  the records, which may be unusable: then play goes on without
    engine                       searches in the background
    moment                       when the input now being handled happened
    clock                        the time now, on the same scale

Nothing heavy is imported before the first picture: screens are imported where they are pushed,
NumPy in the engine's thread, SQLite at the first use of the records.
"""

from __future__ import annotations

import asyncio
import os
import signal
import sys
import time
from collections.abc import Callable, Iterable
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from textual import events
from textual.app import App, SystemCommand
from textual.screen import Screen

from game.errors import PackError, RecordsError
from game.folders import Folders
from game.screens import commands
from game.screens.engine import Engine
from game.screens.theme import THEME
from game.settings import Settings, load_settings, save_settings

if TYPE_CHECKING:
    from game.packs import Pack
    from game.records import Records

T = TypeVar("T")


class PairwrightApp(App[int]):
    """The game. clock: seconds that only grow; by default the one that stamps the input."""

    CSS_PATH = "pairwright.tcss"
    TITLE = "Pairwright"
    BINDINGS = commands.bindings("app")

    def __init__(
        self,
        folders: Folders,
        packs: Path | None = None,
        *,
        clock: Callable[[], float] | None = None,
    ) -> None:
        if not os.environ.get("NO_COLOR"):  # empty counts as absent (no-color.org)
            os.environ.pop("NO_COLOR", None)
        super().__init__()
        self.register_theme(THEME)
        self.theme = THEME.name
        self.folders = folders
        self.settings, self._settings_notice = load_settings(folders.settings)
        self.engine = Engine(folders.cache)
        self._packs_folder = packs
        self._own_clock = clock
        self._records: Records | None = None
        self._records_closed = False
        self.clock: Callable[[], float] = clock or time.monotonic
        self.moment = self.clock()

    @cached_property
    def packs(self) -> tuple[Pack, ...]:
        """The packs that can be used, in order; a broken one is told once and left out."""
        from game.packs import load_packs, pack_folder  # noqa: PLC0415

        found, faults = load_packs(self._packs_folder or pack_folder())
        for fault in faults:
            self._tell_fault(fault)
        return found

    def _tell_fault(self, fault: PackError) -> None:
        first, *others = fault.faults
        more = f" (and {len(others)} more faults)" if others else ""
        self.notify(f"A pack is left out. {first}{more}", severity="warning", markup=False)

    # -- records and settings --------------------------------------------------------------------

    def record(self, use: Callable[[Records], T], otherwise: T) -> T:
        """What `use` makes of the records; `otherwise` when they cannot be used.

        The first fault is told in one line; after it the records stay closed.
        """
        if self._records_closed:
            return otherwise
        try:
            if self._records is None:
                from game.records import open_records  # noqa: PLC0415 - SQLite when it is needed

                self._records = open_records(self.folders.records)
            return use(self._records)
        except RecordsError as fault:
            self._records_closed = True
            self.notify(
                f"{fault}\nYou can play on; nothing more is kept.",
                title="Records",
                severity="warning",
                timeout=12,
                markup=False,
            )
            return otherwise

    def change_settings(self, settings: Settings) -> None:
        """Use these settings from now on and keep them."""
        self.settings = settings
        try:
            save_settings(self.folders.settings, settings)
        except OSError as fault:
            problem = f"The settings cannot be kept: {fault.strerror or fault}"
            self.notify(problem, severity="warning", markup=False)

    # -- life ------------------------------------------------------------------------------------

    def get_default_screen(self) -> Screen[None]:
        """Home; what is pushed on it in the first five minutes leads back there."""
        from game.screens.home import HomeScreen  # noqa: PLC0415 - imported where it is pushed

        return HomeScreen()

    def on_mount(self) -> None:
        """Leave cleanly when told to by the system, and load the engine after the first picture."""
        loop = asyncio.get_running_loop()
        if sys.platform != "win32":
            for number in (signal.SIGTERM, signal.SIGHUP):
                loop.add_signal_handler(number, partial(self.exit, 128 + number))
        if self._settings_notice:
            self.notify(self._settings_notice, severity="warning", markup=False)
        self.call_after_refresh(self.engine.start)

    def on_unmount(self) -> None:
        """Stop the search and close the records."""
        self.engine.stop()
        if self._records is not None:
            self._records.close()
            self._records = None
            self._records_closed = True

    async def on_event(self, event: events.Event) -> None:
        """Note when each key or click happened, as the input thread stamped it."""
        if isinstance(event, events.InputEvent):
            self.moment = event.time if self._own_clock is None else self.clock()
        await super().on_event(event)

    # -- the palette -----------------------------------------------------------------------------

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The commands of the screen in front, from the one table."""
        name = getattr(screen, "COMMAND_SCREEN", "")
        for command in commands.of_screen(name):
            if not command.each and screen.check_action(command.action, ()):
                action = partial(screen.run_action, command.action)
                yield SystemCommand(command.label.capitalize(), command.help, action)


def run(folders: Folders, packs: Path | None = None) -> int:
    """Play until the player leaves; the exit status. packs: a folder instead of the usual one."""
    status = PairwrightApp(folders, packs).run()
    return status or 0
