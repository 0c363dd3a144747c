"""Proving packs: is every claimed par what the search finds, and does a pack grow?

A *fault* makes a pack untrue: a claim that the search refutes, or could not prove. A *warning* is
advice to its author: a level easier than one before it, one position twice, a text that names
what is another in other colours or for a twin.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from game.cube.colours import COLOURS
from game.cube.moves import line_text
from game.cube.pair import SLOTS
from game.errors import Fault
from game.packs import Pack, Puzzle, puzzles
from game.packs.difficulty import Difficulty, Find, grows, measure
from game.packs.reading import shown_path
from game.search.outcome import NoneUpTo, Outcome, Solved, Stopped, Unsolvable

_PLACEHOLDER = re.compile(r"\{[^}]*\}")
_FIXED = re.compile(
    rf"\b(?:(?:{'|'.join((*COLOURS, *SLOTS))})\b|[FBRLUD]w?(?:2|'(?!\w)|(?![\w'])))"
)
"""A colour, a slot or a turn that stands in a text as it is."""


@dataclass(frozen=True)
class CheckedPuzzle:
    """A puzzle with what the search finds for it; no difficulty where it finds no solution."""

    puzzle: Puzzle
    outcome: Outcome
    difficulty: Difficulty | None

    @property
    def fault(self) -> str:
        """What is wrong with the claim of par; nothing when it is proven."""
        match self.outcome:
            case Solved(par, solutions) if par != self.puzzle.par:
                return f"{self.puzzle.par} is claimed; {line_text(solutions[0])} is {par}"
            case Solved():
                return ""
            case Unsolvable(proof):
                return f"no solution exists: {proof}"
            case NoneUpTo(turns):
                return f"no solution of at most {turns} turns exists"
            case Stopped(at_least):
                return f"{self.puzzle.par} is not proven: the search stopped at {at_least}"


@dataclass(frozen=True)
class Report:
    """A pack's rows, each level followed by its twins; its faults; warnings to its author."""

    pack: Pack
    rows: tuple[CheckedPuzzle, ...]
    faults: tuple[Fault, ...]
    warnings: tuple[Fault, ...]


def check_pack(pack: Pack, find: Find) -> Report:
    """Proves every claim of a pack by the search."""
    return report(pack, tuple(rows(pack, find)))


def rows(pack: Pack, find: Find) -> Iterator[CheckedPuzzle]:
    """The rows of a pack, each as soon as the search is done with it."""
    for puzzle in puzzles(pack):
        position = puzzle.position
        outcome = find(position.cube, position.solve, position.faces)
        solved = outcome if isinstance(outcome, Solved) else None
        yield CheckedPuzzle(puzzle, outcome, measure(position, solved, find) if solved else None)


def report(pack: Pack, rows: tuple[CheckedPuzzle, ...]) -> Report:
    """What the rows of a pack say about it."""
    file = shown_path(pack.path)
    faults = [
        Fault(file, row.puzzle.level.id, "par", _of_twin(row.puzzle) + row.fault)
        for row in rows
        if row.fault
    ]
    warnings = (*_easier(file, rows), *_same(file, rows), *_fixed(file, pack))
    return Report(pack, rows, tuple(faults), warnings)


def _of_twin(puzzle: Puzzle) -> str:
    return f"of the {puzzle.twin} twin: " if puzzle.twin else ""


def _easier(file: str, rows: tuple[CheckedPuzzle, ...]) -> Iterator[Fault]:
    """Levels at which the pack does not grow; twins do not count."""
    measured = [
        (row.puzzle.level.id, row.difficulty.value)
        for row in rows
        if row.difficulty is not None and not row.puzzle.twin
    ]
    for place in grows([value for _, value in measured]):
        id_, value = measured[place]
        hardest, most = max(measured[:place], key=lambda each: each[1])
        problem = f'difficulty {value:.1f} after {most:.1f} of "{hardest}": the pack does not grow'
        yield Fault(file, id_, "", problem)


def _same(file: str, rows: tuple[CheckedPuzzle, ...]) -> Iterator[Fault]:
    """Puzzles whose position another puzzle of the pack has already."""
    first: dict[str, Puzzle] = {}
    for row in rows:
        puzzle = row.puzzle
        other = first.setdefault(puzzle.text, puzzle)
        if other is not puzzle:
            problem = f"{_of_twin(puzzle)}the same position as {other.key}"
            yield Fault(file, puzzle.level.id, "twins" if puzzle.twin else "setup", problem)


def _fixed(file: str, pack: Pack) -> Iterator[Fault]:
    """Texts that name a colour, a slot or a turn without a placeholder."""
    texts = [("", "about", pack.about)]
    for level in pack.levels:
        texts += [(level.id, "name", level.name), (level.id, "note", level.note)]
    for id_, key, text in texts:
        # A placeholder leaves a blank, so that what stands on both sides does not become one word.
        for word in dict.fromkeys(_FIXED.findall(_PLACEHOLDER.sub(" ", text))):
            problem = f'"{word}" is another in other colours or for a twin'
            yield Fault(file, id_, key, problem)
