"""A monkey at a real terminal: keys among sequences that no terminal should send."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.monkey.playing import look_at_records
from tests.test_terminal import terminal

MALFORMED = (
    "\x1b[8;99999;99999t", "\x1b[48;99999;99999;1;1t", "\x1b[48;0;0;0;0t", "\x1b[48;-1;5;0;0t",
    "\x1b[<0;99999;99999M", "\x1b[<0;0;0M", "\x1b[<999;-1;0M", "\x1b[<64;1;99999M", "\x1b[<0;5m",
    "\x1b[55296;1u", "\x1b[57343u", "\x1b[1114112u", "\x1b[0u", "\x1b[97;999u", "\x1b[;;;u",
    "\x1b[?2026;9$y", "\x1b]11;rgb:zz/zz/zz\x07", "\x1b[I", "\x1b[O", "\x1b[200~R U\x1b[201~",
    "\x1b[200~\x1b[201~", "\x1b[1;1R", "\x1bO", "\x1b[", "\x1b[M   ", "\x1b[99~",
    "\x1b\x1b\x1b", "\x00",
)  # fmt: skip
"""Reports of sizes, mouse, keys, colours as no terminal means them (ECMA-48, xterm's ctlseqs)."""
KEYS = (
    *"rulfdbRULFDBxyzmesw0hnpjktvioackg",
    "\r",
    " ",
    "\t",
    "\x7f",
    "\x1b[A",
    "\x1b[B",
    "\x1b[5~",
)


@pytest.mark.parametrize("seed", range(2))
def test_malformed_sequences_among_keys(seed: int, tmp_path: Path) -> None:
    """The game stands through them, ends when it is told to, and its records are whole."""
    dice = random.Random(seed)
    with terminal(tmp_path) as game:
        game.shows("turns 0")
        for _ in range(60):
            what = MALFORMED if dice.random() < 0.4 else KEYS
            game.press(*(dice.choice(what) for _ in range(dice.randint(1, 6))))
            if dice.random() < 0.1:
                game.resize(dice.choice((60, 80, 120)), dice.choice((20, 24, 40)))
            assert game.game.isalive()
        game.game.kill(15)
        assert game.ends() == 128 + 15
        assert "Traceback" not in game.written
        assert "something went wrong" not in game.written
    assert not (tmp_path / "mishaps").exists()
    look_at_records(tmp_path / "records.db")
