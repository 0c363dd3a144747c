"""The application: it owns what every screen shares and opens the first one.

    folders, settings, packs     plain values
    notices                      what is amiss since the start, a line each
    keeper                       the records, which may be unusable: then play goes on without
    engine                       searches in the background
    contest                      to be opened first, None for home
    lands_softly                 whether a fault ends the game in good order, told in a file
    moment                       when the input now being handled happened
    clock                        the time now, on the same scale

Nothing heavy is imported before the first picture: screens are imported where they are pushed,
NumPy in the engine's thread, SQLite at the first use of the records.
"""

from __future__ import annotations

import gc
import os
import sys
import time
from collections.abc import Callable, Iterable
from dataclasses import asdict, replace
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from textual import events
from textual.app import SystemCommand
from textual.screen import Screen
from textual.worker import WorkerFailed

from game import mishap
from game.errors import PackError, SettingsError
from game.folders import Folders
from game.keeping.keeper import Keeper
from game.packs.opening import first_puzzle
from game.screens.key_queue import KeyQueue
from game.screens.mishaps import Landing
from game.screens.shared import keys
from game.screens.shared.host import Host
from game.screens.shared.looks import colour_depth
from game.screens.shared.theme import THEME
from game.settings import Settings, load_settings, save_settings

if TYPE_CHECKING:
    from rich.console import RenderableType
    from textual.driver import Driver
    from textual.theme import Theme

    from game.atlas import Pars
    from game.draw.depth import Depth
    from game.engine.engine import Engine
    from game.friends.contest import Contest
    from game.packs import Pack, Puzzle
    from game.play.playable import Beside, Playable
    from game.records import Records

SETTLE_SECONDS = 0.05
"""From the first picture to the work that it did not need: first it is to reach the terminal."""
LATEST_SECONDS = 1.0
"""From the start, whatever has been seen by then, to the same."""


