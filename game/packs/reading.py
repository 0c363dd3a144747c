"""Reading one pack: TOML to values, every fault of the file found in one go."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from stat import S_ISREG
from typing import Any

import tomli

from game.cube.cube import PIECE_OF, SOLVED, Cube
from game.cube.geometry import FACES, STICKERS
from game.cube.line import Line
from game.cube.moves import parse_line
from game.cube.pair import CROSS_EDGES, SLOT, SLOTS, is_goal, parse_faces
from game.cube.symmetry import TWINS
from game.errors import Fault, NotationError, PackError, PositionError, did_you_mean, printable
from game.packs.fields import Faults, Fields, number_words, type_words
from game.packs.level import Level, Pack
from game.packs.notes import check_note
from game.play.position import VIEWS

FORMAT = 1
MAX_BYTES = 1_000_000
"""Size of a pack's file at most."""
MAX_LEVELS = 500
MAX_PAR = 20
"""No cube is farther from solved (Rokicki, Kociemba, Davidson, Dethridge, 2014)."""
MAX_ID, MAX_NAME, MAX_NOTE = 40, 40, 800
MAX_TITLE, MAX_ABOUT, MAX_AUTHOR, MAX_LICENCE = 60, 200, 80, 40
"""Characters at most."""

_PACK_KEYS = ("format", "title", "about", "author", "licence", "level")
_LEVEL_KEYS = ("id", "name", "setup", "open", "faces", "view", "par", "note", "twins")
_LEVEL_OPTIONAL = ("open", "faces", "view", "twins")
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_SENTENCE = re.compile(r"[^.!?]+([.!?](?! )[^.!?]*)*[.!?]")


def shown_path(path: Path) -> str:
    """The path as messages name it: from the working folder where it lies below that."""
    with suppress(ValueError, OSError):
        path = path.relative_to(Path.cwd())
    return printable(str(path), 300)


def load_pack(path: Path) -> Pack:
    """The pack in a TOML file. Raises PackError with every fault found in it."""
    file = shown_path(path)
    faults = Faults(file)
    pack = _pack(_table(_bytes(path, file), file), path, faults)
    if faults.found:
        raise PackError(tuple(faults.found))
    return pack


# -- the file: its one fault is raised at once ---------------------------------------------------


def _error(file: str, problem: str, caret: str = "") -> PackError:
    return PackError((Fault(file, "", "", problem, caret),))


def _bytes(path: Path, file: str) -> bytes:
    try:
        status = path.stat()
        if S_ISREG(status.st_mode) and status.st_size <= MAX_BYTES:
            with path.open("rb") as opened:
                return opened.read(MAX_BYTES)
    except OSError as error:
        raise _error(file, f"cannot be read: {error.strerror or error}") from error
    if not S_ISREG(status.st_mode):  # reading a pipe or device could go on for ever
        raise _error(file, "is not a file")
    raise _error(file, f"{status.st_size} bytes; a pack has at most {MAX_BYTES}")


