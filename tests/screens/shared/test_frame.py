"""What every screen has in common."""

from __future__ import annotations

from importlib import import_module

import pytest
from textual.screen import Screen

from game.screens.shared.frame import BaseScreen, FramedScreen
from game.screens.shared.leaving import LeftOnce
from tests.test_floors import MODULES

SHARED = (BaseScreen, FramedScreen, LeftOnce)


def screen_classes() -> list[type[Screen[object]]]:
    """Every class of a screen that the game defines."""
    modules = [import_module(name) for name in MODULES if name.startswith("game.screens.")]
    return sorted(
        {
            value
            for module in modules
            for value in vars(module).values()
            if isinstance(value, type)
            and issubclass(value, Screen)
            and value.__module__.startswith("game.")
        },
        key=lambda found: found.__qualname__,
    )


@pytest.mark.parametrize("found", screen_classes(), ids=lambda found: found.__qualname__)
def test_no_screen_is_built_on_many_others(found: type[Screen[object]]) -> None:
    """A screen is one of ours that shares the base, and at most two classes deep below it."""
    assert issubclass(found, LeftOnce)
    above = [
        base
        for base in found.__mro__
        if issubclass(base, Screen) and base.__module__.startswith("game.") and base not in SHARED
    ]
    assert len(above) <= 2, above


def test_all_screens_are_looked_at() -> None:
    """The test above can fail: it sees the screens that there are."""
    names = {found.__qualname__ for found in screen_classes()}
    assert {"PlayScreen", "RoundScreen", "CurtainScreen", "HomeScreen"} <= names


BOTH = {"on_mount", "on_unmount", "on_resize", "on_screen_resume", "on_screen_suspend"}
"""What the screens of a line of classes may each do for themselves."""


@pytest.mark.parametrize("found", screen_classes(), ids=lambda found: found.__qualname__)
def test_no_message_is_answered_twice(found: type[Screen[object]]) -> None:
    """Textual calls the handler of every class of a screen: none stands beside one it inherits."""
    handlers = [
        name
        for base in found.__mro__
        if base.__module__.startswith("game.")
        for name in vars(base)
        if name.startswith("on_") and name not in BOTH
    ]
    assert sorted(handlers) == sorted(set(handlers))
