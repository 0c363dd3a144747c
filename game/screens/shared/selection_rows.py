"""What is to be played, as rows of a form: a deal, a pack, or the day's five. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import NamedTuple, TypeVar

from game.cube.geometry import FACES
from game.cube.pair import SLOTS
from game.deal.deal import HANDS, Kind
from game.deal.selection import FromDay, FromDeal, FromPack, Selection
from game.packs import Pack
from game.prose import numeral

T = TypeVar("T")

A_DEAL, A_PACK, THE_DAY = "a deal", "a pack", "the day's five"
SLOT_CHOICES: dict[str, tuple[str, ...]] = {
    "any": SLOTS,
    "right hand": ("FR", "BR"),
    "left hand": ("FL", "BL"),
    **{slot: (slot,) for slot in SLOTS},
}
FACE_CHOICES = {
    "all six": FACES,
    "at the hands": HANDS,
    "all but D": "FBRLU",
    "F, R and U": "FRU",
    "R, L and U": "RLU",
    "R and U": "RU",
}


class FormRow(NamedTuple):
    """A row of a form: its key, what it is called, its value in words, what it means."""

    key: str
    label: str
    value: str
    help: str


@dataclass(frozen=True)
class Chosen:
    """What is chosen so far. packs: those there are; today: the player's date.

    pack: a place among the packs; slots, faces: keys of the choices above.
    """

    packs: tuple[Pack, ...]
    today: date
    source: str = A_DEAL
    pack: int = 0
    pairs: int = 1
    slots: str = "any"
    open: int = 0
    faces: str = "all six"

    @property
    def selection(self) -> Selection:
        """What is played. Raises ProgrammeError where that cannot be had."""
        if self.source == THE_DAY:
            return FromDay(self.today)
        if self.source == A_PACK:
            return FromPack(self.packs[self.pack])
        return FromDeal(self._kind)

    @property
    def _kind(self) -> Kind:
        slots, faces = SLOT_CHOICES[self.slots], FACE_CHOICES[self.faces]
        return Kind(self.pairs, self.open, slots=slots, faces=faces)

    @property
    def _sources(self) -> tuple[str, ...]:
        return (A_DEAL, A_PACK, THE_DAY) if self.packs else (A_DEAL, THE_DAY)

    def rows(self) -> tuple[FormRow, ...]:
        """The source, and what else there is to choose there."""
        first = FormRow("source", "Play", self.source, SOURCES[self.source])
        if self.source == THE_DAY:
            return (first,)
        if self.source == A_PACK:
            pack = self.packs[self.pack]
            return (first, FormRow("pack", "Pack", pack.title, pack.about))
        opened = numeral(self.open) if self.open else "none"
        return (
            first,
            FormRow("pairs", "Pairs", numeral(self.pairs), "How many pairs are to be solved."),
            FormRow("slots", "Slots", self.slots, "Where: any slot, those of one hand, or one."),
            FormRow("open", "Open slots", opened, "Slots besides that need not be solved."),
            FormRow("faces", "Faces", self.faces, FACES_HELP.get(self.faces, FACES_LEFT)),
        )

    def stepped(self, key: str, step: int) -> Chosen:
        """With the next value of a row, or the one before; what no deal fits is passed over."""
        if key == "source":
            return replace(self, source=_next(self._sources, self.source, step))
        if key == "pack":
            return replace(self, pack=(self.pack + step) % len(self.packs))
        choices: dict[str, Sequence[object]] = {
            "pairs": range(1, len(SLOTS) + 1),
            "slots": tuple(SLOT_CHOICES),
            "open": range(len(SLOTS)),
            "faces": tuple(FACE_CHOICES),
        }
        values = choices[key]
        made = self
        for _ in values:
            made = made._with(key, _next(values, getattr(made, key), step))
            if made._fits():
                return made
        return self

    def _with(self, key: str, value: object) -> Chosen:
        """With one value; fewer slots are left open where more pairs need theirs."""
        made = replace(self, **{key: value})  # type: ignore[arg-type]
        if key == "pairs":
            return replace(made, open=min(made.open, len(SLOTS) - made.pairs))
        return made

    def _fits(self) -> bool:
        try:
            return bool(self._kind)
        except ValueError:
            return False


SOURCES = {
    A_DEAL: "Positions dealt at random.",
    A_PACK: "The levels of a pack and their twins, in a random order.",
    THE_DAY: "The five positions of today's date, in their order.",
}
FACES_HELP = {
    "all six": "Every face may turn.",
    "at the hands": "Only the top and the two sides of each slot may turn.",
}
FACES_LEFT = "Only these faces may turn; each deal can be solved with them."


def chosen_for(selection: Selection, chosen: Chosen) -> Chosen:
    """The choice that gives this selection; as chosen where none does."""
    if isinstance(selection, FromDay):
        return replace(chosen, source=THE_DAY)
    if isinstance(selection, FromPack) and selection.pack in chosen.packs:
        return replace(chosen, source=A_PACK, pack=chosen.packs.index(selection.pack))
    if isinstance(selection, FromDeal):
        kind = selection.kind
        slots = next((name for name, s in SLOT_CHOICES.items() if s == kind.slots), None)
        faces = next((name for name, f in FACE_CHOICES.items() if f == kind.faces), None)
        if slots and faces:
            return replace(
                chosen, source=A_DEAL, pairs=kind.pairs, open=kind.open, slots=slots, faces=faces
            )
    return chosen


def _next(values: Sequence[T], value: T, step: int) -> T:
    return values[(list(values).index(value) + step) % len(values)]
