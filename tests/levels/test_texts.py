"""Setups and notes of the packs that come with the program, as their authors wrote them."""

from __future__ import annotations

import re

from game.cube.cube import SOLVED
from game.cube.line import Line, tidy
from game.cube.moves import FACE_MOVES, parse_line, turned_face
from game.cube.pair import is_pair_solved
from game.packs import Level, load_packs, pack_folder

LEVELS = [level for pack in load_packs(pack_folder())[0] for level in pack.levels]


def _lines(level: Level) -> list[Line]:
    """The lines of turns that the level's note shows."""
    return [parse_line(text) for text in re.findall(r"\{turns ([^}]*)\}", level.note)]


def test_setups_turn_faces_only() -> None:
    """No setup turns the whole cube round or a slice, and none has a turn to spare."""
    for level in LEVELS:
        setup = parse_line(level.setup)
        assert set(setup) <= set(FACE_MOVES), level.id
        assert len(tidy(setup).turns) == len(setup), level.id


def test_open_slots_are_unsolved() -> None:
    """A setup leaves every open slot unsolved: it is not open in name only."""
    for level in LEVELS:
        cube = SOLVED.turn(parse_line(level.setup))
        assert not [slot for slot in level.open if is_pair_solved(cube, slot)], level.id


def test_lines_in_notes_are_not_too_long() -> None:
    """A line in a note is never longer than par and has no turn to spare."""
    for level in LEVELS:
        for line in _lines(level):
            assert len(tidy(line).turns) == len(line) <= level.par, level.id


def test_lines_in_notes_keep_to_the_faces() -> None:
    """No note shows a turn that its level forbids."""
    for level in LEVELS:
        turned = {turned_face(move) for line in _lines(level) for move in line}
        assert turned <= set(level.faces), level.id


def test_every_level_teaches() -> None:
    """Every level has a note."""
    assert [level.id for level in LEVELS if not level.note.strip()] == []
