"""A soft landing: whatever is raised, the player sees one line, and what was played is kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from game.records import open_records
from tests.test_terminal import terminal

RAISES = {
    "key": """
from game.screens.play.casual import PlayScreen
def action_view(self): raise RuntimeError("it broke")
PlayScreen.action_view = action_view
""",
    "timer": """
from game.screens.play.casual import PlayScreen
def action_view(self):
    def late(): raise RuntimeError("it broke")
    self.set_timer(0.01, late)
PlayScreen.action_view = action_view
""",
    "worker": """
from game.screens.play.casual import PlayScreen
def action_view(self):
    def work(): raise RuntimeError("it broke")
    self.run_worker(work, thread=True)
PlayScreen.action_view = action_view
""",
    "message": """
from textual.message import Message
from game.screens.play.casual import PlayScreen
class Broken(Message): pass
def on_broken(self, message): raise RuntimeError("it broke")
PlayScreen.on_broken = on_broken
def action_view(self): self.post_message(Broken())
PlayScreen.action_view = action_view
""",
    "drawing": """
from game.screens.play.casual import PlayScreen
from game.screens.shared.picture_view import PictureView
def render_line(self, y): raise RuntimeError("it broke")
def action_view(self):
    PictureView.render_line = render_line
    self.refresh(layout=True)
    for view in self.query(PictureView): view.refresh()
PlayScreen.action_view = action_view
""",
    "reading": """
from game.screens.play.casual import PlayScreen
from game.screens.driver import Reader
def read(self, text):
    if text: raise RuntimeError("it broke")
    return iter(())
def action_view(self):
    self.app.notify("the next key breaks")
    Reader.read = read
PlayScreen.action_view = action_view
""",
}
"""Where it breaks once v was pressed -> what makes it break, run before the game."""


@pytest.mark.parametrize("where", RAISES)
def test_it_lands_softly(where: str, tmp_path: Path) -> None:
    """One line, exit status 70, the attempt in hand, and a file that tells what happened."""
    with terminal(tmp_path, before=RAISES[where]) as game:
        game.shows("turns 0")
        game.press("r", "U")
        game.shows("turns 2")
        game.press("v")
        if where == "reading":  # both keys at once would be read before anything is broken
            game.shows("the next key breaks")
        game.press("u")
        assert game.ends() == 70
    (path,) = (tmp_path / "mishaps").iterdir()
    last = [line for line in game.written.splitlines() if "pairwright:" in line]
    assert len(last) == 1, game.written[-2000:]
    assert "something went wrong; what was played is kept; told in" in last[0]
    assert "Traceback" not in game.written
    text = path.read_text("utf-8")
    assert "RuntimeError: it broke" in text
    assert "screens: PlayScreen" in text
    assert "r U v" in text
    records = open_records(tmp_path / "records.db")
    (position,) = records.positions_in_hand()
    kept = records.in_hand(position)
    records.close()
    assert kept is not None
    assert [what for _, what in kept.events][:2] == ["R", "U'"]
