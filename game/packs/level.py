"""What a pack holds: levels, and the puzzles that they and their twins are when played."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

from game.cube import symmetry
from game.cube.geometry import UNMOVED, Matrix
from game.cube.moves import parse_line
from game.modes import CASUAL
from game.packs.notes import fill_note
from game.play.position import Position, position_after, text_after


@dataclass(frozen=True)
class Level:
    """One level, as its pack gives it.

    setup: turns, applied to a solved cube; open: slots that need not be solved; faces: those that
    may turn; par: what the pack claims; note: with placeholders; twins: mirror images to play too.
    """

    id: str
    name: str
    setup: str
    open: tuple[str, ...]
    faces: str
    view: str
    par: int
    note: str
    twins: tuple[str, ...]

    @cached_property
    def position(self) -> Position:
        """The position that the setup makes."""
        return position_after(parse_line(self.setup), self.open, self.faces, self.view)

    @cached_property
    def text(self) -> str:
        """The canonical text of the position, which is had sooner than the position itself."""
        return text_after(parse_line(self.setup), self.open, self.faces, self.view)

    @property
    def slot(self) -> str:
        """The slot that the level is about: of the first pair in play; FR when none is."""
        return next(iter(self.position.pairs), "FR")

    def symmetry(self, twin: str) -> Matrix:
        """The symmetry that makes the twin of this level; "" is the level itself."""
        return symmetry.twin(twin, self.slot) if twin else UNMOVED


@dataclass(frozen=True)
class Pack:
    """Levels that teach one idea. id: the file's name without ".toml"; about: one sentence."""

    id: str
    title: str
    about: str
    author: str
    licence: str
    levels: tuple[Level, ...]
    path: Path

    def __hash__(self) -> int:  # the usual one would hash every level at every look
        return hash(self.path)


@dataclass(frozen=True)
class Puzzle:
    """A level or one of its twins, ready to play. twin: "" for the level itself."""

    pack: Pack
    level: Level
    twin: str

    @property
    def key(self) -> str:
        """Its name in records: "pack/level", or "pack/level~left-right" for a twin."""
        twin = f"~{self.twin}" if self.twin else ""
        return f"{self.pack.id}/{self.level.id}{twin}"

    @cached_property
    def position(self) -> Position:
        """The position to play."""
        position = self.level.position
        return position.image(self.level.symmetry(self.twin)) if self.twin else position

    @property
    def text(self) -> str:
        """The canonical text of the position to play."""
        return self.position.text if self.twin else self.level.text

    @property
    def par(self) -> int:
        """The claimed length of a shortest solution: a mirror image has the same."""
        return self.level.par

    @property
    def source(self) -> str:
        """The title of its pack."""
        return self.pack.title

    @property
    def name(self) -> str:
        """The name of its level."""
        return self.level.name

    @property
    def aside(self) -> str:
        """Which twin it is."""
        return f"{self.twin} twin" if self.twin else ""

    @property
    def place(self) -> str:
        """The number of its level in the pack: "3 of 10"."""
        return f"{self.pack.levels.index(self.level) + 1} of {len(self.pack.levels)}"

    mode = CASUAL
    why = ""

    def note(self, colours: Mapping[str, str]) -> str:
        """The level's note, true of this twin and in these colours (centre -> colour name)."""
        return fill_note(self.level.note, colours, self.level.symmetry(self.twin))


@cache
def puzzles(pack: Pack) -> tuple[Puzzle, ...]:
    """Each level of the pack, followed by its twins."""
    return tuple(Puzzle(pack, level, twin) for level in pack.levels for twin in ("", *level.twins))
