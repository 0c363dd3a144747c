"""Keys in their turn: some wait until what they are meant for is there."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING, Any

from textual import events
from textual.screen import Screen

if TYPE_CHECKING:
    from game.screens.shared.host import Host


class KeyQueue:
    """Hands keys on, one after another.

    A key waits until the screen in front has its parts, and behind one that opens a line to type
    in until that is open: a key first goes to the screen and then comes back to be looked up, so
    that the next keys of a burst would be sent out before there is a line for them. What is
    written into a field stays there: it opens nothing, and nothing may wait for it to come back.

    send: hands a key on. note: is told each key in its turn, and whether a field takes it.
    """

    def __init__(
        self,
        host: Host,
        send: Callable[[events.Key], Awaitable[None]],
        note: Callable[[events.Key, bool], None],
    ) -> None:
        self._host = host
        self._send = send
        self._note = note
        self._opener: tuple[events.Key | None, Screen[Any] | None] = (None, None)
        self._waiting: list[events.Key] = []
        self._awaited: Screen[Any] | None = None  # the screen that is to tell when it has its parts

    async def take(self, event: events.Key) -> None:
        """A key was pressed, or comes back from the screen."""
        host = self._host
        opener, screen = self._opener
        if not event.is_forwarded:
            if not self._is_ready() or (opener is not None and screen is host.screen):
                self._waiting.append(event)
                return
            await self._release()  # a screen that was left took the opener with it
            field = host.focused
            is_written = field is not None and field.check_consume_key(event.key, event.character)
            self._note(event, is_written)
            if not is_written and getattr(host.screen, "opens_line", _opens_none)(event.key):
                self._opener = (event, host.screen)
        await self._send(event)
        if event.is_forwarded and event is opener:
            await self._release()

    def _is_ready(self) -> bool:
        """Whether the screen in front has its parts; if not, it tells as soon as it has."""
        screen = self._host.screen
        if screen.is_mounted or screen is self._awaited:
            return screen.is_mounted
        self._awaited = screen
        screen.call_later(self._release)
        return False

    async def _release(self) -> None:
        """Hand on what waited."""
        self._opener = (None, None)
        waiting, self._waiting = self._waiting, []
        for event in waiting:
            await self.take(event)


def _opens_none(key: str) -> bool:
    return False
