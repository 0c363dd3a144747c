"""Turns and rotations, by name: WCA Regulations Article 12 and the trade's M, E, S.

A move turns some of the three layers across an axis:

    axis x   layers  1 R    0 M   -1 L
    axis y   layers  1 U    0 E   -1 D
    axis z   layers  1 F    0 S   -1 B

    one outer layer   F B R L U D            12a1
    two layers        Fw Rw ..., also 2Rw    12a2 (on a 3x3x3 these are the same)
    all three         x as R, y as U, z as F  12a4
    the middle        M as L, E as D, S as F  common practice, no source
    lower-case f b r l u d mean the wide turns: common practice, no source

A letter alone is a quarter clockwise, seen from its face; ' is the other way; 2 is a half turn
(2' too, since hands write it). Typographic primes are taken as '.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from game.cube import geometry
from game.cube.geometry import FACES, NORMAL, Matrix, Permutation
from game.errors import NotationError, printable

MAX_TEXT = 4000
"""Characters of a line that are read at most."""
MAX_MOVES = 400
"""Moves of a line that are read at most."""

SUFFIX = {1: "", 2: "2", 3: "'"}
QUARTERS = {"": 1, "2": 2, "'": 3, "2'": 2}
PRIMES = "'’‘′ʹʼ`´"


class Move(NamedTuple):
    """A turn of layers: axis 0..2 for x, y, z; layer coordinates; quarters 1..3.

    Quarters are clockwise as seen from the axis' positive end (R, U, F), whatever the name.
    """

    axis: int
    layers: frozenset[int]
    quarters: int

    @property
    def name(self) -> str:
        """The name in notation, as `parse_move` reads it."""
        return _NAMES[self]

    def __repr__(self) -> str:
        return f"parse_move({self.name!r})"

    @property
    def is_rotation(self) -> bool:
        """Whether it only changes the grip."""
        return self.layers == geometry.WHOLE

    @property
    def inverse(self) -> Move:
        """The move that undoes it."""
        return Move(self.axis, self.layers, 4 - self.quarters)

    @property
    def matrix(self) -> Matrix:
        """The rotation of space that its layers go through."""
        return geometry.clockwise(self.axis, self.quarters)


@cache
def permutation(move: Move) -> Permutation:
    """What the move does to the 54 stickers."""
    return geometry.permutation(move.matrix, move.layers, move.axis)


@cache
def table(move: Move) -> bytes:
    """The same as a table for `bytes.translate`, which turns a cube of bytes at once."""
    return bytes(permutation(move)).ljust(256, b"\0")


def _letters() -> dict[str, tuple[int, frozenset[int], int]]:
    """Letter -> axis, layers, and the clockwise sense of one quarter (1 or 3)."""
    letters = {}
    for face in FACES:
        normal = NORMAL[face]
        axis = next(i for i in range(3) if normal[i])
        sense = 1 if normal[axis] == 1 else 3
        letters[face] = (axis, frozenset((normal[axis],)), sense)
        letters[face + "w"] = (axis, frozenset((normal[axis], 0)), sense)
    for letter, like in (("M", "L"), ("E", "D"), ("S", "F")):
        axis, _, sense = letters[like]
        letters[letter] = (axis, frozenset((0,)), sense)
    for letter, like in (("x", "R"), ("y", "U"), ("z", "F")):
        axis, _, sense = letters[like]
        letters[letter] = (axis, geometry.WHOLE, sense)
    return letters


_LETTERS = _letters()
MOVES: dict[str, Move] = {
    letter + suffix: Move(axis, layers, sense * quarters % 4)
    for letter, (axis, layers, sense) in _LETTERS.items()
    for quarters, suffix in SUFFIX.items()
}
"""All 54 moves by name: six faces, six wide, three slices, three rotations, each three ways."""
_NAMES: dict[Move, str] = {move: name for name, move in MOVES.items()}

FACE_MOVES: tuple[Move, ...] = tuple(MOVES[f + s] for f in FACES for s in ("", "2", "'"))
"""The 18 turns of a face: F F2 F' B B2 B' ..."""


def turned_face(move: Move) -> str:
    """The face that a turn of one outer layer turns."""
    return move.name[0]


_TOKEN = r"(2?[FBRLUD]w|[FBRLUDfbrludMESxyz](?![wW]))(2'|2|'|)(?![0-9'])"
_WORD = r"[0-9]*[A-Za-z][wW]?[0-9']*|[^\sA-Za-z]+|."
_EXPECTED = "expected F B R L U D, wide Fw ... Dw, M E S or x y z, each alone or with ' or 2"


def parse_line(text: str) -> tuple[Move, ...]:
    """The moves of a line, written with or without spaces.

    Raises NotationError, which points at the first thing that is no move, or says that the line
    is longer than `MAX_TEXT` characters or `MAX_MOVES` moves.
    """
    if len(text) > MAX_TEXT:
        problem = f"{len(text)} characters; a line has at most {MAX_TEXT}"
        raise NotationError(text[: MAX_TEXT + 1], MAX_TEXT, 1, problem)
    words = text.split()
    if len(words) <= MAX_MOVES and all(word in MOVES for word in words):  # as most lines are
        return tuple(MOVES[word] for word in words)
    plain = text.translate(dict.fromkeys(map(ord, PRIMES), "'"))
    token_at = re.compile(_TOKEN).match
    moves: list[Move] = []
    at = 0
    while at < len(plain):
        if plain[at].isspace():
            at += 1
            continue
        token = token_at(plain, at)
        if token is None:
            raise _unknown(text, plain, at)
        if len(moves) == MAX_MOVES:
            problem = f"more than {MAX_MOVES} moves; that is the most a line may have"
            raise NotationError(text, at, len(token[0]), problem)
        letter, suffix = token[1].removeprefix("2"), token[2]
        if letter in "fbrlud":
            letter = letter.upper() + "w"
        moves.append(MOVES[letter + SUFFIX[QUARTERS[suffix]]])
        at = token.end()
    return tuple(moves)


def _unknown(text: str, plain: str, at: int) -> NotationError:
    """The error for what stands at `at`, with a suggestion where one is plain."""
    if plain[at] in "()[]{},;.":
        what = "a comma" if plain[at] == "," else f'"{plain[at]}"'
        return NotationError(text, at, 1, f"{what} is no turn; write turns with spaces only")
    word_match = re.compile(_WORD).match(plain, at)
    word = word_match[0] if word_match else plain[at]
    meant = (
        word.capitalize(),  # rw, RW, m
        word.lower(),  # X
        word.removesuffix("'2") + "2",
        word.removesuffix("3") + "'",
    )
    hints = (f'did you mean "{name}"?' for name in meant if re.fullmatch(_TOKEN, name))
    problem = f'unknown turn "{printable(word)}"; {next(hints, _EXPECTED)}'
    return NotationError(text, at, len(word), problem)


def parse_move(text: str) -> Move:
    """The one move that the text names. Raises NotationError."""
    moves = parse_line(text)
    if len(moves) != 1:
        raise NotationError(text, 0, len(text), f"{len(moves)} moves; expected one")
    return moves[0]


def line_text(moves: tuple[Move, ...] | list[Move]) -> str:
    """The line in notation, with single spaces; `parse_line` reads it back."""
    return " ".join(move.name for move in moves)
