"""Notes: text that names colours, sides, slots and turns by placeholders.

A note is written once, for the level as its setup makes it, and stays true in other colours and
for the level's twins: what a placeholder names is moved by the twin's symmetry before it is put
into words.

    {cross} {top}                    colours of the cross and of the face opposite
    {colour F}                       colour of the centre of a face, any of F B R L U D
    {front} {back} {left} {right}    that side, as a word
    {slot FR}                        that slot, by name
    {turns R U' R'}                  a line of turns

A brace that is no part of a placeholder is refused, so that a slip shows when the pack is read.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache

from game.cube import line
from game.cube.geometry import FACES, UNMOVED, Matrix
from game.cube.moves import line_text, parse_line
from game.cube.pair import SLOTS
from game.cube.symmetry import face_image, slot_image
from game.cube.words import SIDE
from game.errors import NotationError, did_you_mean, printable

_FACE_OF = {SIDE[face]: face for face in "FBLR"}
_ALONE = ("cross", "top", *_FACE_OF)
_WITH = {"colour": "a face", "slot": "a slot", "turns": "a line"}
_BRACES = re.compile(r"\{([^{}]*)\}|[{}]")


def check_note(text: str) -> None:
    """Raises NotationError, which points at the first placeholder that cannot be filled in."""
    if not all(map(_is_placeholder, _BRACES.findall(text))):
        _replaced(text, lambda word, argument: "")


@lru_cache(maxsize=1024)
def _is_placeholder(inside: str) -> bool:
    """Whether braces with this inside can be filled in. Most notes have those of others."""
    try:
        _replaced(f"{{{inside}}}", lambda word, argument: "")
    except NotationError:
        return False
    return True


def fill_note(text: str, colours: Mapping[str, str], symmetry: Matrix = UNMOVED) -> str:
    """The note in words.

    colours: centre -> colour name, by face; symmetry: the one of `symmetry.UPRIGHT` that shows
    the level as it is played. Raises NotationError as `check_note` does.
    """

    def words(word: str, argument: str) -> str:
        if word in _FACE_OF:
            return SIDE[face_image(_FACE_OF[word], symmetry)]
        if word == "slot":
            return slot_image(argument, symmetry)
        if word == "turns":
            return line_text(line.image(parse_line(argument), symmetry))
        face = {"cross": "D", "top": "U"}.get(word, argument)
        return colours[face_image(face, symmetry)]

    return _replaced(text, words)


def _replaced(text: str, words: Callable[[str, str], str]) -> str:
    """The text with each placeholder, once it is found right, put into words."""

    def replaced(match: re.Match[str]) -> str:
        if match[1] is None:
            problem = f'"{match[0]}" stands alone; a placeholder is a word between {{ and }}'
            raise NotationError(text, match.start(), 1, problem)
        word, _, argument = match[1].partition(" ")
        _check(text, match, word, argument)
        return words(word, argument)

    return _BRACES.sub(replaced, text)


def _check(text: str, match: re.Match[str], word: str, argument: str) -> None:
    """Raises NotationError when the placeholder is unknown or cannot have this argument."""
    place, length = match.span(1)[0], max(1, len(match[1]))
    if word not in _ALONE and word not in _WITH:
        known = " ".join((*_ALONE, *_WITH))
        hint = did_you_mean(word, (*_ALONE, *_WITH)) or f"; expected one of {known}"
        raise NotationError(text, place, length, f'unknown placeholder "{printable(word)}"{hint}')
    if word in _ALONE and match[1] != word:
        raise NotationError(text, place, length, f"{{{word}}} stands without anything after it")
    if word in _WITH and not argument.strip():
        problem = f"{{{word} ...}} needs {_WITH[word]} after it"
        raise NotationError(text, place, length, problem)
    at = place + len(word) + 1
    if word == "colour" and argument not in tuple(FACES):
        problem = f'unknown face "{printable(argument)}"; expected one of {" ".join(FACES)}'
        raise NotationError(text, at, len(argument), problem)
    if word == "slot" and argument not in SLOTS:
        hint = did_you_mean(argument, SLOTS) or "; expected FR, FL, BL or BR"
        raise NotationError(text, at, len(argument), f'unknown slot "{printable(argument)}"{hint}')
    if word == "turns":
        try:
            parse_line(argument)
        except NotationError as error:
            raise NotationError(text, at + error.place, error.length, error.problem) from error
