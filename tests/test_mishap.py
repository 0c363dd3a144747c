"""What is kept of a mishap: a file without names and records, bounded, the last ten."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from game import mishap

AT = datetime(2026, 3, 4, 18, 30, 15, tzinfo=UTC)


def broken(message: str = "it broke") -> Exception:
    """An error that was really raised, so that it has a traceback."""
    try:
        raise RuntimeError(message)
    except RuntimeError as error:
        return error


def kept(folder: Path, error: Exception, **more: object) -> str:
    path = mishap.keep(folder, error, AT, **more)  # type: ignore[arg-type]
    assert path is not None
    return path.read_text("utf-8")


def test_it_has_what_is_needed_to_mend_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The traceback, the versions, the terminal, the facts and the last keys stand in it."""
    monkeypatch.setenv("TERM", "xterm-256color")
    text = kept(tmp_path, broken(), facts={"screen": "play"}, keys=["r", "shift+u"])
    assert "RuntimeError: it broke" in text
    assert f"in {broken.__name__}" in text
    assert "Pairwright: " in text and "textual: " in text
    assert "TERM: xterm-256color\n" in text
    assert "screen: play\n" in text
    assert "the last 2 keys:\nr shift+u\n" in text


def test_only_the_last_keys_are_told(tmp_path: Path) -> None:
    """A hundred keys are enough."""
    text = kept(tmp_path, broken(), keys=[f"k{n}" for n in range(300)])
    assert "k200 " in text and "k199 " not in text


def test_no_name_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names and the home folder are blanked out, in messages too; parts of words are left."""
    monkeypatch.setenv("HOME", "/home/kofi")
    error = broken("no such player: Kofi, in /home/kofi/game; Kofibo is another")
    text = kept(tmp_path, error, names=["Kofi", ""])
    assert "no such player: (a name), in ~/game; Kofibo is another" in text
    assert "/home/kofi" not in text


def test_it_is_bounded(tmp_path: Path) -> None:
    """Of a text that is too long the beginning and the end are kept, as text."""
    text = kept(tmp_path, broken("é" * 500_000))
    assert len(text.encode()) <= mishap.MOST_BYTES
    assert text.startswith("Pairwright: ") and text.endswith("é\n") and "\n[...]\n" in text


def test_what_is_no_text_is_told_as_escapes(tmp_path: Path) -> None:
    """Half characters and control characters raise nothing and move no cursor."""
    text = kept(tmp_path, broken("\ud800"), keys=["\x1b", "\udcff"])
    assert "\\x1b \\udcff" in text and "\\ud800" in text


def test_ten_files_are_kept(tmp_path: Path) -> None:
    """The oldest go first; those of one moment get names of their own."""
    for second in range(12):
        assert mishap.keep(tmp_path, broken(f"number {second}"), AT + timedelta(seconds=second))
    assert mishap.keep(tmp_path, broken("number 12"), AT + timedelta(seconds=11))
    texts = [path.read_text("utf-8") for path in sorted(tmp_path.iterdir())]
    assert len(texts) == mishap.MOST_FILES
    assert "number 3" in texts[0] and "number 12" in texts[-1]


def test_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    """Then there is no file, and the line says so."""
    (tmp_path / "file").write_text("")
    path = mishap.keep(tmp_path / "file" / "x", broken(), AT)
    assert path is None
    assert "no file could be written" in mishap.words(path)
