"""How cubes are drawn here: what the settings ask for, as far as the terminal can show it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, cast

from rich.console import Console

from game.cube.colours import colour_scheme
from game.play.position import Position
from game.settings import Settings

if TYPE_CHECKING:
    from game.draw.depth import Depth
    from game.draw.look import Look

_DEPTHS: dict[str | None, Depth] = {"truecolor": "true", "256": "256"}


def colour_depth(settings: Settings, console: Console, *, no_color: bool) -> Depth:
    """How many colours to draw with; "auto" asks the terminal, and NO_COLOR means none."""
    if settings.colours != "auto":
        return cast("Depth", settings.colours)
    if no_color or console.color_system is None:
        return "none"
    return _DEPTHS.get(console.color_system, "16")


def look_of(settings: Settings, depth: Depth, position: Position) -> Look:
    """A look of any size for a position: its first pair's side is the side that is seen."""
    from game.draw.look import Look  # noqa: PLC0415 - home's words do not wait for its picture

    leans_left = any("L" in slot for slot in position.pairs[:1])
    return Look(
        scheme=colour_scheme(settings.cross, settings.front),
        depth=depth,
        letters=settings.letters,
        lean="left" if leans_left else "right",
        style=cast(Literal["cube", "flat", "plain"], settings.drawing),
    )


def focuses(settings: Settings, position: Position) -> bool:
    """Whether what does not matter is grey: the setting, or the level's own view."""
    view = position.view if settings.view == "level" else settings.view
    return view == "focus"
