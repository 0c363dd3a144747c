"""What the atlas says: heads over its columns and words beside its rows, facts of a cell. Pure.

Columns of the top layer are named by the side at which the edge lies, under the colour that is up;
columns of a slot by the first letter of a colour and the face to which it looks: gF, green to F.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum

from textual.content import Content

from game.atlas import TOP_TURNS, Par, Sheet, Spot
from game.atlas.words import Colours, corner_column, edge_homes, looks, side_of
from game.cube import geometry, symmetry
from game.cube.geometry import STICKERS
from game.cube.pair import in_top, slot_at
from game.cube.symmetry import TWINS
from game.cube.words import pair_words
from game.prose import listed
from game.records.record import Best
from game.screens.shared.preview import best_words

UNKNOWN = ".."
"""Where the search has not come to yet."""


class Met(Enum):
    """What the player has come to at a cell; the value is its sign. NONE: nothing is to do."""

    NONE = " "
    NOT = "·"
    SOLVED = "◐"
    AT_PAR = "●"

    @property
    def words(self) -> str:
        """What the sign means."""
        return {Met.NOT: "not solved", Met.SOLVED: "solved", Met.AT_PAR: "at par"}.get(self, "")


def met(best: Best | None) -> Met:
    """What attempts at one position have come to."""
    if best is None or not best.solved:
        return Met.NOT
    return Met.AT_PAR if best.at_par else Met.SOLVED


# -- the grid ------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Line:
    """A line of the grid: a row by its letter, or words. heads: by the column they begin at."""

    label: str = ""
    heads: Mapping[int, str] = field(default_factory=dict)
    row: str = ""


def lines(sheet: Sheet, slot: str, colours: Colours, *, airy: bool) -> tuple[Line, ...]:
    """Heads, then the rows, each block of three under where its corner is.

    airy: with an empty line between rows.
    """
    over, under = heads(sheet, slot, colours)
    digits = {column: str(column) for column in range(len(sheet.edges))}
    found = [Line(heads=over), Line(heads=under)]
    seen = geometry.whole(symmetry.to_slot(slot))
    before = ""
    for row in sheet.rows:
        corner = seen[row.corner]
        section = f"corner {corner_column(corner, slot)}"
        if airy and before:
            found.append(Line())
        if section != before:
            found.append(Line(section, {} if before else digits))
        before = section
        found.append(Line(f"{colours['D']} {looks(corner)}", row=row.letter))
    return tuple(found)


def heads(sheet: Sheet, slot: str, colours: Colours) -> tuple[dict[int, str], dict[int, str]]:
    """Two lines over the columns: where the edge is, and what tells it from the others there."""
    seen = geometry.whole(symmetry.to_slot(slot))
    edges = [seen[edge] for edge in sheet.edges]
    goes_round = sum(map(in_top, edges)) > 2
    over: dict[int, str] = {}
    under: dict[int, str] = {}
    for column, edge in enumerate(edges):
        head, under[column] = _edge_heads(edge, slot, colours, goes_round=goes_round)
        if head not in over.values():
            over[column] = head
    return over, under


def _edge_heads(edge: int, slot: str, colours: Colours, *, goes_round: bool) -> tuple[str, str]:
    """The heads of a column. goes_round: it is one of those for every side of the top layer."""
    face = STICKERS[edge].face
    own, other = (colours[STICKERS[home].face] for home in edge_homes(slot))
    if not in_top(edge):
        where = slot_at(edge)
        return "in slot" if where == slot else f"in {where}", own[0] + face
    up = own if face == "U" else other
    return (f"{up} up", side_of(edge)) if goes_round else ("above", f"{up[0]}U")


# -- facts ---------------------------------------------------------------------------------------

LABEL = 10
TURN = 11
"""Columns of a row's label, and of each turn of the top."""


def facts(
    spot: Spot, pars: Sequence[Par | None], bests: Sequence[Best | None], colours: Colours, par: str
) -> Content:
    """Where the pieces lie, par at each turn of the top, how many solutions, twins, own tries.

    pars, bests: at each turn of the top; par: shown in place of those that are not to be told.
    """
    parts: list[str | tuple[str, str]] = [
        (f"{spot.name:<4}", "bold $accent"),
        (f"{pair_words(spot.place, spot.slot, colours)}\n", "bold"),
    ]
    turns = _turns(spot)
    for label, texts in (
        ("top", turns),
        ("par", {turn: _par(pars[turn], bests[turn], par) for turn in turns}),
        ("solutions", {turn: _solutions(pars[turn], bests[turn], par) for turn in turns}),
    ):
        parts.append((f"{label:<{LABEL}}", "$muted"))
        for turn, text in texts.items():
            here = turn == spot.turn and len(texts) > 1
            parts.append((f"{text:<{TURN}}", "bold $accent" if here else ""))
        parts.append("\n")
    best = best_words(bests[spot.turn])
    return Content.assemble(*parts, *_twins(spot), (f"\n{'you':<{LABEL}}", "$muted"), best)


def _turns(spot: Spot) -> dict[int, str]:
    """The turns of the top and what they are called, in the order that they are told."""
    cell = spot.cell
    if len(cell.turns) == 1:
        return {0: "any turn"}
    if len(cell.columns) > 1:
        return {cell.turn_to(column): cell.row.letter + column for column in cell.columns}
    return {turn: TOP_TURNS[turn] or "as listed" for turn in cell.turns}


def _par(par: Par | None, best: Best | None, hidden: str) -> str:
    if par is None:
        return UNKNOWN
    sign = met(best)
    turns = str(par.turns) if sign is Met.AT_PAR or not hidden else hidden
    return f"{turns} {sign.value}"


def _solutions(par: Par | None, best: Best | None, hidden: str) -> str:
    if par is None:
        return UNKNOWN
    return hidden if hidden and met(best) is not Met.AT_PAR else str(par.solutions)


def _twins(spot: Spot) -> list[tuple[str, str]]:
    """The mirror images: they bear one name, since the slots turn into each other."""
    twins = {name: spot.twin(name) for name in TWINS}
    where = ", ".join(f"{name} {twin.slot}" for name, twin in twins.items())
    return [(f"{'twins':<{LABEL}}", "$muted"), (f"{twins['diagonal'].name}: {where}", "")]


def open_words(spot: Spot) -> str:
    """Which slots are open because a piece lies in them."""
    held = [slot for slot in spot.trapped if slot not in spot.chosen]
    if not held:
        return ""
    slots = "slot" if len(held) == 1 else "slots"
    return f"Played with {slots} {listed(held)} open: a piece of the pair lies there."
