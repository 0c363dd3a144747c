"""The settings as a player sees them: a name, the choices, and a line that says what each does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from game.cube.colours import COLOURS, colour_scheme
from game.errors import SettingsError
from game.settings import CHOICES, Settings

YES_NO: Mapping[Any, str] = {True: "yes", False: "no"}


@dataclass(frozen=True)
class Choice:
    """One setting. words: what its values are called, where not by their own name."""

    key: str
    label: str
    help: str
    words: Mapping[Any, str]

    def value_words(self, settings: Settings) -> str:
        """What the value in force is called."""
        value = getattr(settings, self.key)
        return self.words.get(value, str(value))


SETTINGS: tuple[Choice, ...] = (
    Choice("cross", "Cross colour", "The colour of the cross, which is held below.", {}),
    Choice("front", "Front colour", "The colour in front, one of the four beside the cross.", {}),
    Choice(
        "drawing",
        "Drawing",
        "The cube as a solid, unfolded flat, or in plain letters for any terminal.",
        {"cube": "solid", "flat": "flat", "plain": "plain letters"},
    ),
    Choice("letters", "Letters", "Write each sticker's colour on it as a letter.", YES_NO),
    Choice(
        "view",
        "Colouring",
        "Grey out what does not matter, show every sticker, or as each level says.",
        {"level": "as the level says", "focus": "what matters", "full": "every sticker"},
    ),
    Choice(
        "far_side",
        "Far side",
        "Show the far side always, while you ask for it, or never: then infer what it hides.",
        {"asked": "when asked for"},
    ),
    Choice(
        "colours",
        "Colours",
        "How many colours to draw with; automatic asks the terminal.",
        {"auto": "automatic", "true": "all", "256": "256", "16": "16", "none": "no colours"},
    ),
    Choice("animation", "Animation", "See each turn turning; keys never wait for it.", YES_NO),
    Choice(
        "call",
        "Call it",
        "Hide par; once solved you may declare that no shorter way exists.",
        {True: "par is hidden", False: "par is shown"},
    ),
    Choice("player", "Your name", "Kept with your results; it may stay empty.", {"": "(none)"}),
)


def values(key: str, settings: Settings) -> tuple[Any, ...]:
    """The values that a setting may take now; none for a free text."""
    if key == "front":
        return tuple(colour for colour in COLOURS if _fits(settings.cross, colour))
    if key in CHOICES:
        return CHOICES[key]
    return (False, True) if isinstance(getattr(settings, key), bool) else ()


def stepped(key: str, settings: Settings, step: int) -> Settings:
    """The settings with the next value of one of them (step 1) or the one before (-1).

    A front colour that does not lie beside a new cross colour gives way to one that does.
    """
    offered = values(key, settings)
    if not offered:
        return settings
    at = offered.index(getattr(settings, key))
    return changed(key, settings, offered[(at + step) % len(offered)])


def changed(key: str, settings: Settings, value: Any) -> Settings:
    """The settings with one value changed. Raises SettingsError for a value that cannot be."""
    if key == "cross" and not _fits(value, settings.front):
        front = next(colour for colour in COLOURS if _fits(value, colour))
        return replace(settings, cross=value, front=front)
    return replace(settings, **{key: value})


def usual(key: str, settings: Settings) -> Settings:
    """The settings with one of them as it is at first."""
    value = getattr(Settings(), key)
    if key == "front" and not _fits(settings.cross, value):
        value = values(key, settings)[0]
    return changed(key, settings, value)


def _fits(cross: str, front: str) -> bool:
    """Whether the front colour lies beside the cross colour."""
    try:
        colour_scheme(cross, front)
    except SettingsError:
        return False
    return True
