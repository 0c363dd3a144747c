"""A soft landing: what nobody foresaw ends the game as leaving it does, and a file tells of it."""

from __future__ import annotations

from collections import deque
from contextlib import suppress
from datetime import datetime
from typing import TYPE_CHECKING

from textual import events

from game import mishap
from game.screens.shared.frame import BaseScreen

if TYPE_CHECKING:
    from game.screens.shared.host import Host

WRITTEN = "(typed)"
"""In place of a key that is written into a field: it may be part of a name."""


class Landing:
    """Remembers the last keys of a game, and brings it to its end when something is raised."""

    def __init__(self, host: Host) -> None:
        self._host = host
        self._keys: deque[str] = deque(maxlen=mishap.MOST_KEYS)
        self.has_begun = False
        """Whether something was raised."""

    def note(self, event: events.Key, is_written: bool) -> None:
        """A key was pressed."""
        self._keys.append(WRITTEN if is_written else event.key)

    def begin(self, error: BaseException) -> str:
        """Keep what is in hand, as when one leaves, and tell of it; the line for the player."""
        self.has_begun = True
        screens = [screen for screen in self._host.screen_stack if isinstance(screen, BaseScreen)]
        for screen in reversed(screens):
            with suppress(Exception):  # what is broken may break again
                screen.put_aside()
        names = {self._host.settings.player}
        for screen in screens:
            with suppress(Exception):
                names.update(screen.names)
        with suppress(Exception):
            for cards in self._host.pasted.cards.values():
                names.update(card.name for card in cards)
        path = mishap.keep(
            self._host.folders.mishaps,
            error,
            datetime.now().astimezone(),
            facts={
                "screens": " > ".join(type(screen).__name__ for screen in screens),
                "window": f"{self._host.size.width} x {self._host.size.height}",
                "colours": self._host.depth,
            },
            keys=self._keys,
            names=names,
        )
        return mishap.words(path)
