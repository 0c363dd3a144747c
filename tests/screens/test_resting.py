"""The loop on which the screens are tested rests when nothing is left to do, and not before."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Awaitable, Callable

import pytest

from tests.screens.resting import SOON, rest

done: list[str] = []


async def chain(length: int) -> None:
    """One callback after the other, each ready only after the one before."""
    for _ in range(length):
        await asyncio.sleep(0)
    done.append("chain")


async def soon() -> None:
    """What Textual's tick does: wait for next to nothing, then begin something."""
    await asyncio.sleep(SOON / 10)
    await chain(5)
    await asyncio.sleep(SOON / 10)
    done.append("soon")


async def elsewhere() -> None:
    """What another thread does for the loop."""
    await asyncio.to_thread(time.sleep, 0.01)
    done.append("elsewhere")


async def later() -> None:
    """What nobody waits for."""
    await asyncio.sleep(60)
    done.append("later")


@pytest.mark.parametrize(
    ("work", "names"),
    [
        (lambda: chain(100), ["chain"]),
        (soon, ["chain", "soon"]),
        (elsewhere, ["elsewhere"]),
        (later, []),
    ],
)
async def test_rest_comes_after_all_work(work: Callable[[], Awaitable[None]], names: str) -> None:
    """Callbacks, timers that are due soon and other threads come first; a later timer does not."""
    done.clear()
    task = asyncio.ensure_future(work())
    await rest()
    assert done == names
    await rest()
    task.cancel()


async def test_a_loop_that_never_rests_fails() -> None:
    """Work that begets work without end is given up instead of hanging the run."""

    def again() -> None:
        nonlocal handle
        handle = asyncio.get_running_loop().call_soon(again)

    handle = asyncio.get_running_loop().call_soon(again)
    with pytest.raises(AssertionError, match="never came to rest"):
        await rest()
    handle.cancel()