class PairwrightApp(Host):
    """The game. clock: seconds that only grow; by default the one that stamps the input."""

    CSS_PATH = Path(__file__).with_name("pairwright.tcss")
    TITLE = "Pairwright"
    BINDINGS = keys.bindings("app")

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
        self.set_reactive(Host.theme, THEME.name)  # unwatched: it has been in force all along
        self.folders = folders
        self.notices: list[str] = []
        self.settings, told = load_settings(folders.settings)
        if told:
            self.notices.append(told)
        self.keeper = Keeper(
            folders.records,
            lambda: self.engine,
            tell=partial(self._warn, title="Records"),
            lasting=self._tell_lasting,
            soon=self.call_later,
        )
        self.contest: Contest | None = None
        self._packs_folder = packs
        self._own_clock = clock
        self.last_words: list[str] = []  # for when the screen is gone
        self.lands_softly = False
        self._landing = Landing(self)
        self._keys = KeyQueue(self, self._send_key, self._landing.note)
        self.clock: Callable[[], float] = clock or time.monotonic
        self.moment = self.clock()

    @property
    def current_theme(self) -> Theme:
        """The only one, before it is registered too: its colours are worked out once."""
        return THEME

    @cached_property
    def engine(self) -> Engine:
        """Searches in the background."""
        from game.engine.engine import Engine  # noqa: PLC0415 - home does not ask it anything

        return Engine(self.folders.cache)

    @cached_property
    def _loaded(self) -> tuple[tuple[Pack, ...], tuple[PackError, ...]]:
        from game.packs import all_packs, pack_folder  # noqa: PLC0415 - at the first need

        packs, faults = all_packs(self._packs_folder or pack_folder(), self.folders.packs)
        if faults:
            count = "A pack was" if len(faults) == 1 else f"{len(faults)} packs were"
            self.notices.append(f"{count} left out for faults: p tells which.")
        return packs, faults

    @property
    def packs(self) -> tuple[Pack, ...]:
        """The packs that can be used, in order."""
        return self._loaded[0]

    @property
    def pack_faults(self) -> tuple[PackError, ...]:
        """What is wrong with the packs that were left out."""
        return self._loaded[1]

    # -- records and settings --------------------------------------------------------------------

    def _tell_lasting(self, told: str) -> None:
        self.notices.append(told)
        self._warn(told, "Records")

    def _warn(self, problem: str, title: str = "") -> None:
        self.notify(problem, title=title, severity="warning", timeout=12, markup=False)

    @cached_property
    def pars(self) -> Pars:
        """What was ever searched for the atlas."""
        from game.atlas import Pars  # noqa: PLC0415 - at the first need

        return Pars()

    @property
    def depth(self) -> Depth:
        """How many colours to draw with."""
        return colour_depth(self.settings, self.console, no_color=self.no_color)

    def _keep_inks(self) -> None:
        """With 16 colours, let their indices through to the terminal as they are."""
        self.ansi_color = True if self.depth == "16" else None

    @property
    def animates(self) -> bool:
        """Whether turns are to be seen turning; not before NumPy is there to draw them."""
        wanted = self.settings.animation and self.animation_level != "none"
        return wanted and self.engine.is_awake

    def change_settings(self, settings: Settings) -> None:
        """Use these settings from now on and keep them.

        What somebody else has changed in the file meanwhile is kept, and used from now on too.
        """
        changed = {
            name: value
            for name, value in asdict(settings).items()
            if value != getattr(self.settings, name)
        }
        there, told = load_settings(self.folders.settings)
        if told:
            self._warn(told, "Settings")
        settings = replace(there, **changed)
        self.settings = settings
        self._keep_inks()
        try:
            save_settings(self.folders.settings, settings)
        except SettingsError as fault:
            self._warn(str(fault), "Settings")

    def get_screen(self, *args: Any, **options: Any) -> Any:
        """The screen, its styles added. Those that Textual finds new make it parse all anew."""
        found = super().get_screen(*args, **options)
        for path in map(Path, found.css_path):
            if not self.stylesheet.has_source(str(path)):
                self.stylesheet.add_source(path.read_text("utf-8"), (str(path), ""))
        return found

    # -- life ------------------------------------------------------------------------------------

    def get_driver_class(self) -> type[Driver]:
        """Textual's choice, with ours in place of its driver for Unix."""
        found = super().get_driver_class()
        if found.__module__ != "textual.drivers.linux_driver":
            return found
        from game.screens.driver import TerminalDriver  # noqa: PLC0415 - not on every system

        return TerminalDriver

    def _after_first_picture(self) -> None:
        """Load the engine; collect garbage from now on, but not among what start-up made."""
        if self.engine.has_started:
            return
        self.engine.start()
        if not gc.isenabled():
            gc.freeze()
            gc.enable()

    @cached_property
    def first_level(self) -> Puzzle | None:
        """The level that comes before home at the very first start, when nothing was ever played.

        Neither home nor the other packs are loaded then: the first picture comes the sooner.
        """
        if self.contest is not None:
            return None
        if self.keeper.has_records and not self.keeper.record(_is_untouched, True):
            return None
        in_hand = self.keeper.record(_in_hand, ()) if self.keeper.has_records else ()
        return first_puzzle(self._first_pack() or self.packs, in_hand)

    def get_default_screen(self) -> Screen[Any]:
        """What lies below all other screens: home, unless the first level comes before it."""
        if self.first_level is not None:
            return super().get_default_screen()
        from game.screens.home.screen import HomeScreen  # noqa: PLC0415 - imported where it is opened

        home: Screen[Any] = self.get_screen(HomeScreen())
        return home

    def open_first(self) -> None:
        """Over home, the contest that the command was given; without home, the first level."""
        if self.contest is not None:
            self.call_later(self._join, self.contest)
        elif self.first_level is not None:
            from game.screens.play.casual import CasualRules, PlayScreen  # noqa: PLC0415 - likewise

            self.push_screen(PlayScreen(CasualRules(self.first_level)), self.go_home)

    def _first_pack(self) -> tuple[Pack, ...]:
        """The first pack alone; () if it cannot be used."""
        from game.packs import load_pack, pack_folder  # noqa: PLC0415 - at the first need

        paths = sorted((self._packs_folder or pack_folder()).glob("*.toml"))
        try:
            return tuple(map(load_pack, paths[:1]))
        except PackError:
            return ()

    async def go_home(self, to_map: bool | None = False) -> None:
        """Home, and from there to the map if so asked."""
        from game.screens.home.screen import HomeScreen  # noqa: PLC0415 - likewise

        home = HomeScreen()
        await self.push_screen(home)
        if to_map:
            home.action_map()

    def _join(self, contest: Contest) -> None:
        """From home to a contest."""
        from game.keeping import contests  # noqa: PLC0415 - likewise
        from game.screens.contests.screen import ContestScreen  # noqa: PLC0415 - likewise

        self.push_screen(ContestScreen(contests.entry_for(self.keeper, contest)))

    def play(
        self,
        puzzle: Playable,
        then: Callable[[Playable, bool], None],
        beside: Beside | None = None,
    ) -> None:
        """Play this puzzle and those that follow it.

        then: called when the player is back, with the last one played and whether the map is to
        come next. beside: what comes next and before; None for the levels of packs.
        """
        from game.screens.play.casual import CasualRules, PlayScreen  # noqa: PLC0415 - likewise

        screen = PlayScreen(CasualRules(puzzle, beside))
        self.push_screen(screen, lambda to_map: then(screen.sitting.puzzle, bool(to_map)))

    def show_help(self, screen: str) -> None:
        """The help over everything, the keys of this screen first."""
        from game.screens.shared.help import HelpScreen  # noqa: PLC0415 - likewise

        self.push_screen(HelpScreen(screen))

    def on_mount(self) -> None:
        """Load the engine after the first picture."""
        self._keep_inks()
        self.open_first()
        self.call_after_refresh(self.set_timer, SETTLE_SECONDS, self._after_first_picture)
        # A first screen that is covered before it was drawn never says that it was.
        self.set_timer(LATEST_SECONDS, self._after_first_picture)

    async def _shutdown(self) -> None:
        self.is_ending = True
        await super()._shutdown()

    def on_unmount(self) -> None:
        """Stop the search and close the records."""
        if "engine" in self.__dict__:
            self.engine.stop()
        self.last_words += self.keeper.close()

    def _handle_exception(self, error: Exception) -> None:
        """Something was raised that nobody foresaw: end the game, softly where that is wanted.

        Once the game is ending, a screen that was half built then may fail unheard.
        """
        if self._exit or self._landing.has_begun:
            return
        if isinstance(error, WorkerFailed) and isinstance(error.error, Exception):
            error = error.error  # what was raised in the worker, with its own traceback
        if not self.lands_softly:
            super()._handle_exception(error)
            return
        self.last_words.append(self._landing.begin(error))
        self.exit(return_code=mishap.STATUS)
        self._close_messages_no_wait()  # its own queue may be what broke

    def panic(self, *renderables: RenderableType) -> None:
        """Textual's own way to end at once, with a traceback; here as above."""
        if self.lands_softly:
            error = sys.exception()
            told = error if isinstance(error, Exception) else RuntimeError("it cannot go on")
            self._handle_exception(told)
        else:
            super().panic(*renderables)

    async def on_event(self, event: events.Event) -> None:
        """Note when each key or click happened, as the input thread stamped it.

        Once the game is ending, what is left of a burst does nothing more.
        """
        if isinstance(event, events.InputEvent):
            if self._exit or not self.screen_stack:
                return
            self.moment = event.time if self._own_clock is None else self.clock()
        if isinstance(event, events.Key):
            await self._keys.take(event)
        else:
            await super().on_event(event)

    async def _send_key(self, event: events.Key) -> None:
        await super().on_event(event)

    def action_command_palette(self) -> None:
        """Show the palette, unless it is open."""
        from game.screens.shared.palette import Palette  # noqa: PLC0415 - when it is asked for

        if not any(isinstance(screen, Palette) for screen in self.screen_stack):
            self.push_screen(Palette(id="--command-palette"))

    def action_help_quit(self) -> None:
        """Ctrl-C ends nothing; say what does."""
        self.notify("q leads back from every screen, and from home out of the game.")

    # -- the palette -----------------------------------------------------------------------------

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The commands of the screen in front, from the one table."""
        name = getattr(screen, "COMMAND_SCREEN", "")
        for command in keys.of_screen(name):
            if not command.each and screen.check_action(command.action, ()):
                action = partial(screen.run_action, command.action)
                yield SystemCommand(command.label.capitalize(), command.help, action)


def _is_untouched(records: Records) -> bool:
    """Whether nothing was played to its end, and no run, match or contest was begun."""
    return records.is_empty and not records.has_runs


def _in_hand(records: Records) -> tuple[str, ...]:
    return records.positions_in_hand()
