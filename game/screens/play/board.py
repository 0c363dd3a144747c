"""Everything of the playing screen but its keys: the cube, what stands beside it, the line."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Container, Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from game.cube import pair
from game.cube.line import Line
from game.cube.moves import Move
from game.draw.look import Look
from game.play.playable import Playable
from game.play.sitting import Sitting
from game.play.stages import stages
from game.screens.shared.board_words import far_words, goal_words, par_words, terms_words
from game.screens.shared.clock_view import ClockView
from game.screens.shared.cube_view import CubeView, FarView, Scene, scene_of
from game.screens.shared.layout import Plan, plan
from game.screens.shared.line_view import LineView
from game.screens.shared.stage_rows import signs_of

if TYPE_CHECKING:
    from game.coach.hints import Hint
    from game.coach.ways import Asked

SIDE_PADDING = 2
"""Columns between the cube and what stands beside it."""
NUMBER_ROWS = 3
"""Numbers and clock with the empty row above them."""


@dataclass(frozen=True)
class Shown:
    """What is to be seen besides the cube itself.

    look: how cubes are drawn, whatever their size. focus: what does not matter is grey. far, pad:
    the far side, the turn pad. reveal: the solutions. note: the level's, said at the end.
    searching: said where something is not known yet. best: the player's best, in words. hint: the
    rung in view. ways: questions of a shorter way with what is known of them. par: whether par is
    spoken of at all.
    """

    look: Look
    focus: bool
    far: bool
    pad: bool = False
    reveal: bool = False
    note: str = ""
    searching: str = ""
    best: str = ""
    hint: Hint | None = None
    ways: tuple[Asked, ...] = ()
    par: bool = True


class Board(Vertical):
    """Shows a sitting. times: seeing and doing milliseconds now, for the clock."""

    class Resized(Message):
        """The room has changed: everything wants to be shown again."""

    def __init__(self, times: Callable[[], tuple[int | None, int | None]]) -> None:
        super().__init__()
        self._times = times
        self.plan: Plan = plan(80, 24)
        self._written: dict[str, Content] = {}
        self._furnishing = asyncio.Lock()
        self.is_furnished = False
        """Whether `furnish` has done its work."""

    def compose(self) -> ComposeResult:
        """Title; cube and side; line or input; message."""
        with Horizontal(id="title"):
            yield Static(id="name")
            yield Static(id="place")
        with Horizontal(id="table"):
            with Container(id="stage"):
                yield CubeView(id="cube")
            with Vertical(id="side"):
                yield Static(id="goal")
                yield Static(id="hint")
                yield Static(id="numbers")
                yield ClockView(self._times, id="clock")
                with Vertical(id="far-box"):
                    yield FarView(id="far")
                    yield Static(id="far-name")
        yield LineView(id="line")
        yield Static(id="message")

    async def furnish(self) -> None:
        """Add what the first picture does not need: turn pad, result, the line to type in; once."""
        async with self._furnishing:
            if not self.is_furnished:
                await self._furnish()
                self.is_furnished = True

    async def _furnish(self) -> None:
        from game.screens.play.line_input import LineInput  # noqa: PLC0415 - see above
        from game.screens.play.result_panel import ResultPanel  # noqa: PLC0415
        from game.screens.play.turn_pad import TurnPad  # noqa: PLC0415

        side = self.query_one("#side")
        hidden = TurnPad(id="pad"), ResultPanel(id="result"), LineInput(id="entry")
        hidden[0].display = hidden[1].display = False
        await side.mount(hidden[0], after="#clock")
        await side.mount(hidden[1])
        await self.mount(hidden[2], after="#line")

    def on_mount(self) -> None:
        """Share the room out before anything is drawn."""
        self._share_room()

    def on_resize(self) -> None:
        """Share the room out anew."""
        before = self.plan
        self._share_room()
        if self.plan != before:
            self.post_message(self.Resized())

    def _share_room(self) -> None:
        self.plan = plan(*self.app.size)
        self.query_one("#side").styles.width = self.plan.side
        self.set_class(self.plan.roomy, "-roomy")
        self.screen.set_class(self.plan.roomy, "-roomy")

    def open_line(self, refusal: Callable[[Line], str]) -> None:
        """Put the cursor into the line that takes notation. refusal: see `LineInput.open`."""
        from game.screens.play.line_input import LineInput  # noqa: PLC0415 - there by now

        self.query_one(LineInput).open(refusal)

    def title(self, puzzle: Playable) -> None:
        """Say which puzzle this is."""
        aside = f", {puzzle.aside}" if puzzle.aside else ""
        name = Content.assemble(
            (f"{puzzle.source}  ", "$muted"), (puzzle.name, "bold"), (aside, "$muted")
        )
        self.query_one("#name", Static).update(name)
        self.query_one("#place", Static).update(Content.assemble((puzzle.place, "$muted")))

    def place(self, text: str, tone: str = "$muted") -> None:
        """Say at the right of the title how things stand; as wide as before needs no layout."""
        place = self.query_one("#place", Static)
        is_as_wide = len(text) == place.size.width
        place.update(Content.assemble((text, tone)), layout=not is_as_wide)

    def say(self, text: str, tone: str = "$muted") -> None:
        """Say something in the message line."""
        self.query_one("#message", Static).update(Content.assemble((text, tone)), layout=False)

    def _write(self, selector: str, content: Content) -> None:
        """Write what seldom changes: a layout for each key would be work for nothing."""
        if self._written.get(selector) != content:
            self._written[selector] = content
            self.query_one(selector, Static).update(content)

    def show(self, sitting: Sitting, shown: Shown, move: Move | None = None) -> None:
        """Show a sitting as it is; `move` led to it and is seen turning."""
        self._show_cube(sitting, shown, move)
        self._show_side(sitting, shown)
        self._show_line(sitting)

    def _show_cube(self, sitting: Sitting, shown: Shown, move: Move | None) -> None:
        view = self.query_one(CubeView)
        look = replace(shown.look, size=self.plan.size, margin=self.plan.margin)
        scene = _scene(sitting, shown, look)
        if move is None:
            view.rest(scene)
        else:
            view.turn(move, scene)

    def _show_side(self, sitting: Sitting, shown: Shown) -> None:
        is_finished = bool(sitting.outcome)
        self.query_one("#goal").display = not is_finished and shown.hint is None
        self.query_one("#hint").display = not is_finished and shown.hint is not None
        has_far = shown.far and self.plan.far > 0 and not is_finished
        has_far = has_far and (self.plan.roomy or not shown.pad)
        self.query_one("#far-box").display = has_far
        is_full = has_far and shown.hint is not None and self._fills_room(shown.hint)
        for selector in ("#numbers", "#clock"):
            self.query_one(selector).display = not is_finished and not is_full
        if self.is_furnished:
            self._show_rest(sitting, shown)
        if is_finished:
            return
        self._write("#goal", _goal(sitting, shown.look))
        if shown.hint is not None:
            self._write("#hint", _hint(shown.hint))
        self.query_one("#numbers", Static).update(_numbers(sitting, shown), layout=False)
        if has_far:
            self._show_far(sitting, shown)

    def _fills_room(self, hint: Hint) -> bool:
        """Whether a hint leaves no room for the numbers between itself and the far side."""
        rows = _hint(hint).get_height({}, self.plan.side - SIDE_PADDING)
        return rows + NUMBER_ROWS > self.plan.text_rows

    def _show_rest(self, sitting: Sitting, shown: Shown) -> None:
        from game.screens.play.result_panel import ResultPanel  # noqa: PLC0415 - there by now

        is_finished = bool(sitting.outcome)
        self.query_one("#pad").display = shown.pad and not is_finished
        result = self.query_one(ResultPanel)
        result.display = is_finished
        if is_finished:
            result.show(
                sitting,
                shown.note,
                reveal=shown.reveal,
                searching=shown.searching,
                ways=shown.ways,
                par=shown.par,
            )

    def _show_far(self, sitting: Sitting, shown: Shown) -> None:
        from_below = not pair.is_cross_solved(sitting.position.cube)
        look = replace(shown.look, size=self.plan.far)
        scene = _scene(sitting, shown, look)
        view = self.query_one(FarView)
        view.rest(scene, from_below=from_below)
        words = far_words(look, from_below=from_below)
        middle = max(0, len(words) - view.picture_size.width) // 2
        view.styles.margin = (0, 0, 0, middle)
        self._write("#far-name", Content.assemble((words, "$muted")))

    def _show_line(self, sitting: Sitting) -> None:
        written = sitting.attempt.written
        signs = signs_of(stages(sitting.position, written))
        start = "" if sitting.outcome else "Turn with f b r l u d; Shift turns the other way."
        self.query_one(LineView).show([m.name for m in written], signs, start)


def _goal(sitting: Sitting, look: Look) -> Content:
    seen = (sitting.position, sitting.cube.grip, look.scheme)
    rows: list[tuple[str, str]] = [(goal_words(*seen), "bold")]
    for term in terms_words(*seen):
        rows += [("\n", ""), (term, "$accent")]
    return Content.assemble(*rows)


def _hint(hint: Hint) -> Content:
    """In place of the goal."""
    return Content.assemble((hint.title, "bold $accent"), "\n", hint.words)


def _scene(sitting: Sitting, shown: Shown, look: Look) -> Scene:
    scene = scene_of(sitting.position, sitting.cube, look, focus=shown.focus)
    return replace(scene, marked=shown.hint.marks) if shown.hint is not None else scene


def _numbers(sitting: Sitting, shown: Shown) -> Content:
    par = "hidden" if sitting.is_par_hidden else par_words(sitting.par, sitting.at_least)
    parts = [("par ", "$muted"), (f"{par:<4}  ", "bold")] if shown.par else []
    parts += [("turns ", "$muted"), (f"{sitting.attempt.turns:<4}  ", "bold")]
    if shown.best:
        parts += [("best ", "$muted"), (shown.best, "")]
    return Content.assemble(*parts)
