"""The picture: a cube in, rows of coloured text out. Pure: no screen, no clock, no files."""

from game.draw.drawing import draw_cube, draw_far, face_at, size_for
from game.draw.look import Look, Turning
from game.draw.panel import focus_grey

__all__ = ["Look", "Turning", "draw_cube", "draw_far", "face_at", "focus_grey", "size_for"]
