"""The settings as a player sees them."""

from __future__ import annotations

import pytest

from game.cube.colours import COLOURS, HOME_COLOURS
from game.screens.shared.choices import SETTINGS, Choice, changed, stepped, usual, values
from game.settings import KEYS, Settings

OPPOSITE = {"white": "yellow", "green": "blue", "red": "orange"}
OPPOSITE |= {b: a for a, b in OPPOSITE.items()}
"""The usual colour scheme (common practice, no source)."""


def test_every_setting_has_a_row() -> None:
    """Each setting that is kept can be changed on the screen, and has a line that explains it."""
    assert sorted(choice.key for choice in SETTINGS) == sorted(KEYS)
    assert all(choice.help.endswith(".") for choice in SETTINGS)


@pytest.mark.parametrize("cross", COLOURS)
def test_only_neighbours_are_offered_in_front(cross: str) -> None:
    """The front colours offered are the four that are neither the cross colour nor its opposite."""
    settings = changed("cross", Settings(), cross)
    assert set(values("front", settings)) == set(COLOURS) - {cross, OPPOSITE[cross]}
    assert settings.front in values("front", settings)


def test_a_front_that_still_fits_stays() -> None:
    """A new cross colour keeps the front colour where it can."""
    assert changed("cross", Settings(front="red"), "blue").front == "red"
    assert changed("cross", Settings(front="green"), "blue").front != "green"


@pytest.mark.parametrize("choice", SETTINGS, ids=lambda choice: choice.key)
def test_steps_go_round(choice: Choice) -> None:
    """Stepping on through all values of a setting comes back to the first, and back undoes it."""
    key, start = choice.key, Settings()
    seen = [start]
    for _ in values(key, start):
        seen.append(stepped(key, seen[-1], 1))
        if key != "cross":  # a new cross colour may have moved the front colour for good
            assert stepped(key, seen[-1], -1) == seen[-2]
    assert getattr(seen[-1], key) == getattr(start, key)
    assert len({getattr(each, key) for each in seen}) == max(1, len(values(key, start)))


def test_as_usual() -> None:
    """A setting goes back to its first value; a front colour only to one beside the cross."""
    assert usual("drawing", Settings(drawing="flat")) == Settings()
    assert usual("front", Settings(cross="blue", front="red")).front in values(
        "front", Settings(cross="blue", front="red")
    )
    assert usual("cross", Settings(cross="green", front="white")).cross == HOME_COLOURS["D"]
