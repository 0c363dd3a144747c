"""The 168 placements as three sheets, a row for each state of the corner, columns for the edge's.

    astray    rows                              columns
    nothing astray   a b c   corner above its slot     0-7  edge in the top layer   8 9  in its slot
                     d e f   corner in its slot
    edge astray      g h i   corner above its slot     0-5  edge in another slot
                     j k l   corner in its slot
    corner astray    n o p   corner in another slot    0 1  edge in the top layer   2 3  in its slot
                     r s t   in the next              4-9  in another slot
                     v x z   in the last

A cell is named by its row and its first column: `a3`. Everything is told as seen from the slot
FR, to which any other slot is turned. A placement is the same whatever the turn of the top; it is
*listed* with the corner above its slot or, where the corner is low, with the edge at the side of
its column. So in rows d e f four columns are one cell, listed at the first of them and turned
for the others.

Rows and columns come in one order everywhere: by slot as in `SLOTS`, by side as one goes round
the cube from the front, and by where a sticker looks: up or down first, then to the front or back,
then to the right or left. The letters m q u w y name no row: they are kept for what can be done
with a cell.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from functools import cache, cached_property

from game.cube import geometry
from game.cube.cube import PIECE_OF
from game.cube.geometry import CORNER_STICKERS, EDGE_STICKERS, STICKERS
from game.cube.moves import MOVES, permutation
from game.cube.pair import SLOT, SLOTS, PairPlace, in_top, slot_at
from game.cube.words import slot_column

HOME = SLOT["FR"].home
ROUND = "FRBL"
"""The sides as one goes round the cube."""
TOP_TURNS = ("", "U", "U2", "U'")
"""Turns of the top, by the number of quarters."""


class Group(Enum):
    """What kind of placement a cell is, in words: in slot means in the pair's own."""

    BOTH_ABOVE = "both above"
    EDGE_IN = "edge in slot"
    CORNER_IN = "corner in slot"
    BOTH_IN = "both in slot"
    EDGE_ASTRAY = "edge astray"
    CORNER_ASTRAY = "corner astray"
    BOTH_ASTRAY = "both astray"


@dataclass(frozen=True)
class Row:
    """A row: its letter, and where the corner's cross sticker lies."""

    letter: str
    corner: int

    @property
    def slot(self) -> str:
        """The slot in whose column the corner lies."""
        return slot_column(self.corner)


@dataclass(frozen=True, eq=False)
class Sheet:
    """Rows and columns that belong together.

    astray: which piece lies in a slot that is not its own, or at least that one; edges: where the
    edge sticker lies in each column.
    """

    astray: str
    rows: tuple[Row, ...]
    edges: tuple[int, ...]

    @cached_property
    def cells(self) -> tuple[Cell, ...]:
        """The cells, row by row."""
        return tuple(cell for cell in CELLS if cell.sheet is self)


@dataclass(frozen=True, eq=False)
class Cell:
    """One placement; there is one of each, in `CELLS`.

    columns: the digits it takes; place: where the pair lies as listed, seen from the slot FR.
    """

    sheet: Sheet
    row: Row
    columns: str
    place: PairPlace

    @property
    def name(self) -> str:
        """Its name: a letter and a digit."""
        return self.row.letter + self.columns[0]

    @property
    def group(self) -> Group:
        """What kind of placement it is."""
        corner, edge = (_where(place) for place in self.place)
        return _GROUPS[corner, edge]

    @property
    def trapped(self) -> tuple[str, ...]:
        """The slots, other than its own, that hold a piece of the pair."""
        holding = {slot_at(place) for place in self.place} - {"FR"}
        return tuple(slot for slot in SLOTS if slot in holding)

    @property
    def turns(self) -> range:
        """The turns of the top, in quarters, that make different positions."""
        return range(4 if any(map(in_top, self.place)) else 1)

    @property
    def is_solved(self) -> bool:
        """Whether it is the pair at home, where nothing is to be done."""
        return self.place == HOME

    def turned(self, quarters: int) -> PairPlace:
        """Where the pair lies after a turn of the top, seen from the slot FR."""
        turn = _top_turn(quarters % 4)
        return PairPlace(*(turn[place] for place in self.place))

    def turn_to(self, column: str) -> int:
        """The turn of the top, in quarters, that brings the edge to the side of a column."""
        edge = self.sheet.edges[int(column)]
        return next(q for q in self.turns if self.turned(q).edge == edge)

    def __repr__(self) -> str:
        return f"named({self.name!r})"


