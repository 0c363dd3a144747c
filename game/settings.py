"""What the player chose: a small TOML file, checked key by key.

A file that a hand has edited is read as far as it is right: a key with a fault is reported, with
what was expected, and its default is used. Such a file, or one that cannot be read at all, is
never overwritten: it is moved aside first.
"""

from __future__ import annotations

import contextlib
import os
import tempfile
from dataclasses import dataclass, fields
from errno import EEXIST
from pathlib import Path
from typing import Any

import tomli

from game.cube.colours import COLOURS, colour_scheme
from game.draw.depth import DEPTHS
from game.errors import SettingsError, did_you_mean, printable
from game.folders import move_aside

CHOICES: dict[str, tuple[str, ...]] = {
    "cross": COLOURS,
    "front": COLOURS,
    "drawing": ("cube", "flat", "plain"),
    "far_side": ("always", "asked", "never"),
    "colours": ("auto", *DEPTHS),
    "view": ("level", "focus", "full"),
}
"""The words that a setting may be, where there is a choice of them."""

MAX_PLAYER = 40
MAX_BYTES = 65_536
MAX_TOLD = 5
"""Faults of a file that are told one by one."""
MAX_SHOWN = 40
"""Characters of a value that a message shows."""


@dataclass(frozen=True)
class Settings:
    """What the player chose. Raises SettingsError for a value that cannot be.

    cross, front: the colours below and in front. letters: on the stickers. drawing: how the cube
    is drawn. far_side: when it is shown. colours: how many the terminal has. animation: turns are
    seen turning. call: par is hidden and called. view: the level's own, or always one. player: a
    name, may be empty.
    """

    cross: str = "white"
    front: str = "green"
    letters: bool = False
    drawing: str = "cube"
    far_side: str = "always"
    colours: str = "auto"
    animation: bool = True
    call: bool = False
    view: str = "level"
    player: str = ""

    def __post_init__(self) -> None:
        for key in KEYS:
            problem = _problem(key, getattr(self, key))
            if problem:
                raise SettingsError(f"{key}: {problem}")
        colour_scheme(self.cross, self.front)


KEYS = tuple(field.name for field in fields(Settings))


def load_settings(path: Path) -> tuple[Settings, str]:
    """The settings in a file, and what is wrong with the file, one line a fault; else nothing.

    No file means the defaults. A file that is too large or no TOML is moved aside.
    """
    try:
        values, faults = _read(path)
    except SettingsError as error:
        return Settings(), _told_aside(path, str(error))
    except OSError as error:
        return Settings(), f"{path}: cannot be read: {error.strerror}; the defaults are used"
    return Settings(**values), "\n".join(f"{path}: {fault}" for fault in _few(faults))


def save_settings(path: Path, settings: Settings) -> None:
    """Write the settings, all at once or not at all; a faulty file there is moved aside first.

    Raises SettingsError when the file cannot be written.
    """
    import json  # noqa: PLC0415 - not before the first picture

    lines = (f"{key} = {json.dumps(getattr(settings, key), ensure_ascii=False)}" for key in KEYS)
    try:
        target = path.resolve()  # the file itself where the name is a link to it
        target.parent.mkdir(parents=True, exist_ok=True)
        if _is_faulty(target):
            move_aside(target, "faulty")
        _replace(target, "\n".join([*lines, ""]).encode())
    except (OSError, RuntimeError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise SettingsError(f"the settings cannot be saved in {path}: {why}") from None


def _replace(path: Path, content: bytes) -> None:
    """Put a whole new file in the place of a file, or change nothing. Raises OSError."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
    new = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        new.replace(path)
    except OSError:
        with contextlib.suppress(OSError):
            new.unlink()
        raise


def _is_faulty(path: Path) -> bool:
    try:
        return bool(_read(path)[1])
    except SettingsError:
        return True


def _read(path: Path) -> tuple[dict[str, Any], list[str]]:
    """The values that are right, and what is wrong with the others.

    Raises SettingsError for a file that is too large or no TOML, OSError for one that cannot be
    read.
    """
    if not path.exists():
        return {}, []
    if not path.is_file():
        raise FileExistsError(EEXIST, "it is no file")
    with path.open("rb") as file:
        raw = file.read(MAX_BYTES + 1)
    if len(raw) > MAX_BYTES:
        raise SettingsError(f"more than {MAX_BYTES} bytes")
    try:
        found = tomli.loads(raw.decode())
    except UnicodeDecodeError:
        raise SettingsError("not UTF-8 text") from None
    except RecursionError:
        raise SettingsError("nested too deeply") from None
    except ValueError as error:
        raise SettingsError(f"no TOML: {printable(str(error), 120)}") from None
    return _sorted_out(found)


def _sorted_out(found: dict[str, Any]) -> tuple[dict[str, Any], list[str]]:
    values: dict[str, Any] = {}
    faults = []
    for key, value in found.items():
        problem = _problem(key, value)
        if problem:
            faults.append(f"{printable(key, MAX_SHOWN)}: {problem}")
        else:
            values[key] = value
    try:
        colour_scheme(values.get("cross", Settings.cross), values.get("front", Settings.front))
    except SettingsError as error:
        values.pop("cross", None)
        values.pop("front", None)
        faults.append(f"cross, front: {error}")
    return values, faults


def _problem(key: str, value: Any) -> str:
    """What is wrong with a setting, with what was expected; nothing when it is right."""
    if key not in KEYS:
        return f"unknown setting{did_you_mean(key, KEYS)}"
    if key in CHOICES:
        return _choice_problem(value, CHOICES[key])
    if key == "player":
        if isinstance(value, str) and len(value) <= MAX_PLAYER and value.isprintable():
            return ""
        return f"expected a name of at most {MAX_PLAYER} printable characters"
    return "" if isinstance(value, bool) else f"{_shown(value)}; expected true or false"


def _choice_problem(value: Any, choices: tuple[str, ...]) -> str:
    if isinstance(value, str) and value in choices:
        return ""
    hint = did_you_mean(value, choices) if isinstance(value, str) else ""
    return f"{_shown(value)}{hint or '; expected one of ' + ', '.join(choices)}"


def _shown(value: Any) -> str:
    import json  # noqa: PLC0415 - not before the first picture

    if isinstance(value, str):
        return json.dumps(printable(value, MAX_SHOWN))
    try:
        shown = repr(value)
    except (ValueError, RecursionError):  # a number of thousands of digits, a thousand tables
        shown = f"a {type(value).__name__} too large to be shown"
    return printable(shown, MAX_SHOWN)


def _few(faults: list[str]) -> list[str]:
    more = len(faults) - MAX_TOLD
    return [*faults[:MAX_TOLD], f"and {more} more faults"] if more > 0 else faults


def _told_aside(path: Path, problem: str) -> str:
    """Move a file that cannot be used aside; one line that says so."""
    try:
        target = move_aside(path, "damaged")
    except OSError:
        return f"{path}: {problem}; the defaults are used"
    return f"{path}: {problem}; moved aside to {target.name}, the defaults are used"
