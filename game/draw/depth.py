"""How many colours there are to draw with."""

from __future__ import annotations

from typing import Literal

Depth = Literal["true", "256", "16", "none"]
DEPTHS: tuple[Depth, ...] = ("true", "256", "16", "none")