def named(name: str) -> Cell:
    """The cell with this row and column. Raises KeyError if the row has no such column."""
    return _by_name()[name]


def cell_of(place: PairPlace) -> tuple[Cell, int]:
    """The cell of a pair that lies there, seen from the slot FR, and the turn of the top.

    Raises KeyError when the edge lies in the cross.
    """
    return _by_place()[place]


@cache
def _by_name() -> dict[str, Cell]:
    return {cell.row.letter + column: cell for cell in CELLS for column in cell.columns}


@cache
def _by_place() -> dict[PairPlace, tuple[Cell, int]]:
    return {cell.turned(turn): (cell, turn) for cell in CELLS for turn in cell.turns}


@cache
def _top_turn(quarters: int) -> geometry.Permutation:
    name = TOP_TURNS[quarters]
    return permutation(MOVES[name]) if name else geometry.IDENTITY


# -- the sheets ----------------------------------------------------------------------------------


def _where(place: int) -> str:
    """Above, in its own slot, or astray."""
    slot = slot_at(place)
    return "above" if not slot else "in" if slot == "FR" else "astray"


_GROUPS = {
    ("above", "above"): Group.BOTH_ABOVE,
    ("above", "in"): Group.EDGE_IN,
    ("in", "above"): Group.CORNER_IN,
    ("in", "in"): Group.BOTH_IN,
    ("above", "astray"): Group.EDGE_ASTRAY,
    ("in", "astray"): Group.EDGE_ASTRAY,
    ("astray", "above"): Group.CORNER_ASTRAY,
    ("astray", "in"): Group.CORNER_ASTRAY,
    ("astray", "astray"): Group.BOTH_ASTRAY,
}


def _in_order(places: Iterable[int]) -> list[int]:
    """The stickers of one piece place: up or down, then front or back, then right or left."""
    return sorted(places, key=lambda place: "UDFBRL".index(STICKERS[place].face))


def _corners(slot: str, *, above: bool) -> list[int]:
    """The three places of the corner above a slot, or in it."""
    return _in_order(p for p in CORNER_STICKERS if slot_column(p) == slot and in_top(p) == above)


def _edges_in(slot: str) -> list[int]:
    """The two places of the edge in a slot."""
    return _in_order(place for place in EDGE_STICKERS if slot_at(place) == slot)


def _edges_above() -> list[int]:
    """The eight places of the edge in the top layer: its sticker up at each side, then not."""
    places = [place for place in EDGE_STICKERS if in_top(place)]

    def order(place: int) -> tuple[bool, int]:
        up, side = _in_order(PIECE_OF[place])
        return (place != up, ROUND.index(STICKERS[side].face))

    return sorted(places, key=order)


def _sheet(astray: str, letters: str, corners: list[int], edges: list[int]) -> Sheet:
    rows = tuple(Row(letter, place) for letter, place in zip(letters, corners, strict=True))
    return Sheet(astray, rows, tuple(edges))


def _sheets() -> tuple[Sheet, ...]:
    others = [slot for slot in SLOTS if slot != "FR"]
    own = [*_corners("FR", above=True), *_corners("FR", above=False)]
    astray = [place for slot in others for place in _corners(slot, above=False)]
    above, at_home = _edges_above(), _edges_in("FR")
    away = [place for slot in others for place in _edges_in(slot)]
    flips = [above[0], above[len(ROUND)]]
    return (
        _sheet("nothing", "abcdef", own, [*above, *at_home]),
        _sheet("edge", "ghijkl", own, away),
        _sheet("corner", "noprstvxz", astray, [*flips, *at_home, *away]),
    )


def _cells(sheet: Sheet) -> Iterable[Cell]:
    """The cells of a sheet: places that a turn of the top makes of each other are one."""
    for row in sheet.rows:
        alike: dict[PairPlace, str] = {}
        for column, edge in enumerate(sheet.edges):
            place = PairPlace(row.corner, edge)
            turned = [PairPlace(*(_top_turn(q)[p] for p in place)) for q in range(4)]
            first = next((other for other in turned if other in alike), place)
            alike[first] = alike.get(first, "") + str(column)
        for place, columns in alike.items():
            yield Cell(sheet, row, columns, place)


SHEETS = _sheets()
CELLS: tuple[Cell, ...] = tuple(cell for sheet in SHEETS for cell in _cells(sheet))
"""All 168, sheet by sheet and row by row."""
