"""An event loop that tells when it has nothing left to do."""

from __future__ import annotations

import asyncio
from selectors import DefaultSelector, SelectorKey

SOON = 0.001
"""Seconds: a timer due within them is waited for, such as Textual's tick that lays a screen out."""
PATIENCE = 200_000
"""Rounds of the loop before one that never comes to rest fails its test."""


class RestingSelector(DefaultSelector):  # type: ignore[misc, valid-type]
    """The selector of the system: the loop asks it for events and says how long it could wait."""

    def __init__(self) -> None:
        super().__init__()
        self.waiting: list[asyncio.Future[None]] = []
        self.rounds = 0

    def select(self, timeout: float | None = None) -> list[tuple[SelectorKey, int]]:
        """Events within some seconds. Who waits for rest is told so when there would be none."""
        if not self.waiting:
            return super().select(timeout)
        self.rounds += 1
        if timeout is not None and timeout <= SOON:
            events = super().select(timeout)
            if self.rounds > PATIENCE:
                self._wake(AssertionError("the game never came to rest"))
            return events
        events = super().select(0)
        if not events:
            self._wake(None)
        return events

    def _wake(self, error: Exception | None) -> None:
        for future in self.waiting:
            if error is not None:
                future.set_exception(error)
            elif not future.done():
                future.set_result(None)
        self.waiting.clear()
        self.rounds = 0


class RestingLoop(asyncio.SelectorEventLoop):
    """A loop on that selector."""

    def __init__(self) -> None:
        self.selector = RestingSelector()
        super().__init__(self.selector)

    async def rest(self) -> None:
        """Until no callback is ready and no timer due soon: all messages have been dealt with."""
        future = self.create_future()
        self.selector.waiting.append(future)
        await future


async def rest() -> None:
    """`RestingLoop.rest` of the running loop."""
    loop = asyncio.get_running_loop()
    assert isinstance(loop, RestingLoop)
    await loop.rest()
