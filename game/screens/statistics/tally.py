"""How far a player has come: counts over levels, twins aside."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from game.packs import Pack
from game.records.record import Best


class Tally(NamedTuple):
    """Levels that there are, that were solved, and that were solved at par without help."""

    levels: int
    solved: int
    at_par: int


def tally(packs: Iterable[Pack], bests: Mapping[str, Best]) -> Tally:
    """The counts over these packs. bests: by the canonical text of a position."""
    texts = [level.text for pack in packs for level in pack.levels]
    found = [bests[text] for text in texts if text in bests]
    return Tally(len(texts), sum(best.solved for best in found), sum(best.at_par for best in found))


def solved_texts(bests: Mapping[str, Best]) -> frozenset[str]:
    """The positions that were ever solved."""
    return frozenset(text for text, best in bests.items() if best.solved)
