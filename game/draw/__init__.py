"""The picture: a cube in, rows of coloured text out. Pure: no screen, no clock, no files."""

from game.draw.drawing import draw_cube, draw_far, face_at, size_for
from game.draw.look import Look, Turning, far_eye
from game.draw.panel import focus_grey
from game.draw.still import extent

__all__ = [
    "Look",
    "Turning",
    "draw_cube",
    "draw_far",
    "extent",
    "face_at",
    "far_eye",
    "focus_grey",
    "size_for",
]
