"""Watching one line, or two beside each other: turn by turn, or in the time that they took."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import Container, Horizontal, Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import Static

from game.cube.cube import Cube
from game.cube.moves import Move
from game.draw.drawing import size_for
from game.draw.still import extent
from game.foreign import shown
from game.play.times import written
from game.screens.lines.columns import PlayerLine
from game.screens.lines.watch import PACE_SECONDS
from game.screens.shared import keys
from game.screens.shared.cube_view import CubeView, scene_of
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.line_view import LineView
from game.screens.shared.looks import focuses, look_of

FRAME_SECONDS = 1 / 30
"""Between two looks at the clock while lines run in time."""


class Lane(Vertical):
    """One line: its name and how far it is; the cube; the moves made so far."""

    def __init__(self, entry: PlayerLine) -> None:
        super().__init__()
        self.entry = entry
        self.step = 0

    def compose(self) -> ComposeResult:
        """From top to bottom."""
        with Horizontal(classes="lane-head"):
            yield Static(Content.styled(shown(self.entry.name), "bold"), classes="lane-name")
            yield Static(classes="lane-count")
        with Container(classes="lane-stage"):
            yield CubeView()
        yield LineView()

    @property
    def cube(self) -> Cube:
        """As it stands after the moves made so far."""
        return self.entry.position.cube.turn(self.entry.line[: self.step])

    def go(self, step: int) -> None:
        """To after so many moves; a neighbouring one is seen turning."""
        line, before = self.entry.line, self.step
        self.step = max(0, min(len(line), step))
        move: Move | None = None
        if self.step == before + 1:
            move = line[before]
        elif self.step == before - 1:
            move = line[self.step].inverse
        self.show(move)

    def show(self, move: Move | None = None) -> None:
        """Show it as it is now; `move` led there."""
        settings, position = self.app.settings, self.entry.position  # type: ignore[attr-defined]
        look = look_of(settings, self.app.depth, position)  # type: ignore[attr-defined]
        room = self.query_one(".lane-stage").content_size
        size = size_for(room.width, room.height)
        look = replace(look, size=size, margin=_margin(size, *room))
        scene = scene_of(position, self.cube, look, focus=focuses(settings, position))
        view = self.query_one(CubeView)
        if move is None or not self.app.animates:  # type: ignore[attr-defined]
            view.rest(scene)
        else:
            view.turn(move, scene)
        names = [made.name for made in self.entry.line[: self.step]]
        self.query_one(LineView).show(names, self.entry.signs[: self.step], "at the start")
        count = f"{self.step} of {len(self.entry.line)}"
        self.query_one(".lane-count", Static).update(Content.styled(count, "$muted"))


def _margin(size: int, columns: int, rows: int) -> tuple[int, int]:
    """Room round the cube for what a turning corner reaches out, as far as there is any."""
    wide, high = extent(size)
    reach = (5 * size + 7) // 8  # 3S (sqrt 2 - 1) / 2
    return (
        max(0, min((columns - wide) // 2, reach)),
        max(0, min((rows - high) // 2, reach // 2)),
    )


class RaceScreen(FramedScreen):
    """One or two lines on cubes of their own."""

    COMMAND_SCREEN = "race"
    BINDINGS = keys.bindings("race")
    CSS_PATH = "lines.tcss"

    def __init__(self, entries: Iterable[PlayerLine]) -> None:
        super().__init__()
        self.entries = tuple(entries)
        self.step = 0  # turn by turn: moves made of each line
        self.ms = 0  # in time: on the clock of all lines
        self.is_timed = False
        self.runs = False
        self._since = 0.0  # the moment at which the clock stood at nought
        self._timer: Timer | None = None
        self._ticker: Timer | None = None

    def body(self) -> Iterable[Widget]:
        """A lane for each."""
        yield Horizontal(*(Lane(entry) for entry in self.entries), id="lanes")

    def on_mount(self) -> None:
        """All at the start."""
        self._timer = self.set_interval(PACE_SECONDS, self._step_on, pause=True)
        self._ticker = self.set_interval(FRAME_SECONDS, self._tick, pause=True)
        self._entitle()

    def on_resize(self) -> None:
        """As large as the room allows."""
        self.call_after_refresh(self._show)

    def on_screen_suspend(self) -> None:
        """Nothing runs behind another screen."""
        self._run(False)

    # -- where the lines stand -------------------------------------------------------------------

    @property
    def _lanes(self) -> Iterable[Lane]:
        return self.query(Lane)

    @property
    def _can_be_timed(self) -> bool:
        """Whether it is known of each line how long it took."""
        return all(entry.moments for entry in self.entries)

    @property
    def _marks(self) -> list[int]:
        """Where something happens: at these milliseconds, or after these moves."""
        if self.is_timed:
            return sorted({ms for entry in self.entries for ms in entry.moments})
        return [*range(1, max(len(entry.line) for entry in self.entries) + 1)]

    @property
    def _last(self) -> int:
        return self._marks[-1] if self._marks else 0

    @property
    def _at(self) -> int:
        return self.ms if self.is_timed else self.step

    def _go(self, at: int) -> None:
        """To that millisecond, or to after so many moves."""
        if self.is_timed:
            self.ms = at
        else:
            self.step = at
        for lane in self._lanes:
            step = bisect_right(lane.entry.moments, at) if self.is_timed else at
            if min(step, len(lane.entry.line)) != lane.step:
                lane.go(step)
        self._entitle()

    def _show(self) -> None:
        for lane in self._lanes:
            lane.show()

    def _entitle(self) -> None:
        clock = written(self.ms // 10) if self.is_timed else ""
        self.entitle("In time" if self.is_timed else "Turn by turn", clock)

    # -- running ---------------------------------------------------------------------------------

    def _run(self, runs: bool) -> None:
        self.runs = runs
        self.query_one(KeyBar).refresh()
        self._since = self.app.clock() - self.ms / 1000
        for timer, is_its in ((self._timer, not self.is_timed), (self._ticker, self.is_timed)):
            if timer is None:
                continue
            if runs and is_its:
                timer.reset()
                timer.resume()
            else:
                timer.pause()

    def _step_on(self) -> None:
        """One move on in every line."""
        self._go(self.step + 1)
        self._end_run()

    def _tick(self) -> None:
        """As far as the clock has come."""
        self._go(min(round((self.app.clock() - self._since) * 1000), self._last))
        self._end_run()

    def _end_run(self) -> None:
        if self._at >= self._last:
            self._run(False)

    # -- what the player does --------------------------------------------------------------------

    def key_label(self, action: str) -> str | None:
        """What the key bar calls a command now."""
        if action == "auto" and self.runs:
            return "stop"
        if action == "time":
            return "turn by turn" if self.is_timed else "in time"
        return None

    def allows(self, action: str) -> bool:
        """Only what was timed runs in time."""
        return self._can_be_timed if action == "time" else True

    def action_forward(self) -> None:
        """To where the next turn is made."""
        self._run(False)
        later = (mark for mark in self._marks if mark > self._at)
        self._go(next(later, self._at))

    def action_backward(self) -> None:
        """To before the last turn."""
        self._run(False)
        earlier = [mark for mark in self._marks if mark < self._at]
        self._go(earlier[-1] if earlier else 0)

    def action_start(self) -> None:
        """To the start."""
        self._run(False)
        self._go(0)

    def action_end(self) -> None:
        """To the end."""
        self._run(False)
        self._go(self._last)

    def action_auto(self) -> None:
        """Let the lines run, from the start when they are at the end; or stop them."""
        if self.runs:
            self._run(False)
            return
        if self._at >= self._last:
            self._go(0)
        self._run(True)

    def action_time(self) -> None:
        """In the time that they took, or turn by turn; from the start."""
        self._run(False)
        self._go(0)
        self.is_timed = not self.is_timed
        self._go(0)
        self.query_one(KeyBar).refresh()

    def action_back(self) -> None:
        """To the lines."""
        self.leave()
