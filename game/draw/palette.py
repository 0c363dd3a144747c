"""The colours of stickers and plastic, hand-picked for each number of colours a terminal has.

    depth    inks
    "true"   red, green and blue; the top is lit most, the side least
    "256"    indices 16..255 of the ANSI palette, whose colours are fixed; lit like "true"
    "16"     indices 0..15, whose colours each terminal chooses; no light, letters needed
    "none"   no ink at all; letters needed

In "true" and "256" the six colours are at least `LEAST_DISTANCE` apart on every face, for usual
eyes and for the three kinds of colour blindness alike. A colour in the light and another in the
shade can come closer than that for the colour blind: letters help there.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from game.cube.colours import COLOURS
from game.draw.cells import RGB, Ink
from game.draw.depth import Depth

LEAST_DISTANCE: dict[Depth, float] = {"true": 20.0, "256": 16.0}
"""Between two sticker colours on one face, for every kind of eye, as CIE 1976 L*a*b* distance."""

GREY, PLASTIC, INSIDE = "grey", "plastic", "inside"
"""Names of what is not one of the six colours: a sticker that does not matter, the gaps between
stickers, and the walls that open while a layer turns."""
NAMES = (*COLOURS, GREY, PLASTIC, INSIDE)

LIGHT = (0.80, 1.0, 0.91)
"""How bright the side, the cap (top, or bottom where that is seen) and the front are drawn."""
LETTER: dict[str, str] = {colour: colour[0].upper() for colour in COLOURS}
"""W Y G B O R: the letter a sticker of that colour carries."""


class Palette(NamedTuple):
    """inks: name -> its ink on the side, the cap and the front (axes 0, 1, 2 of the drawing)."""

    depth: Depth
    inks: Mapping[str, tuple[Ink, Ink, Ink]]
    dark: Ink
    light: Ink

    def mixed(self, name: str, light: tuple[float, float, float]) -> Ink:
        """The ink of a face that looks partly along each axis. light: shares that sum to 1."""
        inks = self.inks[name]
        if self.depth != "true":
            return inks[light.index(max(light))]
        parts = zip(*map(rgb, inks), strict=True)
        red, green, blue = (
            round(sum(c * share for c, share in zip(part, light, strict=True))) for part in parts
        )
        return (red, green, blue)

    def letter_ink(self, under: Ink) -> Ink:
        """The ink, dark or light, that is read best on another ink."""
        return None if under is None else _clearer(self.dark, self.light, under)


@lru_cache(maxsize=1024)
def _clearer(one: Ink, other: Ink, under: Ink) -> Ink:
    """Which of two inks has more contrast to a third."""
    return max((one, other), key=lambda ink: contrast(ink, under))


def contrast(a: Ink, b: Ink) -> float:
    """The contrast ratio of two inks, 1..21 (WCAG 2.2; indices as xterm shows them)."""
    low, high = sorted((luminance(rgb(a)), luminance(rgb(b))))
    return (high + 0.05) / (low + 0.05)


def luminance(colour: RGB) -> float:
    """Relative luminance, 0..1 (WCAG 2.2)."""
    parts = [c / 255 for c in colour]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


_LEVELS = (0, 95, 135, 175, 215, 255)
_XTERM_16: tuple[RGB, ...] = (
    (0, 0, 0),
    (205, 0, 0),
    (0, 205, 0),
    (205, 205, 0),
    (0, 0, 238),
    (205, 0, 205),
    (0, 205, 205),
    (229, 229, 229),
    (127, 127, 127),
    (255, 0, 0),
    (0, 255, 0),
    (255, 255, 0),
    (92, 92, 255),
    (255, 0, 255),
    (0, 255, 255),
    (255, 255, 255),
)


def rgb(ink: Ink) -> RGB:
    """What an ink looks like: an index as xterm shows it, the terminal's own colour as black."""
    if ink is None:
        return (0, 0, 0)
    if isinstance(ink, tuple):
        return ink
    if ink < 16:
        return _XTERM_16[ink]
    if ink < 232:
        red, rest = divmod(ink - 16, 36)
        return (_LEVELS[red], _LEVELS[rest // 6], _LEVELS[rest % 6])
    grey = 8 + 10 * (ink - 232)
    return (grey, grey, grey)


def lit(colour: RGB, light: float) -> RGB:
    """The colour, so much darker."""
    red, green, blue = (round(c * light) for c in colour)
    return (red, green, blue)


_TRUE: dict[str, RGB] = {
    "white": (234, 244, 250),
    "yellow": (255, 232, 20),
    "green": (8, 176, 112),
    "blue": (48, 96, 250),
    "orange": (245, 138, 32),
    "red": (220, 16, 56),
    GREY: (116, 119, 128),
    PLASTIC: (18, 18, 21),
    INSIDE: (40, 41, 47),
}
_256: dict[str, tuple[Ink, Ink, Ink]] = {
    "white": (250, 231, 255),
    "yellow": (178, 220, 220),
    "green": (29, 41, 35),
    "blue": (26, 33, 27),
    "orange": (166, 208, 208),
    "red": (124, 196, 160),
    GREY: (240, 243, 242),
    PLASTIC: (233, 233, 233),
    INSIDE: (235, 236, 236),
}
_16: dict[str, Ink] = {
    "white": 15,
    "yellow": 11,
    "green": 2,
    "blue": 12,
    "orange": 3,
    "red": 9,
    GREY: 8,
    PLASTIC: 0,
    INSIDE: 0,
}


def _lit_inks(name: str, colour: RGB) -> tuple[Ink, Ink, Ink]:
    side, cap, front = LIGHT if name != PLASTIC else (1, 1, 1)
    return (lit(colour, side), lit(colour, cap), lit(colour, front))


PALETTES: dict[Depth, Palette] = {
    "true": Palette(
        "true", {n: _lit_inks(n, c) for n, c in _TRUE.items()}, (0, 0, 0), (255, 255, 255)
    ),
    "256": Palette("256", _256, 16, 231),
    "16": Palette("16", {n: (ink, ink, ink) for n, ink in _16.items()}, 0, 15),
    "none": Palette("none", dict.fromkeys(NAMES, (None, None, None)), None, None),
}
