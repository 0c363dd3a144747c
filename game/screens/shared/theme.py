"""The colours around the cube: a dark, quiet ground and one accent that no sticker has."""

from __future__ import annotations

from textual.theme import Theme

THEME = Theme(
    name="pairwright",
    primary="#a9a4f5",
    secondary="#8a90a4",
    accent="#a9a4f5",
    foreground="#d9dce6",
    background="#13151c",
    surface="#191c25",
    panel="#222632",
    warning="#e0b860",
    error="#e88a86",
    success="#8fce9c",
    variables={
        "muted": "#8a90a4",
        "rule": "#2c3140",
        "block-cursor-background": "#a9a4f5",
        "block-cursor-foreground": "#13151c",
        "input-cursor-background": "#a9a4f5",
        "input-selection-background": "#a9a4f5 35%",
        "scrollbar": "#2c3140",
        "scrollbar-hover": "#3c4256",
        "scrollbar-active": "#a9a4f5",
        "scrollbar-background": "#13151c",
        "scrollbar-background-hover": "#13151c",
        "scrollbar-background-active": "#13151c",
        "scrollbar-corner-color": "#13151c",
    },
)
