"""Friends over a chat, in real terminals: two play one invite, a third ranks them."""

from __future__ import annotations

import json
import signal
from pathlib import Path

from game.friends.codes import invite_code
from game.friends.contest import Contest
from tests.cli.running import run_apart
from tests.screens.friends import CONTEST, KEYS
from tests.test_terminal import Terminal, terminal

PASTE = "\x1b[200~{}\x1b[201~"
"""What a terminal that marks pastes sends (xterm's bracketed paste)."""


def play(game: Terminal, keys: tuple[str, ...]) -> None:
    """Play both positions of the contest on the screen, calling nothing; "" gives one up."""
    for number, line in enumerate(keys, 1):
        game.shows(f"{number}  to play")
        game.press("\r")
        game.shows(f"{number} of 2", "Space hide")
        game.press(*line.split())
        if line:
            game.shows("Does a shorter way exist?")
            game.press("\r")
        else:
            game.press("g", "g")
    game.shows("of 2 solved")


def card_of(folder: Path, name: str, keys: tuple[str, ...]) -> str:
    """Join by the command, play, give a name, write the card to a file; its text."""
    with terminal(folder, arguments=["join", invite_code(CONTEST)]) as game:
        play(game, keys)
        game.press("c")
        game.shows("your name")
        game.press(*name, "\r")
        game.shows("Your card", f"{name}: ")
        game.press("w")
        game.shows("Written to")
        game.press("q")
        game.shows("Your card is ready")
        game.press("q")
        game.shows("Go on", "Quit")
        game.press("q")
        assert game.ends() == 0
    (path,) = (folder / "chat").glob("*.txt")
    return path.read_text("utf-8")


def test_two_play_one_invite_and_a_third_ranks_them(tmp_path: Path) -> None:
    """From a chat log full of other text, on the command line and in the game alike."""
    ada = card_of(tmp_path / "ada", "Ada", KEYS)
    bo = card_of(tmp_path / "bo", "Bo", (KEYS[0], ""))
    chat = tmp_path / "chat.log"
    quoted = "\n".join(f"> {line}" for line in bo.splitlines())
    chat.write_text(
        "[19:02:11] Cem: lunch?\n"
        f"[19:03:40] Ada: {invite_code(CONTEST).lower()}\n"
        f"[20:15:02] Ada: {ada}\nnot bad, eh? https://example.org/EPAIR/OVER\n"
        f"{quoted}\n[20:16:00] Cem: \u202egnihton\n",
        encoding="utf-8",
    )
    told = run_apart("standings", str(chat), "--no-par", "--json")
    assert told.code == 0
    text = json.dumps(json.loads(told.out))
    assert text.index("Ada") < text.index("Bo")
    with terminal(tmp_path / "cem", arguments=["join", invite_code(CONTEST)]) as game:
        game.shows("1  to play")
        game.press("p")
        game.shows("Nothing found yet.")
        game.press(PASTE.format(chat.read_text("utf-8").replace("\n", "\r")))
        game.shows("invite, two cards")
        game.press("\x1b")
        game.shows("p paste more")
        game.press("\r")
        game.shows("Two cards pasted.")
        game.press("s")
        game.shows("1  Ada", "2  Bo", "replay")
        game.press("l")
        game.shows("Play every position first")


def test_a_kill_loses_the_position_in_hand_at_most(tmp_path: Path) -> None:
    """After kill -9 in the second position the first is kept, and the second was seen."""
    folder = tmp_path / "ada"
    with terminal(folder, arguments=["join", invite_code(CONTEST)]) as game:
        game.shows("1  to play")
        game.press("\r")
        game.shows("1 of 2", "Space hide")
        game.press(*KEYS[0].split())
        game.shows("Does a shorter way exist?")
        game.press("\r")
        game.shows("2  to play")
        game.press("\r")
        game.shows("2 of 2", "Space hide")
        game.press("L")
        game.shows("turns 1")
        game.game.kill(signal.SIGKILL)
    with terminal(folder, arguments=["join", invite_code(CONTEST)]) as game:
        game.shows("2  begun; its clock runs on")
        game.press("\r")
        game.shows("its clock has run on since", "turns 0")
        game.press(*KEYS[1].split())
        game.shows("Does a shorter way exist?")
        game.press("\r")
        game.shows("2 of 2 solved")


def test_a_contest_without_a_title(tmp_path: Path) -> None:
    """An invite in a file; a contest without a title is called by its positions."""
    path = tmp_path / "invite.txt"
    path.write_text(invite_code(Contest("", CONTEST.positions)), encoding="utf-8")
    with terminal(tmp_path / "ada", arguments=["join", str(path)]) as game:
        game.shows("A contest of two positions", "1  to play")
        game.press("q")
        game.shows("Go on")
        game.press("q")
        assert game.ends() == 0
