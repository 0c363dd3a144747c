"""`pairwright join`: bad codes are one clear line; playing needs a terminal."""

from __future__ import annotations

from pathlib import Path

import pytest

from game.cli.exits import Exit
from game.friends.codes import invite_code
from game.friends.contest import Contest
from tests.cli.running import run
from tests.screens.friends import CONTEST, card, code

INVITE = invite_code(CONTEST)
OTHER = invite_code(Contest("Other", CONTEST.positions))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "no invite in this text"),
        ("hello", "no invite in this text"),
        (INVITE[:-4], "cut off or damaged"),
        (INVITE[:20] + "0" + INVITE[21:], "wrong, missing or too many"),
        (code(card("Ada")), "no invite in this text"),
        (f"{INVITE} {OTHER}", "2 invites where one is expected"),
        ("\x1b[2J" + INVITE[:14], "cut off or damaged"),
        ("x" * 100_000, "no invite in this text"),
    ],
)
def test_a_bad_code_is_one_line(text: str, told: str, tmp_path: Path) -> None:
    """As an argument, in a file, and on standard input."""
    path = tmp_path / "invite.txt"
    path.write_text(text, encoding="utf-8")
    for ran in (run("join", text), run("join", path), run("join", "-", stdin=text.encode())):
        assert ran.code == Exit.FAULT
        assert told in ran.err
        assert ran.err.count("\n") == 1
        assert "\x1b" not in ran.err


def test_an_invite_in_pieces_is_read(tmp_path: Path) -> None:
    """Words as the shell splits them, small letters and all; then the game asks for a terminal."""
    pieces = [INVITE[at : at + 10].lower() for at in range(0, len(INVITE), 10)]
    ran = run("join", "--data-dir", tmp_path, *pieces)
    assert ran.code == Exit.CANNOT
    assert "needs a terminal" in ran.err


def test_a_code_is_asked_for() -> None:
    """Without one the usage is told in a line."""
    ran = run("join")
    assert ran.code == Exit.FAULT
    assert "CODE" in ran.err


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16"])
def test_any_bytes_are_read(encoding: str, tmp_path: Path) -> None:
    """Text in another encoding round the invite does not hinder, strict as standard input is."""
    sent = f"\xe9t\xe9: {INVITE}".encode(encoding)
    path = tmp_path / "invite.txt"
    path.write_bytes(sent)
    for name, stdin in (("-", sent), (path, b"")):
        ran = run("join", "--data-dir", tmp_path, name, stdin=stdin)
        assert ran.code == Exit.CANNOT
        assert "needs a terminal" in ran.err
        assert ran.err.count("\n") == 1
