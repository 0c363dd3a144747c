"""The files that the game uses."""

from __future__ import annotations

from pathlib import Path

from game.packs import pack_folder
from game.records import open_records
from tests.cli.running import run, run_apart
from tests.records.samples import SAMPLE


def test_every_file_is_told_and_none_made(tmp_path: Path) -> None:
    """Records, settings, tables and packs are told, those missing as such; nothing is created."""
    code, out, err = run("where", "--data-dir", tmp_path / "home")
    assert (code, err) == (0, "")
    home = tmp_path / "home"
    assert out.splitlines() == [
        f"records    {home / 'records.db'}  (not there yet)",
        f"settings   {home / 'settings.toml'}  (not there yet)",
        f"tables     {home / 'tables'}  (not there yet)",
        f"packs      {pack_folder()}",
        f"own packs  {home / 'packs'}  (not there yet)",
        f"mishaps    {home / 'mishaps'}  (not there yet)",
    ]
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there(tmp_path: Path) -> None:
    """Once something is recorded, the file is told without a remark."""
    store = open_records(tmp_path / "records.db")
    store.add(SAMPLE)
    store.close()
    assert f"records    {tmp_path / 'records.db'}\n" in run("where", "--data-dir", tmp_path).out


def test_a_path_that_cannot_be(tmp_path: Path) -> None:
    """Paths that cannot exist, or with bytes that are no text, are told as not there."""
    (tmp_path / "file").write_text("")
    assert "(not there yet)" in run("where", "--data-dir", tmp_path / "file" / "x").out
    code, out, err = run_apart("where", "--data-dir", b"/nowhere/\xff")
    assert (code, err) == (0, "")
    assert "/nowhere/\\udcff/records.db" in out
    assert run("where", "--data-dir", "x" * 5000).code == 0


def test_a_path_that_would_move_the_cursor(tmp_path: Path) -> None:
    """Control characters of a path are told as escapes."""
    code, out, err = run("where", "--data-dir", tmp_path / "\x1b[31m\nred")
    assert (code, err) == (0, "")
    assert f"records    {tmp_path}/\\x1b[31m\\nred/records.db" in out
    assert "\x1b" not in out
