"""Running the game from its start to its end, by the player or by a signal of the system.

asyncio's own handling of signals loses one that comes while hundreds of keys arrive: both go
through one pipe, which then is full. So they are caught here and only handed to the loop.
"""

from __future__ import annotations

import asyncio
import signal
import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from game.folders import Folders
from game.screens.app import PairwrightApp

if TYPE_CHECKING:
    from game.friends.contest import Contest

ENDING = [
    getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)
]
"""Signals that end the game in good order."""


def run(folders: Folders, packs: Path | None = None, *, contest: Contest | None = None) -> int:
    """Play until the player leaves; the exit status.

    packs: a folder instead of the usual one; contest: to be opened first.
    """
    app = PairwrightApp(folders, packs)
    app.contest = contest
    app.lands_softly = True
    before = {number: signal.signal(number, partial(_end, app)) for number in ENDING}
    try:
        status = app.run()
    except Exception as error:  # not even Textual foresaw it
        app._handle_exception(error)
        status = None
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
    for line in app.last_words:
        print(f"pairwright: {line}", file=sys.stderr)
    return app.return_code or 0 if status is None else status


def _end(app: PairwrightApp, number: int, _frame: object) -> None:
    """Have the game leave cleanly with the signal's status; called within the signal."""
    try:
        loop = asyncio.get_running_loop()
    except RuntimeError:  # nothing is shown yet, or no more
        sys.exit(128 + number)
    loop.call_soon_threadsafe(app.exit, 128 + number)
