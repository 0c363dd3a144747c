"""When something goes wrong that nobody foresaw: a file that tells what, for whoever mends it.

The file has the traceback, the versions, the terminal and the last keys. It has no record and no
name: names that are known here are blanked out, and so is the path of the home folder, which often
ends in one.
"""

from __future__ import annotations

import os
import re
from collections.abc import Collection, Iterable, Mapping
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from game import __version__

MOST_FILES = 10
"""Files that are kept; the oldest go first."""
MOST_BYTES = 200_000
"""Of a file; of a longer text the middle is left out."""
MOST_KEYS = 100
"""Last keys that are told."""
STATUS = 70
"""The exit status of a process that ends like this (`EX_SOFTWARE` of BSD's sysexits.h)."""
BLANK = "(a name)"
CUT = "\n[...]\n"
_PACKAGES = ("textual", "rich", "numpy")
_TERMINAL = ("TERM", "COLORTERM", "TERM_PROGRAM", "NO_COLOR", "LANG", "LC_ALL", "TEXTUAL_DRIVER")


def keep(
    folder: Path,
    error: BaseException,
    at: datetime,
    *,
    facts: Mapping[str, str] | None = None,
    keys: Iterable[str] = (),
    names: Collection[str] = (),
) -> Path | None:
    """Write what happened into a new file of the folder; None where nothing can be written.

    at: when it happened. facts: more lines, like the screen and its size. keys: the last ones, the
    oldest first. names: to be blanked out.
    """
    text = _text(error, at, facts or {}, list(keys)[-MOST_KEYS:], names)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        path = _free(folder, at)
        _write(path, _bounded(text))
    except OSError:
        return None
    _drop_oldest(folder)
    return path


def words(path: Path | None) -> str:
    """The one line that the player sees."""
    where = f"told in {path}" if path is not None else "no file could be written to tell it"
    return f"something went wrong; what was played is kept; {where}"


def words_of_command(path: Path | None) -> str:
    """The same for a command, which plays nothing."""
    where = f"told in {path}" if path is not None else "no file could be written to tell it"
    return f"something went wrong; {where}"


def _text(
    error: BaseException,
    at: datetime,
    facts: Mapping[str, str],
    keys: list[str],
    names: Collection[str],
) -> str:
    import platform  # noqa: PLC0415 - all that is only needed now
    import traceback  # noqa: PLC0415

    told = {"Pairwright": __version__, "at": at.isoformat(timespec="seconds")}
    told |= {"Python": platform.python_version(), "system": platform.platform()}
    told |= {package: _version(package) for package in _PACKAGES}
    told |= {name: os.environ[name] for name in _TERMINAL if name in os.environ}
    told |= facts
    lines = [f"{name}: {_plain(value)}" for name, value in told.items()]
    if keys:
        lines += ["", f"the last {len(keys)} keys:", " ".join(map(_plain, keys))]
    lines += ["", *traceback.format_exception(error)]
    return _without_names("\n".join(line.rstrip("\n") for line in lines) + "\n", names)


def _version(package: str) -> str:
    from importlib.metadata import PackageNotFoundError, version  # noqa: PLC0415 - heavy

    try:
        return version(package)
    except PackageNotFoundError:
        return "not installed"


def _plain(text: str) -> str:
    """The text with everything that cannot be seen as an escape."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def _without_names(text: str, names: Collection[str]) -> str:
    with suppress(RuntimeError):  # no home folder
        text = text.replace(str(Path.home()), "~")
    for name in sorted((name for name in names if name.strip()), key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", BLANK, text, flags=re.IGNORECASE)
    return text


def _bounded(text: str) -> bytes:
    """The text in UTF-8, its middle left out where it is too long."""
    whole = text.encode("utf-8", "backslashreplace")
    if len(whole) <= MOST_BYTES:
        return whole
    half = (MOST_BYTES - len(CUT)) // 2
    parts = (whole[:half], whole[-half:])
    first, last = (part.decode("utf-8", "ignore").encode() for part in parts)
    return first + CUT.encode() + last


def _free(folder: Path, at: datetime) -> Path:
    """A name that sorts by date and is not taken."""
    paths = (folder / f"mishap-{at:%Y%m%d-%H%M%S-%f}-{count}.txt" for count in range(1, 10))
    return next((path for path in paths if not path.exists()), folder / "mishap.txt")


def _write(path: Path, content: bytes) -> None:
    """Write it whole or not at all. Raises OSError."""
    import tempfile  # noqa: PLC0415 - likewise

    number, name = tempfile.mkstemp(dir=path.parent, prefix=".mishap-")
    try:
        with os.fdopen(number, "wb") as file:
            file.write(content)
        Path(name).replace(path)
    except OSError:
        with suppress(OSError):
            Path(name).unlink()
        raise


def _drop_oldest(folder: Path) -> None:
    with suppress(OSError):
        for path in sorted(folder.glob("mishap*.txt"))[:-MOST_FILES]:
            path.unlink()
