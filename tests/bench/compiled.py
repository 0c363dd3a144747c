"""The plain C program beside this file: compiled where there is a compiler, asked about cubes."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from game.cube.cube import PIECE_OF, Cube
from game.cube.geometry import STICKERS

SOURCE = Path(__file__).with_name("reference.c")
PIECES = ("DF", "DR", "DB", "DL", "FR", "RB", "BL", "LF", "DFR", "DRB", "DBL", "DLF")
"""Cross edges, edges and corners of the slots, as the program names them."""


@dataclass(frozen=True)
class Found:
    """What the program finds. solutions: their number; nodes: looked at; seconds: it took."""

    par: int
    solutions: int
    nodes: int
    seconds: float


def compiled(folder: Path) -> Path | None:
    """The program, compiled into the folder; None where there is no C compiler."""
    compiler = shutil.which("cc") or shutil.which("gcc") or shutil.which("clang")
    if compiler is None:
        return None
    program = folder / "reference"
    subprocess.run([compiler, "-O3", "-o", program, SOURCE], check=True)
    return program


def ask(program: Path, cubes: Iterable[Cube], *, first: bool = False) -> Iterator[Found]:
    """What it finds for each cube; one thread. first: it ends at the first solution.

    It makes its table before the first answer, which is not counted in the seconds.
    """
    text = "".join(f"{described(cube)}\n" for cube in cubes)
    command = [str(program), *(["first"] if first else [])]
    answered = subprocess.run(command, input=text, capture_output=True, text=True, check=True)
    for line in answered.stdout.splitlines():
        par, solutions, nodes, seconds = line.split()
        yield Found(int(par), int(solutions), int(nodes), float(seconds))


def described(cube: Cube) -> str:
    """Where the pieces of the cross and the slots are: "DF=UB DR=DR ..."."""
    where = cube.upright.where
    return " ".join(
        f"{piece}={''.join(STICKERS[where[home]].face for home in _stickers(piece))}"
        for piece in PIECES
    )


def _stickers(piece: str) -> list[int]:
    """The homes of a piece's stickers, in the order of its name."""
    homes = next(p for p in PIECE_OF.values() if {STICKERS[i].face for i in p} == set(piece))
    return [next(i for i in homes if STICKERS[i].face == face) for face in piece]
