"""What a monkey does, as plain values: drawn from a seed, kept in a list, played anew from it."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Any

from game.friends.codes import invite_code
from game.screens.shared.keys import COMMANDS
from tests.screens.friends import CONTEST

Event = tuple[Any, ...]
"""What is done and how: ("key", "r"), ("click", x, y, button), ("resize", columns, rows), ..."""

KEYS = sorted({key for command in COMMANDS for key in command.keys})
OTHERS = (
    "escape", "enter", "space", "tab", "shift+tab", "up", "down", "left", "right", "home", "end",
    "pageup", "pagedown", "backspace", "delete", "ctrl+p", "ctrl+a", "ctrl+w", "ctrl+k", "ctrl+c",
    "ctrl+z", "f1", "f5", "shift+f", "alt+x", "insert", "R", "U", "L", "F", "D", "B", "é", "ж", "1",
)  # fmt: skip
PASTES = (
    "R U R' U'", "R U R'", "U2 " * 400, "\x00\x07\x1b[31m", "\ud800\udfff", "ﬀ", "", "\n" * 50,
    invite_code(CONTEST), invite_code(CONTEST)[:-9], "EPAIRV1", "EPAIR" * 60, "hello, all",
    "(R U R')3 // and so on", "'; DROP TABLE attempt; --", "x" * 20_000,
)  # fmt: skip
HOME = "cdagrktms"
"""The keys that lead from home to everything there is."""
LEAST, MOST = (20, 5), (400, 100)
"""The smallest window and the largest."""


def events(seed: int, count: int, window: tuple[int, int]) -> Iterator[Event]:
    """So many events, the same for a seed; a run of them is drawn around one mood at a time."""
    dice = random.Random(seed)
    done = 0
    while done < count:
        for event in _spell(dice, window):
            yield event
            done += 1
            if done == count:
                return


def _spell(  # noqa: PLR0912 - a mood each
    dice: random.Random, window: tuple[int, int]
) -> Iterator[Event]:
    """A few events of one mood, with or without waiting for what comes of them."""
    match dice.randrange(12):
        case 0 | 1 | 2:
            yield from (("key", dice.choice(KEYS)) for _ in range(dice.randint(1, 25)))
        case 3:
            yield from (("key", dice.choice((*KEYS, *OTHERS))) for _ in range(dice.randint(1, 15)))
        case 4:
            yield from (("key", "escape") for _ in range(dice.randint(1, 6)))
        case 5:  # go home, and from there somewhere
            yield from (("key", "escape") for _ in range(dice.randint(2, 5)))
            yield ("settle",)
            yield ("key", dice.choice(HOME))
            yield from (("settle",) for _ in range(dice.randint(0, 1)))
            yield ("key", "enter")
        case 6:
            yield from (("key", dice.choice("rRuUfFlL")) for _ in range(dice.randint(3, 30)))
        case 7:
            for _ in range(dice.randint(1, 8)):
                x, y = dice.randrange(window[0] + 5), dice.randrange(window[1] + 3)
                if dice.random() < 0.2:
                    yield ("drag", x, y, dice.randrange(window[0]), dice.randrange(window[1]))
                else:
                    yield ("click", x, y, dice.choice((1, 1, 1, 3, 2)))
        case 8:
            if dice.random() < 0.4:
                yield ("key", dice.choice("tp"))
            yield ("paste", dice.choice(PASTES))
            yield ("key", dice.choice(("enter", "escape", "tab")))
        case 9:
            for _ in range(dice.randint(1, 4)):
                columns = dice.choice((20, 59, 60, 80, 120, 400, dice.randint(LEAST[0], MOST[0])))
                rows = dice.choice((5, 19, 20, 24, 40, 100, dice.randint(LEAST[1], MOST[1])))
                yield ("resize", columns, rows)
                yield ("key", dice.choice(("pageup", "pagedown", "enter", "end", "escape")))
            yield ("resize", *window)
        case 10:
            yield ("focus", dice.random() < 0.5)
            yield ("focus", True)
        case 11:
            yield ("clock", dice.choice((0.01, 0.4, 3.0, 9.0, 16.0, 700.0)))
            yield ("wait", dice.randint(0, 3))
    if dice.random() < 0.35:
        yield ("settle",)
