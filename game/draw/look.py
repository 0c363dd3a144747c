"""How a cube is drawn: which side is seen, how large, in which colours and manner.

The drawing shows three faces: a *front*, a *side* to the right or left of it, a *cap* above or
below it. An `Eye` names them; everything is worked out with the side on the right and the cap
above, and the pixels are mirrored for the other cases:

        /cap /|
       +----+ |       a sticker of the front is S x S pixels; each step in depth moves
       |front side    S / 2 pixels to the right and S / 2 up
       +----+/
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from game.cube.colours import HOME_COLOURS
from game.cube.geometry import NORMAL, Matrix, determinant
from game.cube.moves import Move
from game.draw.depth import Depth
from game.draw.palette import PALETTES, Palette

SIZES = tuple(range(2, 25, 2))
"""The sizes S that can be drawn: pixels of a front sticker."""

Lean = Literal["right", "left"]
Style = Literal["cube", "flat", "plain"]


class Eye(NamedTuple):
    """The three faces that are seen, as held: named by place."""

    side: str
    cap: str
    front: str

    @property
    def axes(self) -> Matrix:
        """Rows: the outward directions of side, cap and front, axes 0, 1, 2 of the drawing."""
        return (NORMAL[self.side], NORMAL[self.cap], NORMAL[self.front])

    @property
    def from_below(self) -> bool:
        """Whether the cap is seen below the front."""
        return self.cap == "D"

    @property
    def leans_left(self) -> bool:
        """Whether the side is seen to the left of the front."""
        return (determinant(self.axes) == 1) == self.from_below


def near_eye(lean: Lean) -> Eye:
    """The player's view: the front, the top, and the side to which depth leans."""
    return Eye("R" if lean == "right" else "L", "U", "F")


def far_eye(lean: Lean, from_below: bool) -> Eye:
    """The view from behind: the back, top or bottom, and the side that `near_eye` does not see."""
    return Eye("L" if lean == "right" else "R", "D" if from_below else "U", "B")


class Turning(NamedTuple):
    """A move on its way. fraction: 0 at its start, 1 at its end."""

    move: Move
    fraction: float


@dataclass(frozen=True)
class Look:
    """How a cube is drawn.

    scheme: centre -> colour name. size: S, one of `SIZES`. margin: empty columns and rows on each
    side, into which the corners of a turning layer may reach.
    """

    scheme: Mapping[str, str] = field(default_factory=lambda: HOME_COLOURS)
    depth: Depth = "true"
    letters: bool = False
    size: int = 8
    lean: Lean = "right"
    style: Style = "cube"
    margin: tuple[int, int] = (0, 0)

    @property
    def palette(self) -> Palette:
        """The inks to draw with."""
        return PALETTES[self.depth]

    @property
    def drawing(self) -> Style:
        """The style in force: without colours only letters are left."""
        return "plain" if self.depth == "none" else self.style

    @property
    def shows_letters(self) -> bool:
        """Whether stickers carry letters: where asked, and where colours do not tell enough."""
        return self.letters or self.depth == "16" or self.drawing != "cube"
