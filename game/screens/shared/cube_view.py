"""The cube on the screen: at rest or turning, and its far side."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from textual import events
from textual.message import Message
from textual.timer import Timer

from game.cube import pair
from game.cube.cube import Cube
from game.cube.moves import Move
from game.draw.drawing import draw_cube, draw_far, face_at
from game.draw.look import Look, Turning
from game.draw.panel import focus_grey
from game.play.position import Position
from game.screens.shared.picture_view import PictureView

TURN_SECONDS = 0.12
FRAME_SECONDS = 1 / 60


@dataclass(frozen=True)
class Scene:
    """A cube and how it is shown.

    grey: homes of the stickers drawn grey. joined: slots whose pair is joined. marked: places
    whose stickers carry a mark.
    """

    cube: Cube
    look: Look
    grey: frozenset[int] = frozenset()
    joined: tuple[str, ...] = ()
    marked: frozenset[int] = frozenset()


def scene_of(position: Position, cube: Cube, look: Look, *, focus: bool) -> Scene:
    """A cube on its way from a position. focus: what does not matter there is grey."""
    joined = tuple(slot for slot in position.solve if pair.is_joined(cube, slot))
    return Scene(cube, look, focus_grey(position.solve) if focus else frozenset(), joined)


class CubeView(PictureView):
    """The cube as the player holds it. A turn is seen turning, but nothing ever waits for it."""

    class Clicked(Message):
        """A face of the cube was clicked; back: with the right button or Shift."""

        def __init__(self, face: str, back: bool) -> None:
            super().__init__()
            self.face = face
            self.back = back

    def __init__(
        self, *, id: str | None = None, clock: Callable[[], float] = time.monotonic
    ) -> None:
        super().__init__(id=id)
        self._clock = clock
        self.scene: Scene | None = None
        self._from: Scene | None = None
        self._move: Move | None = None
        self._since = 0.0
        self._timer: Timer | None = None

    @property
    def is_turning(self) -> bool:
        """Whether a turn is under way."""
        return self._move is not None

    def rest(self, scene: Scene) -> None:
        """Show the cube at rest; a turn under way ends at once, unless it leads there anyway."""
        if self.is_turning and scene == self.scene:
            return
        self._rest(scene)

    def _rest(self, scene: Scene) -> None:
        self.scene, self._move = scene, None
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        self.show(
            draw_cube(
                scene.cube, scene.look, grey=scene.grey, joined=scene.joined, marked=scene.marked
            )
        )

    def turn(self, move: Move, scene: Scene) -> None:
        """Show how a move leads to this scene; a turn under way is cut off."""
        before = scene.cube.turn((move.inverse,))
        joined = tuple(slot for slot in scene.joined if pair.is_joined(before, slot))
        self._from = replace(scene, cube=before, joined=joined)
        self.scene, self._move, self._since = scene, move, self._clock()
        if self._timer is None:
            self._timer = self.set_interval(FRAME_SECONDS, self._frame)
        self._frame()

    def _frame(self) -> None:
        """Show the turn as far as it has come by the clock."""
        if self._move is None or self._from is None or self.scene is None:
            return
        done = (self._clock() - self._since) / TURN_SECONDS
        if done >= 1:
            self._rest(self.scene)
        elif not self._is_output_pending():
            eased = done * (2 - done)
            shown = self._from
            self.show(
                draw_cube(
                    shown.cube,
                    shown.look,
                    grey=shown.grey,
                    joined=shown.joined,
                    turning=Turning(self._move, max(0.0, eased)),
                )
            )

    def _is_output_pending(self) -> bool:
        """Whether the terminal still has to take what was drawn before: then a frame is dropped.

        Otherwise a slow line fills the queue of the writing thread, and keys wait behind it.
        """
        writer = getattr(self.app._driver, "_writer_thread", None)
        return writer is not None and writer._queue.qsize() > 0

    def on_click(self, event: events.Click) -> None:
        """Tell which face was clicked."""
        offset = event.get_content_offset(self)
        if self.scene is None or offset is None:
            return
        face = face_at(self.scene.look, offset.x, offset.y)
        if face:
            event.stop()
            self.post_message(self.Clicked(face, event.button == 3 or event.shift))


class FarView(PictureView):
    """The cube from behind, smaller."""

    def rest(self, scene: Scene, *, from_below: bool) -> None:
        """Show it."""
        self.show(
            draw_far(
                scene.cube,
                scene.look,
                grey=scene.grey,
                joined=scene.joined,
                marked=scene.marked,
                from_below=from_below,
            )
        )
