"""What screens know of the app: what it owns and what it does for them. The app fills it in."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

from textual.app import App

from game.errors import PackError
from game.folders import Folders
from game.keeping.keeper import Keeper
from game.settings import Settings

if TYPE_CHECKING:
    from game.atlas import Pars
    from game.draw.depth import Depth
    from game.engine.engine import Engine
    from game.friends.chat import Chat
    from game.packs import Pack
    from game.play.playable import Beside, Playable


class Host(App[int]):
    """An app as screens know it.

    folders, settings: plain values. notices: what is amiss since the start, a line each. keeper:
    the records. moment: when the input that is being handled happened; clock: the time now, on the
    same scale.
    """

    folders: Folders
    settings: Settings
    notices: list[str]
    keeper: Keeper
    clock: Callable[[], float]
    moment: float
    is_ending: bool = False
    """Whether screens are being taken down for good."""

    @property
    @abstractmethod
    def engine(self) -> Engine:
        """Searches in the background."""

    @property
    @abstractmethod
    def packs(self) -> tuple[Pack, ...]:
        """The packs that can be used, in order."""

    @property
    @abstractmethod
    def pack_faults(self) -> tuple[PackError, ...]:
        """What is wrong with the packs that were left out."""

    @cached_property
    def pasted(self) -> Chat:
        """What of friends' contests was pasted since the start."""
        from game.friends.chat import Chat  # noqa: PLC0415 - at the first need

        return Chat()

    @property
    @abstractmethod
    def pars(self) -> Pars:
        """What was ever searched for the atlas."""

    @property
    @abstractmethod
    def depth(self) -> Depth:
        """How many colours to draw with."""

    @property
    @abstractmethod
    def animates(self) -> bool:
        """Whether turns are to be seen turning."""

    @abstractmethod
    def change_settings(self, settings: Settings) -> None:
        """Use these settings from now on and keep them."""

    @abstractmethod
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

    @abstractmethod
    def show_help(self, screen: str) -> None:
        """The help over everything, the keys of this screen first."""
