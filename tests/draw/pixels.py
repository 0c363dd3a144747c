"""A picture read back as the pixels and letters that a terminal shows of it."""

from __future__ import annotations

from game.draw.cells import Ink, Picture

Pixels = list[list[Ink]]


def pixels_of(picture: Picture) -> Pixels:
    """Two rows of inks for each row of cells; under a letter both pixels are the ground's."""
    grid: Pixels = []
    for row in picture:
        upper: list[Ink] = []
        lower: list[Ink] = []
        for run in row:
            for character in run.text:
                upper.append(run.fg if character == "▀" else run.bg)
                lower.append(run.fg if character == "▄" else run.bg)
        grid += [upper, lower]
    return grid


def letters_of(picture: Picture) -> dict[tuple[int, int], str]:
    """Cell (row, column) -> the letter there."""
    found = {}
    for y, row in enumerate(picture):
        text = "".join(run.text for run in row)
        found |= {(y, x): c for x, c in enumerate(text) if c not in " ▀▄"}
    return found


def text_of(picture: Picture) -> str:
    """The characters alone, without spaces at the ends of lines."""
    return "\n".join("".join(run.text for run in row).rstrip() for row in picture)
