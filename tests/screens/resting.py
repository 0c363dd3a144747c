"""An event loop that tells when it has nothing left to do."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import Executor
from selectors import DefaultSelector, SelectorKey
from typing import Any

SOON = 0.001
"""Seconds: a timer due within them is waited for, such as Textual's tick that lays a screen out."""
PATIENCE = 200_000
"""Rounds of the loop before one that never comes to rest fails its test."""


class RestingSelector(DefaultSelector):  # type: ignore[misc, valid-type]
    """The selector of the system: the loop asks it for events and says how long it could wait."""

    def __init__(self) -> None:
        super().__init__()
        self.waiting: list[asyncio.Future[None]] = []
        self.elsewhere = 0
        """Calls that the loop has handed to other threads and that have not come back."""
        self._rounds = 0

    def select(self, timeout: float | None = None) -> list[tuple[SelectorKey, int]]:
        """Events within some seconds. Who waits for rest is told so when there would be none."""
        if not self.waiting:
            return super().select(timeout)
        self._rounds += 1
        if self._rounds > PATIENCE:
            self._wake(AssertionError("the game never came to rest"))
        if self.elsewhere or (timeout is not None and timeout <= SOON):
            return super().select(timeout)
        events = super().select(0)
        if not events:
            self._wake()
        return events

    def _wake(self, error: Exception | None = None) -> None:
        for future in self.waiting:
            if error is not None:
                future.set_exception(error)
            elif not future.done():
                future.set_result(None)
        self.waiting.clear()
        self._rounds = 0


class RestingLoop(asyncio.SelectorEventLoop):
    """A loop on that selector."""

    def __init__(self) -> None:
        self.selector = RestingSelector()
        super().__init__(self.selector)

    def run_in_executor(
        self, executor: Executor | None, func: Callable[..., Any], *args: Any
    ) -> asyncio.Future[Any]:
        """As asyncio does it; what runs in another thread is not at rest."""
        called = super().run_in_executor(executor, func, *args)
        self.selector.elsewhere += 1
        called.add_done_callback(self._has_come_back)
        return called

    def _has_come_back(self, called: asyncio.Future[Any]) -> None:
        self.selector.elsewhere -= 1

    async def rest(self) -> None:
        """Until no callback is ready, no timer due soon and no call in another thread."""
        future = self.create_future()
        self.selector.waiting.append(future)
        await future


async def rest() -> None:
    """`RestingLoop.rest` of the running loop."""
    loop = asyncio.get_running_loop()
    assert isinstance(loop, RestingLoop)
    await loop.rest()
