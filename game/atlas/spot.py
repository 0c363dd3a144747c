"""A cell of the atlas at one of the slots, the top turned, other slots kept or open: a position.

Whatever a rotation or a mirror shows is the same puzzle: `Spot.twin` finds a mirror image, and all
images have one `model`, a spot at FR, so that what is found out about it holds for all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache, cached_property

from game.atlas.cell import CELLS, TOP_TURNS, Cell, cell_of
from game.cube import geometry, pair, symmetry
from game.cube.cube import PIECE_OF
from game.cube.geometry import Matrix
from game.cube.pair import SLOT, SLOTS, PairPlace
from game.errors import PositionError, printable
from game.play.position import Position, position_with


@dataclass(frozen=True)
class Spot:
    """A cell at a slot.

    turn: of the top, from how the cell is listed, in quarters; chosen: slots left open by choice,
    to which come those that hold a piece of the pair. Raises PositionError when the slot itself
    is to be open.
    """

    cell: Cell
    slot: str = "FR"
    turn: int = 0
    chosen: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.slot in self.chosen:
            raise PositionError(f"slot {self.slot} is to be solved; it cannot be left open")

    @property
    def name(self) -> str:
        """The entry's name; the column is the one at whose side the edge lies."""
        columns = self.cell.columns
        here = (c for c in columns if self.cell.turn_to(c) == self.turn)
        return self.cell.row.letter + (next(here) if len(columns) > 1 else columns)

    @property
    def top(self) -> str:
        """The turn of the top that led here from where the cell is listed; "" where none did.

        Also nothing where the name tells it.
        """
        return TOP_TURNS[self.turn] if len(self.cell.columns) == 1 else ""

    @property
    def place(self) -> PairPlace:
        """Where the pair lies."""
        seen = geometry.whole(symmetry.to_slot(self.slot))
        return PairPlace(*(seen[place] for place in self.cell.turned(self.turn)))

    @property
    def trapped(self) -> tuple[str, ...]:
        """The slots, other than its own, that hold a piece of the pair; they cannot be kept."""
        return _images(self.cell.trapped, symmetry.to_slot(self.slot))

    @cached_property
    def open(self) -> tuple[str, ...]:
        """The slots that are open: those chosen and those that hold a piece of the pair."""
        held = self.trapped
        return tuple(slot for slot in SLOTS if slot in self.chosen or slot in held)

    @cached_property
    def position(self) -> Position:
        """The position to play."""
        home, place = SLOT[self.slot].home, self.place
        solve = (slot for slot in SLOTS if slot not in self.open)
        return position_with({home.corner: place.corner, home.edge: place.edge}, solve)

    def turned(self, quarters: int) -> Spot:
        """With the top turned on; where nothing lies in the top layer that changes nothing."""
        return replace(self, turn=(self.turn + quarters) % len(self.cell.turns))

    def at_slot(self, slot: str) -> Spot:
        """The same seen at another slot, as a rotation of the whole cube shows it."""
        home = geometry.transpose(symmetry.to_slot(self.slot))
        rotation = geometry.compose(home, symmetry.to_slot(slot))
        return replace(self, slot=slot, chosen=_images(self.chosen, rotation))

    def twin(self, name: str) -> Spot:
        """The mirror image of that name, one of `symmetry.TWINS`."""
        at_home = self.at_slot("FR")
        mirror = symmetry.twin("diagonal", "FR")
        cell, turn = cell_of(_mirrored(at_home.cell.turned(self.turn)))
        diagonal = Spot(cell, "FR", turn, _images(at_home.chosen, mirror))
        return diagonal.at_slot(symmetry.slot_image(self.slot, symmetry.twin(name, self.slot)))

    @cached_property
    def model(self) -> Spot:
        """The spot at FR that stands for this one and all its rotations and mirror images."""
        at_home = self.at_slot("FR")
        one = replace(at_home, chosen=at_home.open)
        return min(one, one.twin("diagonal"), key=_order)


def spots(slot: str, chosen: Iterable[str], cells: Iterable[Cell] = CELLS) -> Iterator[Spot]:
    """Every position of these cells at a slot, for each turn of the top that makes another.

    Raises PositionError for words that are no slots, and when the slot is to be open itself.
    """
    named = pair.parse_slots(slot)
    if len(named) != 1:
        raise PositionError(f'"{printable(slot)}" is not one slot; expected FR, FL, BL or BR')
    open_ = pair.parse_slots(",".join(chosen))
    return (Spot(cell, named[0], turn, open_) for cell in cells for turn in cell.turns)


def _order(spot: Spot) -> tuple[int, int, tuple[str, ...]]:
    return (_number()[spot.cell], spot.turn, spot.chosen)


@cache
def _number() -> dict[Cell, int]:
    return {cell: number for number, cell in enumerate(CELLS)}


def _images(slots: Iterable[str], matrix: Matrix) -> tuple[str, ...]:
    images = {symmetry.slot_image(slot, matrix) for slot in slots}
    return tuple(slot for slot in SLOTS if slot in images)


def _mirrored(place: PairPlace) -> PairPlace:
    """Where the diagonal mirror of FR shows a pair of FR.

    It takes the edge's sticker home on F to that home on R, so the other sticker is looked at.
    """
    mirror = geometry.whole(symmetry.twin("diagonal", "FR"))
    (other,) = (sticker for sticker in PIECE_OF[place.edge] if sticker != place.edge)
    return PairPlace(mirror[place.corner], mirror[other])