def _table(data: bytes, file: str) -> dict[str, Any]:
    try:
        return tomli.loads(data.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        row = data.count(b"\n", 0, error.start) + 1
        raise _error(file, f"line {row}: not UTF-8 text") from error
    except tomli.TOMLDecodeError as error:
        line = error.doc.split("\n")[error.lineno - 1]
        shown = NotationError(line, error.colno - 1, 1, "")
        problem = error.msg[:1].lower() + error.msg[1:]
        problem = f"line {error.lineno}, column {error.colno}: {printable(problem, 80)}"
        raise _error(file, problem, shown.caret()) from error
    except ValueError as error:  # what Python refuses to make a number of
        raise _error(file, "a number has too many digits") from error
    except RecursionError as error:
        raise _error(file, "lists or tables are nested too deep") from error


# -- the pack ------------------------------------------------------------------------------------


def _pack(table: dict[str, Any], path: Path, faults: Faults) -> Pack:
    id_ = path.name.removesuffix(".toml")
    fields = Fields(table, faults)
    form = fields.integer("format")
    if form not in (None, FORMAT):
        problem = f"{number_words(form or 0)}; this program reads format {FORMAT}"
        faults.add("format", problem)
        return Pack(id_, "", "", "", "", (), path)  # what else that format means is not known
    fields.check_keys(_PACK_KEYS)
    if id_ == path.name or not _ID.fullmatch(id_):
        faults.add("", 'the name of a pack\'s file is a-z, 0-9 and single hyphens, then ".toml"')
    title = fields.text("title", MAX_TITLE)
    about = fields.text("about", MAX_ABOUT, prose=True)
    if about and not _SENTENCE.fullmatch(about):
        faults.add("about", "expected one sentence that ends in a full stop")
    author = fields.text("author", MAX_AUTHOR)
    licence = fields.text("licence", MAX_LICENCE)
    levels = tuple(_levels(table.get("level"), faults))
    return Pack(id_, title, about, author, licence, levels, path)


def _levels(tables: object, faults: Faults) -> Iterator[Level]:
    if tables is None:
        return
    if not isinstance(tables, list) or not all(isinstance(each, dict) for each in tables):
        faults.add("level", f"expected tables, each headed [[level]], found {type_words(tables)}")
        return
    if not tables:
        faults.add("level", "no levels")
    if len(tables) > MAX_LEVELS:
        faults.add("level", f"{len(tables)} levels; a pack has at most {MAX_LEVELS}")
    seen: dict[str, dict[str, int]] = {"id": {}, "name": {}}
    for number, table in enumerate(tables[:MAX_LEVELS], 1):
        faults.level = _label(table.get("id"), number)
        level = _level(Fields(table, faults))
        for key, value in (("id", level.id), ("name", level.name)):
            first = seen[key].setdefault(value, number)
            if value and first != number:
                faults.add(key, f'"{value}" is that of level {first} too')
        yield level
    faults.level = ""


def _label(id_: object, number: int) -> str:
    """What a message calls the level: by its id, or by its number when that cannot be shown."""
    shown = isinstance(id_, str) and len(id_) <= MAX_ID and _ID.fullmatch(id_)
    return str(id_) if shown else f"#{number}"


def _level(fields: Fields) -> Level:
    fields.check_keys(_LEVEL_KEYS, _LEVEL_OPTIONAL)
    id_ = fields.text("id", MAX_ID)
    if id_ and not _ID.fullmatch(id_):
        fields.faults.add("id", f'"{id_}"; expected a-z, 0-9 and single hyphens between them')
    name = fields.text("name", MAX_NAME)
    setup, open_, faces = _start(fields)
    view, par, note = _view(fields), _par(fields), _note(fields)
    twins = fields.words("twins", "twin", TWINS)
    return Level(id_, name, setup, open_, faces, view, par, note, twins)


def _start(fields: Fields) -> tuple[str, tuple[str, ...], str]:
    """Setup, open slots and faces; together they must make something to solve."""
    faults = fields.faults
    before = len(faults.found)
    setup = fields.string("setup")
    line = _line(setup, faults)
    open_ = fields.words("open", "slot", SLOTS)
    faces = _faces(fields)
    if len(faults.found) == before and "setup" in fields.table:
        cube = SOLVED.turn(line)
        solve = tuple(slot for slot in SLOTS if slot not in open_)
        if is_goal(cube, solve):
            faults.add("setup", "solved from the start")
        elif _is_stuck(cube.upright, solve, faces):
            faults.add(
                "faces", f"a piece to solve lies where no turn of {' '.join(faces)} moves it"
            )
    return setup, open_, faces


def _line(setup: str, faults: Faults) -> Line:
    try:
        return parse_line(setup)
    except NotationError as error:
        faults.add_notation("setup", error)
        return ()


def _is_stuck(cube: Cube, solve: tuple[str, ...], faces: str) -> bool:
    """Whether a piece that is not where it must end lies on none of the faces."""
    if faces == FACES:  # every piece lies on one
        return False
    homes = [*CROSS_EDGES, *(home for slot in solve for home in SLOT[slot].home)]
    astray = [cube.where[home] for home in homes if cube.where[home] != home]
    return any(
        all(STICKERS[sticker].face not in faces for sticker in PIECE_OF[place]) for place in astray
    )


def _faces(fields: Fields) -> str:
    try:
        return parse_faces(fields.string("faces", FACES))
    except PositionError as error:
        fields.faults.add("faces", str(error))
        return FACES


def _view(fields: Fields) -> str:
    view = fields.string("view", VIEWS[0])
    if view not in VIEWS:
        hint = did_you_mean(view, VIEWS) or f"; expected {' or '.join(VIEWS)}"
        fields.faults.add("view", f'unknown view "{printable(view)}"{hint}')
    return view


def _par(fields: Fields) -> int:
    par = fields.integer("par")
    if par is not None and not 1 <= par <= MAX_PAR:
        fields.faults.add("par", f"{number_words(par)}; expected 1 to {MAX_PAR}")
    return par or 0


def _note(fields: Fields) -> str:
    note = fields.text("note", MAX_NOTE, prose=True)
    try:
        check_note(note)
    except NotationError as error:
        fields.faults.add_notation("note", error)
    return note
