"""Texts made to fit into so many columns."""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size


def fit(text: str, width: int) -> str:
    """The text in exactly that many columns, its end replaced by "…" where it is too long."""
    if cell_len(text) <= width:
        return set_cell_size(text, width)
    return set_cell_size(text, max(0, width - 1)) + "…"[: max(0, width)]
