"""The file of settings: read, faulty, damaged, written."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.colours import COLOURS, colour_scheme
from game.errors import SettingsError
from game.settings import CHOICES, KEYS, MAX_BYTES, Settings, load_settings, save_settings


def pairs() -> list[tuple[str, str]]:
    """Cross and front colours that are neighbours."""
    found = []
    for cross in COLOURS:
        for front in COLOURS:
            try:
                colour_scheme(cross, front)
            except SettingsError:
                continue
            found.append((cross, front))
    return found


@st.composite
def any_settings(draw: st.DrawFn) -> Settings:
    """Every setting that can be."""
    cross, front = draw(st.sampled_from(pairs()))
    words: dict[str, Any] = {
        key: draw(st.sampled_from(words))
        for key, words in CHOICES.items()
        if key not in ("cross", "front")
    }
    flags: dict[str, Any] = {key: draw(st.booleans()) for key in ("letters", "animation", "call")}
    player = draw(st.text(max_size=40).filter(str.isprintable))
    return Settings(cross=cross, front=front, player=player, **words, **flags)


@given(any_settings())
def test_round_trip(tmp_path_factory: pytest.TempPathFactory, settings: Settings) -> None:
    """What is saved is what is loaded, names in any script included."""
    path = tmp_path_factory.mktemp("settings") / "settings.toml"
    save_settings(path, settings)
    assert load_settings(path) == (settings, "")


def test_24_colour_choices() -> None:
    """Cross and front can be chosen in 24 ways, one for each way to hold a cube."""
    assert len(pairs()) == 24


def test_reading_creates_nothing(tmp_path: Path) -> None:
    """No file means the defaults, and none is made."""
    assert load_settings(tmp_path / "none" / "settings.toml") == (Settings(), "")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('drawin = "cube"', 'drawin: unknown setting; did you mean "drawing"?'),
        ('zzz = "cube"', "zzz: unknown setting"),
        ('drawing = "flut"', 'drawing: "flut"; did you mean "flat"?'),
        ('far_side = "x"', 'far_side: "x"; expected one of always, asked, never'),
        ("colours = 256", "colours: 256; expected one of auto, true, 256, 16, none"),
        ('letters = "yes"', 'letters: "yes"; expected true or false'),
        ("call = 1", "call: 1; expected true or false"),
        ("player = 7", "player: expected a name of at most 40 printable characters"),
        ('player = "a\\u001bb"', "player: expected a name of at most 40 printable characters"),
        ('front = "white"', "cross, front: white cannot be in front of a white cross"),
        ('cross = "pink"', 'cross: "pink"; expected one of'),
        ("[view]", "view: {}; expected one of level, focus, full"),
    ],
)
def test_one_fault_spares_the_rest(tmp_path: Path, line: str, told: str) -> None:
    """A key with a fault is told with the file; its default is used, the other keys count."""
    path = tmp_path / "settings.toml"
    path.write_text(f"animation = false\n{line}\n")
    settings, message = load_settings(path)
    assert message.startswith(f"{path}: {told}")
    assert "\n" not in message
    assert settings == Settings(animation=False)
    assert path.read_text() == f"animation = false\n{line}\n"


def test_a_faulty_file_is_kept_when_settings_change(tmp_path: Path) -> None:
    """Saving over a faulty file moves that aside; saving over a good one leaves nothing behind."""
    path = tmp_path / "settings.toml"
    path.write_text('drawing = "cuve"\n# a note of mine\n')
    save_settings(path, Settings(letters=True))
    (kept,) = tmp_path.glob("settings.toml.faulty-*")
    assert kept.read_text() == 'drawing = "cuve"\n# a note of mine\n'
    save_settings(path, Settings())
    assert load_settings(path) == (Settings(), "")
    assert len(list(tmp_path.iterdir())) == 2


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"drawing = ", "no TOML: Invalid value"),
        (b"\xff\xfe\x00", "not UTF-8 text"),
        (b"#" * (MAX_BYTES + 1), f"more than {MAX_BYTES} bytes"),
        (b"a = " + b"[" * 20_000, "nested too deeply"),
        (b"a = " + b"9" * 20_000, "no TOML: "),
        (b"\0" * 100, "no TOML: "),
    ],
)
def test_a_damaged_file_is_moved_aside(tmp_path: Path, content: bytes, told: str) -> None:
    """A file that cannot be read is moved aside whole, said so, and the defaults are used."""
    path = tmp_path / "settings.toml"
    path.write_bytes(content)
    settings, message = load_settings(path)
    (aside,) = tmp_path.iterdir()
    assert aside.name.startswith("settings.toml.damaged-")
    assert aside.read_bytes() == content
    assert settings == Settings()
    assert told in message
    assert aside.name in message
    assert "\n" not in message


def test_a_thousand_faults_are_told_shortly(tmp_path: Path) -> None:
    """Many faults come as a few lines and a number."""
    path = tmp_path / "settings.toml"
    path.write_text("".join(f"key{i} = 1\n" for i in range(1000)))
    message = load_settings(path)[1]
    assert len(message.splitlines()) == 6
    assert message.endswith("and 995 more faults")


def test_no_file_in_the_way(tmp_path: Path) -> None:
    """Something that is no file is neither waited for nor moved, and cannot be saved over."""
    path = tmp_path / "settings.toml"
    os.mkfifo(path)
    settings, message = load_settings(path)
    assert settings == Settings()
    assert "cannot be read: it is no file" in message
    with pytest.raises(SettingsError, match="cannot be saved"):
        save_settings(path, Settings())
    assert path.is_fifo()


def test_a_folder_that_cannot_be(tmp_path: Path) -> None:
    """Where no folder can be made, loading gives the defaults and saving says why it cannot."""
    (tmp_path / "file").write_text("")
    path = tmp_path / "file" / "settings.toml"
    assert load_settings(path) == (Settings(), "")
    with pytest.raises(SettingsError, match=r"cannot be saved in .*settings\.toml: "):
        save_settings(path, Settings())


def test_a_failed_save_changes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the disk refuses, the old file stays whole and no scrap is left."""
    path = tmp_path / "settings.toml"
    save_settings(path, Settings(letters=True))

    def refuse(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", refuse)
    with pytest.raises(SettingsError, match="No space left"):
        save_settings(path, Settings())
    assert load_settings(path) == (Settings(letters=True), "")
    assert list(tmp_path.iterdir()) == [path]


def test_saving_through_a_link(tmp_path: Path) -> None:
    """A settings file that is a link stays one; what it leads to is written."""
    real = tmp_path / "elsewhere" / "mine.toml"
    path = tmp_path / "settings.toml"
    path.symlink_to(real)
    save_settings(path, Settings(call=True))
    assert path.is_symlink()
    assert load_settings(real) == (Settings(call=True), "")


@pytest.mark.parametrize("key", KEYS)
def test_no_setting_takes_nonsense(key: str) -> None:
    """A value that cannot be is refused with its key, for every setting."""
    nonsense: Any = {key: ["nonsense"]}
    with pytest.raises(SettingsError, match=f"^{key}: "):
        Settings(**nonsense)


def test_a_number_too_long_to_show(tmp_path: Path) -> None:
    """A value that Python itself refuses to write out is told as too large, not raised."""
    path = tmp_path / "settings.toml"
    path.write_text(f"letters = 0x{'f' * 5000}\n", "utf-8")
    settings, told = load_settings(path)
    assert settings == Settings()
    assert "a int too large to be shown; expected true or false" in told
