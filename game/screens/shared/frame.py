"""What every screen has: one way to leave, help, and nothing that runs after it has gone.

Most have the frame besides: a title row, a body, the key bar.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Iterable
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.css.query import NoMatches
from textual.message import Message
from textual.screen import ScreenResultType
from textual.widget import Widget
from textual.widgets import Static

from game.screens.shared import keys, too_small
from game.screens.shared.host import Host
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.leaving import LeftOnce
from game.screens.shared.listening import Listener
from game.screens.shared.too_small import TooSmall

MUTED, WARN, ERROR = "$muted", "$warning", "$error"
"""Tones of what is said: in passing, a refusal, a fault."""


class BaseScreen(Listener, LeftOnce[ScreenResultType]):
    """A screen of the game. `COMMAND_SCREEN` names it in the table of keys.

    Three rules hold for all of them, whatever comes in which order: what is to run later runs only
    while the screen stands; keys wait until it has its parts (the app sees to that); and it is
    left once.
    """

    COMMAND_SCREEN: ClassVar[str]
    HORIZONTAL_BREAKPOINTS = too_small.HORIZONTAL_BREAKPOINTS
    VERTICAL_BREAKPOINTS = too_small.VERTICAL_BREAKPOINTS
    app: Host

    @property
    def stands(self) -> bool:
        """Whether the screen has its parts and has not been left."""
        is_there = self.is_mounted and self.is_attached and not self._pruning
        return is_there and not self.has_left and not self.app.is_ending

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A command is carried out while the screen stands and allows it."""
        if not keys.is_of(self.COMMAND_SCREEN, action):
            return True
        return self.stands and self.allows(action)

    def allows(self, action: str) -> bool:
        """Whether a command of this screen can be carried out now; its parts are there."""
        return True

    def call_after_refresh(self, callback: Callable[..., Any], *args: Any, **kwargs: Any) -> bool:
        """As Textual does it, but nothing is called once the screen has gone."""
        return super().call_after_refresh(self._if_it_stands, callback, args, kwargs)

    def _if_it_stands(
        self, callback: Callable[..., Any], args: tuple[Any, ...], kwargs: dict[str, Any]
    ) -> Any:
        if not self.is_mounted and not self.has_left:  # its own queue waits until it is
            return self.call_later(callback, *args, **kwargs)
        return callback(*args, **kwargs) if self.stands else None

    async def _on_message(self, message: Message) -> None:
        """Handle a message; a screen that is being taken down may have lost its parts by then."""
        try:
            await super()._on_message(message)
        except NoMatches:
            if self.stands:
                raise

    def leave(self, result: ScreenResultType | None = None) -> None:
        """Go to the screen below, once; not from beneath another screen."""
        self.dismiss(result)

    def put_aside(self) -> None:
        """Keep what is in hand here, as when the screen is left."""

    @property
    def names(self) -> Iterable[str]:
        """Names of people that are shown here, which are told to nobody else."""
        return ()

    def action_help(self) -> None:
        """Every key of this screen, and how turns are counted."""
        self.app.show_help(self.COMMAND_SCREEN)


class FramedScreen(BaseScreen[None]):
    """A screen with a title row, a body and the key bar.

    HAS_TITLE: whether there is the title row. SAID: the place of its message, where that is a
    widget of its own.
    """

    HAS_TITLE: ClassVar[bool] = True
    SAID: ClassVar[str] = ""
    said = ("", MUTED)
    """What the message says, and its tone."""

    def compose(self) -> ComposeResult:
        """Title, body and keys; and what is shown instead in a window that is too small."""
        with Vertical(classes="frame"):
            if self.HAS_TITLE:
                with Horizontal(classes="frame-title"):
                    yield Static(classes="frame-name")
                    yield Static(classes="frame-aside")
            yield from self.body()
        yield KeyBar(self.COMMAND_SCREEN)
        yield TooSmall()

    @abstractmethod
    def body(self) -> Iterable[Widget]:
        """What stands between the title and the keys."""

    def entitle(self, name: str | Content, aside: str | Content = "") -> None:
        """Write the title row: the screen's name, and something at the right."""
        for place, said in ((".frame-name", name), (".frame-aside", aside)):
            plain = Content(said) if isinstance(said, str) else said
            self.query_one(place, Static).update(plain)

    def say(self, said: str, tone: str = MUTED) -> None:
        """Have the message say something else."""
        self.said = (said, tone)
        if self.is_attached and not self.has_left:
            self.show_said()

    def show_said(self) -> None:
        """Show the message as it is."""
        self.query_one(self.SAID, Static).update(Content.styled(*self.said))

    def action_back(self) -> None:
        """To the screen below."""
        self.leave()
