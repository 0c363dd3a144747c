"""Checking packs: claims are proven or refuted, and what a report warns of."""

from __future__ import annotations

from pathlib import Path

import pytest

from game.packs import load_pack
from game.packs.checking import Report, check_pack
from game.packs.difficulty import Find
from game.search.outcome import NoneUpTo, Outcome, Solved, Stopped


def checked(folder: Path, find: Find, *levels: str, about: str = "A pack.") -> Report:
    """The report of a pack of levels, each given as its keys in TOML except id, name and note."""
    text = f'format = 1\ntitle = "T"\nabout = "{about}"\nauthor = "A"\nlicence = "L"\n'
    for number, level in enumerate(levels, 1):
        text += f'[[level]]\nid = "l{number}"\nname = "{number}"\n{level}\n'
        text += "" if "note =" in level else 'note = "."\n'
    path = folder / "pack.toml"
    path.write_text(text)
    return check_pack(load_pack(path), find)


def problems(faults: tuple[object, ...]) -> list[str]:
    """Faults as text, without the file's name."""
    return [str(fault).partition(".toml: ")[2] for fault in faults]


def test_a_true_pack(tmp_path: Path, find: Find) -> None:
    """Claims that hold, in a pack that grows, give rows and nothing else."""
    report = checked(
        tmp_path,
        find,
        'setup = "R U R\'"\npar = 3\ntwins = ["left-right", "diagonal"]',
        "setup = \"R B U2 B' R'\"\npar = 5",
    )
    assert (report.faults, report.warnings) == ((), ())
    keys = [row.puzzle.key.removeprefix("pack/") for row in report.rows]
    assert keys == ["l1", "l1~left-right", "l1~diagonal", "l2"]
    assert all(isinstance(row.outcome, Solved) and row.difficulty for row in report.rows)


def test_a_false_claim(tmp_path: Path, find: Find) -> None:
    """A wrong par is refuted, for the level and its twin, by a shortest solution."""
    report = checked(tmp_path, find, 'setup = "R U R\'"\npar = 4\ntwins = ["left-right"]')
    assert problems(report.faults) == [
        "level \"l1\": par: 4 is claimed; R U' R' is 3",
        'level "l1": par: of the left-right twin: 4 is claimed; L\' U L is 3',
    ]


def test_a_level_that_cannot_be_solved(tmp_path: Path, find: Find) -> None:
    """A level without a solution is a fault that gives the proof, and has no difficulty."""
    report = checked(tmp_path, find, 'setup = "R U R\'"\nfaces = "LU"\npar = 3')
    (problem,) = problems(report.faults)
    assert problem.startswith('level "l1": par: no solution exists: turns of L U ')
    assert report.rows[0].difficulty is None


@pytest.mark.parametrize(
    ("outcome", "problem"),
    [
        (NoneUpTo(20), "no solution of at most 20 turns exists"),
        (Stopped(2), "3 is not proven: the search stopped at 2"),
    ],
)
def test_claims_without_proof(tmp_path: Path, outcome: Outcome, problem: str) -> None:
    """A claim that the search did not come to is a fault."""
    report = checked(tmp_path, lambda cube, slots, faces: outcome, 'setup = "R U R\'"\npar = 3')
    assert problems(report.faults) == [f'level "l1": par: {problem}']


def test_a_pack_that_does_not_grow(tmp_path: Path, find: Find) -> None:
    """A level easier than one before it is warned of, with both difficulties."""
    report = checked(
        tmp_path, find, "setup = \"R B U2 B' R'\"\npar = 5", 'setup = "R U R\'"\npar = 3'
    )
    assert report.faults == ()
    assert problems(report.warnings) == [
        'level "l2": difficulty 3.0 after 6.2 of "l1": the pack does not grow'
    ]


def test_a_position_twice(tmp_path: Path, find: Find) -> None:
    """A level or twin with the position of another is warned of."""
    joined = "setup = \"R U' R'\"\npar = 3"
    report = checked(
        tmp_path,
        find,
        joined + '\ntwins = ["left-right"]',
        'setup = "L\' U L"\npar = 3',
        'setup = "R B U2 B\' R\'"\npar = 5\nfaces = "RBUL"',
        'setup = "R B U2 B\' R\'"\npar = 5\nview = "full"',
    )
    assert problems(report.warnings) == [
        'level "l2": setup: the same position as pack/l1~left-right'
    ]


def test_names_that_are_not_true_of_all(tmp_path: Path, find: Find) -> None:
    """Colours, slots and turns outside placeholders are warned of, each once in a text."""
    note = "Hide white, white first: R U2 {turns R U} Fw' into FR. {colour R}'s {top}. Rub it."
    report = checked(
        tmp_path,
        find,
        f'setup = "R U R\'"\npar = 3\nnote = "{note}"',
        about="Look for green.",
    )
    said = [problem.partition('"')[2].split('"')[-2] for problem in problems(report.warnings)]
    assert said == ["green", "white", "R", "U2", "Fw'", "FR"]
    assert problems(report.warnings)[0] == (
        'about: "green" is another in other colours or for a twin'
    )
