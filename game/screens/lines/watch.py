"""Watching shortest solutions turn by turn."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from textual.containers import Container, Horizontal, Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import OptionList, Static

from game.coach.telling import told, where
from game.cube import pair, symmetry
from game.cube.cube import Cube
from game.cube.ease import easiest_grip
from game.cube.geometry import UNMOVED, Matrix
from game.cube.line import Line, held, rotation_line
from game.cube.moves import Move
from game.draw.look import Lean
from game.draw.still import extent
from game.play.position import Position
from game.play.stages import stages
from game.screens.shared import keys
from game.screens.shared.board_words import far_words, turns_words
from game.screens.shared.cube_view import CubeView, FarView, Scene, scene_of
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.layout import Plan, plan
from game.screens.shared.lists import ChoiceList
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.solution_row import solution_row
from game.screens.shared.stage_rows import named_joined, signs_of, stage_table

PACE_SECONDS = 0.9
"""Between two turns that run by themselves."""
LEAST_FAR = 4
"""The size under which a far side is not worth its room."""
STORY_ROWS, SHORT_STORY_ROWS = 8, 5
"""Rows of the story; without the table of stages where the far side needs the room."""
LIST_ROWS = 8
"""Rows of the list of solutions at most."""


class WatchScreen(FramedScreen):
    """Every shortest solution of a position, one of them on the cube.

    lines: face turns named by their centres. number: the line shown first. grip: how the player
    holds the cube, where that is not with the centres at home; the line is then shown so first.
    runs: the turns run by themselves at once.
    """

    COMMAND_SCREEN = "watch"
    BINDINGS = keys.bindings("watch")
    CSS_PATH = "lines.tcss"

    def __init__(
        self,
        position: Position,
        lines: tuple[Line, ...],
        number: int = 0,
        *,
        grip: Matrix | None = None,
        runs: bool = False,
    ) -> None:
        super().__init__()
        self._gripped = rotation_line(grip or UNMOVED)
        self._grip = grip or UNMOVED
        self._position = position
        self._lines = lines
        self._number = number
        self._eases = grip is None
        self.step = 0
        self._timer: Timer | None = None
        self._is_short = False  # the far side leaves no room for the table of stages
        self.runs = runs

    def body(self) -> Iterable[Widget]:
        """The cube; the solutions and the story beside it; the line below."""
        listing = ChoiceList(eager=True, id="solution-list")
        listing.can_focus = False  # the screen's own keys go through it, and along the line
        yield Horizontal(
            Container(CubeView(id="cube"), id="watch-stage"),
            Vertical(
                listing,
                Static(id="story"),
                Vertical(FarView(id="far"), Static(id="far-name"), id="watch-far"),
                id="watch-side",
            ),
            id="watch-table",
        )
        yield Static(id="track")

    def on_mount(self) -> None:
        """List the solutions and show the first."""
        listing = self.query_one(ChoiceList)
        listing.add_options(solution_row(held(line, self._grip)) for line in self._lines)
        listing.highlighted = self._number
        self._timer = self.set_interval(PACE_SECONDS, self._run_on, pause=not self.runs)

    def on_resize(self) -> None:
        """As large as the room allows."""
        self.call_after_refresh(self._show)

    def on_screen_suspend(self) -> None:
        """Nothing runs behind another screen."""
        self._run(False)

    # -- the line --------------------------------------------------------------------------------

    @property
    def line(self) -> Line:
        """The moves that are watched, as the hands make them."""
        line = held(self._lines[self._number], self._grip)
        return easiest_grip(line) if self._eases else line

    @property
    def _has_choice(self) -> bool:
        """Whether the line is easier in another grip than the one given."""
        line = held(self._lines[self._number], self._grip)
        return easiest_grip(line) != line

    @property
    def cube(self) -> Cube:
        """The cube as it stands now."""
        return self._position.cube.turn((*self._gripped, *self.line[: self.step]))

    def _go(self, step: int) -> None:
        """To after so many moves; the neighbouring one is seen turning."""
        step = max(0, min(len(self.line), step))
        move: Move | None = None
        if step == self.step + 1:
            move = self.line[self.step]
        elif step == self.step - 1:
            move = self.line[step].inverse
        self.step = step
        self._show(move)

    # -- showing ---------------------------------------------------------------------------------

    def _show(self, move: Move | None = None) -> None:
        settings, position = self.app.settings, self._position
        room = plan(*self.app.size)
        look = look_of(settings, self.app.depth, position)
        look = replace(look, size=room.size, margin=room.margin, lean=self._lean())
        scene = scene_of(position, self.cube, look, focus=focuses(settings, position))
        view = self.query_one(CubeView)
        if move is None or not self.app.animates:
            view.rest(scene)
        else:
            view.turn(move, scene)
        self._share_side(room)
        self._show_far(scene, room)
        count = f"{self._number + 1} of {len(self._lines)}, " if len(self._lines) > 1 else ""
        self.entitle(self._title(), f"{count}{turns_words(len(self._lines[0]))}")
        self.query_one("#story", Static).update(self._story())
        self.query_one("#track", Static).update(self._track())
        self.query_one(KeyBar).refresh()

    def _title(self) -> str:
        """What is watched, and where there is a choice in which grip."""
        grip = ("held as given", "held otherwise")[self._eases] if self._has_choice else ""
        return f"Shortest solutions, {grip}" if grip else "Shortest solutions"

    def _has_far(self, room: Plan) -> bool:
        return self.app.settings.far_side != "never" and room.far >= LEAST_FAR

    def _share_side(self, room: Plan) -> None:
        """Give the far side its rows, the story and the list of solutions what is left."""
        side = self.query_one("#watch-side")
        side.styles.width = room.side
        self._is_short = self._has_far(room) and not room.roomy
        story = SHORT_STORY_ROWS if self._is_short else STORY_ROWS
        far = extent(room.far)[1] + 1 if self._has_far(room) else 0
        self.query_one("#story").styles.height = story
        left = side.content_size.height - far - story - 1
        self.query_one(ChoiceList).styles.max_height = max(1, min(LIST_ROWS, left))

    def _show_far(self, scene: Scene, room: Plan) -> None:
        """The far side, where the player wants it and there is room."""
        box = self.query_one("#watch-far")
        box.display = self._has_far(room)
        if not box.display:
            return
        from_below = not pair.is_cross_solved(self._position.cube)
        look = replace(scene.look, size=room.far, margin=(0, 0))
        self.query_one(FarView).rest(replace(scene, look=look), from_below=from_below)
        words = far_words(look, from_below=from_below)
        self.query_one("#far-name", Static).update(Content.assemble((words, "$muted")))

    def _lean(self) -> Lean:
        """The side that is seen: that of the first pair's slot as the line is held."""
        slot = next(iter(self._position.pairs), "FR")
        first = self.line[:1]
        if first and first[0].is_rotation:
            slot = symmetry.slot_image(slot, first[0].matrix)
        return "left" if "L" in slot else "right"

    def _story(self) -> Content:
        position, line = self._position, self.line
        head = "At the start"
        said = ""
        if self.step:
            move = line[self.step - 1]
            turns = sum(1 for each in line[: self.step] if not each.is_rotation)
            head = "The cube is turned round" if move.is_rotation else f"Turn {turns}: {move.name}"
            said = told(position, (*self._gripped, *line))[len(self._gripped) + self.step - 1]
        colours = look_of(self.app.settings, self.app.depth, position).scheme
        pairs = [s for s in position.pairs if not pair.is_pair_solved(self.cube, s)]
        places = [where(self.cube, slot, colours) for slot in pairs]
        table = stage_table([("line", stages(position, self._lines[self._number]))])
        table = [] if self._is_short else table
        return Content.assemble(
            (head, "bold"),
            (f"\n{said}\n", "$success"),
            ("\n".join([*places, *table]), "$muted"),
        )

    def _track(self) -> Content:
        """The line with the last turn made marked, the signs of stages under those made."""
        signs = signs_of(stages(self._position, (*self._gripped, *self.line)))
        signs = signs[len(self._gripped) :]
        names: list[tuple[str, str]] = []
        row = ""
        for number, move in enumerate(self.line):
            if number < self.step - 1:
                style = ""
            elif number == self.step - 1:
                style = "bold $accent"
            else:
                style = "$muted"
            names += [(move.name, style), ("  ", "")]
            sign = signs[number] if number < self.step else ""
            row += f"{sign:<{len(move.name) + 2}}"
        row = named_joined(row.rstrip(), self.query_one("#track").content_size.width)
        return Content.assemble(*names, ("\n" + row, "$success"))

    def key_label(self, action: str) -> str | None:
        """What the key bar calls a command now."""
        if action == "auto" and self.runs:
            return "stop"
        if action == "grip":
            return "hold as given" if self._eases else "hold otherwise"
        return None

    def allows(self, action: str) -> bool:
        """Another line, or another grip, only where there is one."""
        if action in ("next", "previous"):
            return len(self._lines) > 1
        return action != "grip" or self._has_choice

    # -- what the player does --------------------------------------------------------------------

    def action_forward(self) -> None:
        """The next turn."""
        self._run(False)
        self._go(self.step + 1)

    def action_backward(self) -> None:
        """The last turn back."""
        self._run(False)
        self._go(self.step - 1)

    def action_start(self) -> None:
        """To the start."""
        self._run(False)
        self._go(0)

    def action_end(self) -> None:
        """To the end."""
        self._run(False)
        self._go(len(self.line))

    def action_next(self) -> None:
        """The next solution."""
        self.query_one(ChoiceList).action_cursor_down()

    def action_previous(self) -> None:
        """The solution before."""
        self.query_one(ChoiceList).action_cursor_up()

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Another solution, from its start."""
        event.stop()
        if event.option_index != self._number:
            self._number = event.option_index
            self._go(0)

    def action_grip(self) -> None:
        """The other way to hold the cube; the line starts anew."""
        self._run(False)
        self._eases = not self._eases
        self._go(0)

    def action_auto(self) -> None:
        """Let the turns run, from the start when they are at the end; or stop them."""
        if self.runs:
            self._run(False)
            return
        if self.step == len(self.line):
            self._go(0)
        self._run(True)

    def _run(self, runs: bool) -> None:
        self.runs = runs
        self.query_one(KeyBar).refresh()
        if self._timer is None:
            return
        if runs:
            self._timer.reset()
            self._timer.resume()
        else:
            self._timer.pause()

    def _run_on(self) -> None:
        """One turn on; at the end the run is over."""
        self._go(self.step + 1)
        if self.step == len(self.line):
            self._run(False)
