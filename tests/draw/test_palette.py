"""The inks: told apart by every kind of eye, and legible; held against published colour science."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray

from game.cube.colours import COLOURS
from game.draw.cells import RGB, Ink
from game.draw.depth import DEPTHS
from game.draw.palette import (
    GREY,
    LEAST_DISTANCE,
    LETTER,
    NAMES,
    PALETTES,
    PLASTIC,
    Depth,
    contrast,
    rgb,
)

Floats = NDArray[np.float64]

EYES: dict[str, Floats] = {
    # Machado, Oliveira, Fernandes, 2009: full severity, on linear RGB
    "usual": np.eye(3),
    "protan": np.array(
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ]
    ),
    "deutan": np.array(
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ]
    ),
    "tritan": np.array(
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ]
    ),
}
TO_XYZ = np.array(
    # IEC 61966-2-1 (sRGB), to CIE XYZ under D65
    [
        [0.4124, 0.3576, 0.1805],
        [0.2126, 0.7152, 0.0722],
        [0.0193, 0.1192, 0.9505],
    ]
)
COLOURED: list[Depth] = ["true", "256", "16"]


def linear(colour: RGB) -> Floats:
    """Linear light of an sRGB colour (IEC 61966-2-1)."""
    c = np.array(colour) / 255
    return np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)


def lab(light: Floats) -> Floats:
    """CIE 1976 L*a*b* of linear light, under D65 (ISO/CIE 11664-4)."""
    t = TO_XYZ @ np.clip(light, 0, 1) / TO_XYZ.sum(axis=1)
    x, y, z = np.where(t > (6 / 29) ** 3, np.cbrt(t), t / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def distance(a: Ink, b: Ink, eye: str) -> float:
    """How different two inks look to an eye."""
    first, second = (lab(EYES[eye] @ linear(rgb(ink))) for ink in (a, b))
    return float(np.linalg.norm(first - second))


def test_the_matrices_leave_grey_as_it_is() -> None:
    """Each eye sees white as white: the rows that were typed in sum to 1."""
    for matrix in EYES.values():
        assert matrix.sum(axis=1) == pytest.approx(1, abs=2e-6)


@pytest.mark.parametrize("axis", range(3))
@pytest.mark.parametrize("eye", EYES)
@pytest.mark.parametrize("depth", LEAST_DISTANCE)
def test_the_six_colours_stay_apart_for_every_eye(depth: Depth, eye: str, axis: int) -> None:
    """No two colours on one face come closer than the stated distance."""
    inks = PALETTES[depth].inks
    found = {
        (a, b): distance(inks[a][axis], inks[b][axis], eye) for a, b in combinations(COLOURS, 2)
    }
    close = {pair: d for pair, d in found.items() if d < LEAST_DISTANCE[depth]}
    assert not close


def test_light_and_shade_never_make_one_colour_of_two_for_usual_eyes() -> None:
    """A colour on one face and another on any other face stay apart too."""
    for depth, least in LEAST_DISTANCE.items():
        inks = PALETTES[depth].inks
        for a, b in combinations(COLOURS, 2):
            assert min(distance(x, y, "usual") for x in inks[a] for y in inks[b]) >= least


@pytest.mark.parametrize("depth", COLOURED)
def test_every_colour_is_one_of_its_own(depth: Depth) -> None:
    """Six colours and grey have seven inks on each face, and none is the plastic's."""
    inks = PALETTES[depth].inks
    for axis in range(3):
        assert len({inks[name][axis] for name in (*COLOURS, GREY, PLASTIC)}) == 8


@pytest.mark.parametrize("depth", DEPTHS)
def test_inks_are_of_their_depth(depth: Depth) -> None:
    """256 uses only the fixed part of the ANSI palette, 16 only the first part, none no ink."""
    kinds = {
        "true": lambda ink: isinstance(ink, tuple) and all(0 <= c <= 255 for c in ink),
        "256": lambda ink: isinstance(ink, int) and 16 <= ink <= 255,
        "16": lambda ink: isinstance(ink, int) and 0 <= ink <= 15,
        "none": lambda ink: ink is None,
    }
    palette = PALETTES[depth]
    assert set(palette.inks) == set(NAMES)
    inks = [ink for lit in palette.inks.values() for ink in lit]
    assert all(kinds[depth](ink) for ink in [*inks, palette.dark, palette.light])


@pytest.mark.parametrize("depth", ["true", "256"])
def test_the_top_is_brightest_and_the_side_darkest(depth: Depth) -> None:
    """Depth is read from light."""
    for name in COLOURS:
        side, cap, front = (TO_XYZ[1] @ linear(rgb(ink)) for ink in PALETTES[depth].inks[name])
        assert side < front <= cap


@pytest.mark.parametrize("depth", COLOURED)
def test_stickers_stand_out_from_the_plastic(depth: Depth) -> None:
    """WCAG 2.2, 1.4.11: 3:1 for graphics, on the front and on the cap."""
    inks = PALETTES[depth].inks
    for name in (*COLOURS, GREY):
        for axis in (1, 2):
            assert contrast(inks[name][axis], inks[PLASTIC][axis]) >= 3, name


@pytest.mark.parametrize("depth", COLOURED)
def test_letters_are_legible_on_every_face(depth: Depth) -> None:
    """WCAG 2.2, 1.4.3: 4.5:1 for text."""
    palette = PALETTES[depth]
    for name in COLOURS:
        for ink in palette.inks[name]:
            assert contrast(palette.letter_ink(ink), ink) >= 4.5, name


@pytest.mark.parametrize(
    ("grey", "ratio"), [(0x76, 4.5422), (0x77, 4.4781), (0xFF, 1.0), (0x00, 21.0)]
)
def test_contrast_is_that_of_the_guideline(grey: int, ratio: float) -> None:
    """WCAG 2.2: known ratios to white, without rounding."""
    assert contrast((grey, grey, grey), (255, 255, 255)) == pytest.approx(ratio, abs=5e-5)


@pytest.mark.parametrize(
    ("index", "colour"),
    [
        (9, (255, 0, 0)),
        (16, (0, 0, 0)),
        (21, (0, 0, 255)),
        (196, (255, 0, 0)),
        (208, (255, 135, 0)),
        (231, (255, 255, 255)),
        (232, (8, 8, 8)),
        (255, (238, 238, 238)),
    ],
)
def test_an_index_looks_as_xterm_shows_it(index: int, colour: RGB) -> None:
    """Values of xterm's 256colres.h and its default resources."""
    assert rgb(index) == colour


def test_each_colour_has_a_letter_of_its_own() -> None:
    """W Y G B O R."""
    assert sorted(LETTER.values()) == sorted("WYGBOR")
    assert all(letter == colour[0].upper() for colour, letter in LETTER.items())


@pytest.mark.parametrize("depth", COLOURED)
def test_a_face_that_looks_along_one_axis_has_its_ink(depth: Depth) -> None:
    """Mixing light at the ends of a turn gives the inks at rest."""
    palette = PALETTES[depth]
    for name in NAMES:
        for axis in range(3):
            x, y, z = (float(i == axis) for i in range(3))
            assert palette.mixed(name, (x, y, z)) == palette.inks[name][axis]
