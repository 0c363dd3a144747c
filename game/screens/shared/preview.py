"""A small picture of a position and a few words about it, beside a list."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Static

from game.play.position import Position
from game.records.record import Best
from game.screens.shared.picture_view import PictureView

if TYPE_CHECKING:
    from game.draw.look import Look
    from game.screens.shared.cube_view import Scene

WORDS_ROWS = 9
"""Rows kept free under the picture."""


class Preview(Vertical):
    """The picture as large as the room allows, and words under it unless they are not wanted."""

    def __init__(self, *, words: bool = True, id: str | None = None) -> None:
        super().__init__(id=id)
        self._has_words = words
        self._scene: Scene | None = None  # what is drawn

    def compose(self) -> ComposeResult:
        """Picture over words."""
        yield PictureView()
        if self._has_words:
            yield Static()

    def show(self, position: Position, best: Best | None, look: Look, *, focus: bool) -> None:
        """Show this position. best: what the player's attempts at it come to."""
        # Home's words do not wait for its picture.
        from game.draw.drawing import draw_cube, size_for  # noqa: PLC0415
        from game.screens.shared.cube_view import scene_of  # noqa: PLC0415

        columns, rows = self.content_size
        look = replace(look, size=size_for(columns, rows - WORDS_ROWS * self._has_words))
        scene = scene_of(position, position.cube, look, focus=focus)
        if scene != self._scene:
            self._scene = scene
            picture = draw_cube(scene.cube, scene.look, grey=scene.grey, joined=scene.joined)
            self.query_one(PictureView).show(picture)
        if not self._has_words:
            return
        from game.coach.telling import where  # noqa: PLC0415
        from game.screens.shared.board_words import terms_words  # noqa: PLC0415 - home has no words

        lines = [where(position.cube, slot, look.scheme) for slot in position.pairs[:2]]
        lines += terms_words(position)
        said = Content.assemble(("\n".join(lines), ""), (f"\n{best_words(best)}", "$muted"))
        self.query_one(Static).update(said)


def best_words(best: Best | None) -> str:
    """What the player's attempts come to, in a line or two."""
    from game.screens.shared.clock_view import time_text  # noqa: PLC0415 - home has no words

    if best is None:
        return "not tried yet"
    tries = "1 try" if best.attempts == 1 else f"{best.attempts} tries"
    if best.turns is None:
        return tries if not best.solved else f"{tries}; solved with help"
    return (
        f"{tries}; best {best.turns} turns, "
        f"seeing {time_text(best.seeing_ms)}, doing {time_text(best.doing_ms)}"
    )
