"""Where the files are."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from game.errors import SettingsError
from game.folders import dated, folders, move_aside


def test_data_dir_holds_everything(tmp_path: Path) -> None:
    """With a data folder named, every file is below it, and naming it creates nothing."""
    found = folders(tmp_path / "home")
    for path in (found.records, found.settings, found.cache, found.mishaps):
        assert path.is_relative_to(tmp_path / "home")
    assert list(tmp_path.iterdir()) == []


def test_platform_folders_follow_the_environment(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Without one, the folders are those of the XDG base directories (freedesktop.org, 0.8)."""
    monkeypatch.setattr("sys.platform", "linux")
    for kind in ("DATA", "CONFIG", "CACHE", "STATE"):
        monkeypatch.setenv(f"XDG_{kind}_HOME", str(tmp_path / kind))
    found = folders()
    assert found.data == tmp_path / "DATA" / "pairwright"
    assert found.config == tmp_path / "CONFIG" / "pairwright"
    assert found.cache == tmp_path / "CACHE" / "pairwright"
    assert found.state == tmp_path / "STATE" / "pairwright"


def test_a_relative_data_dir_is_made_absolute(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A relative folder means the one below where the command was given; ~ means home."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", str(tmp_path / "me"))
    assert folders("here").data == tmp_path / "here"
    assert folders("~/there").data == tmp_path / "me" / "there"


@pytest.mark.parametrize("name", ["", "a\0b", "~nobody-of-this-name/x"])
def test_a_data_dir_that_is_none(name: str) -> None:
    """A name that no folder can have is refused."""
    with pytest.raises(SettingsError, match="data folder"):
        folders(name)


def test_moving_aside_overwrites_nothing(tmp_path: Path) -> None:
    """Files moved aside in the same second get different names, each with its content."""
    path = tmp_path / "records.db"
    targets = []
    for content in ("first", "second", "third"):
        path.write_text(content)
        targets.append(move_aside(path, "damaged"))
    assert [target.read_text() for target in targets] == ["first", "second", "third"]
    assert not path.exists()
    assert all(
        re.fullmatch(r"records\.db\.damaged-\d{8}-\d{6}(-\d+)?", target.name) for target in targets
    )


def test_a_dated_name_is_free(tmp_path: Path) -> None:
    """A link that leads nowhere also takes a name."""
    path = tmp_path / "records.db"
    taken = dated(path, "old")
    taken.symlink_to(tmp_path / "nowhere")
    assert dated(path, "old") != taken
