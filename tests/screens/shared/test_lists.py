"""Lists to choose from, in whatever state."""

from __future__ import annotations

from collections.abc import Iterable

from rich.style import Style
from textual import events
from textual.widget import Widget

from game.screens.shared.frame import FramedScreen
from game.screens.shared.lists import ChoiceList, RoomyList
from game.screens.shared.palette import Palette, PaletteList
from tests.screens.conftest import Start


class ListScreen(FramedScreen):
    """A screen with a list."""

    COMMAND_SCREEN = "help"

    def body(self) -> Iterable[Widget]:
        """Three rows."""
        yield ChoiceList(id="rows")

    def on_mount(self) -> None:
        """Fill it."""
        self.query_one(ChoiceList).add_options(["one", "two", "three"])


def click(widget: Widget, row: int) -> events.Click:
    """A click on what was drawn as this row."""
    return events.Click(
        widget, x=1, y=1, delta_x=0, delta_y=0, button=1, shift=False, meta=False, ctrl=False,
        style=Style(meta={"option": row}),
    )  # fmt: skip


async def test_a_row_that_has_gone_is_not_clicked(start: Start) -> None:
    """A list may change between its picture and the click on it: nothing is chosen then."""
    async with start() as game:
        await game.app.push_screen(ListScreen())
        rows = game.app.screen.query_one(ChoiceList)
        for row, is_stopped in ((2, False), (3, True), (99, True)):
            event = click(rows, row)
            await RoomyList._on_click(rows, event)
            assert event._no_default_action == is_stopped
        rows.on_click(click(rows, 99))
        assert rows.highlighted is None


async def test_pages_need_room(start: Start) -> None:
    """In a window without room for the list no page is turned."""
    async with start(size=(60, 3)) as game:
        await game.app.push_screen(ListScreen())
        rows = game.app.screen.query_one(ChoiceList)
        rows.focus()
        await game.press("down pagedown pageup end home")
        assert rows.option_count == 3


async def test_the_palette(start: Start) -> None:
    """It opens once, finds a command of the screen in front, and closes once."""
    async with start() as game:
        await game.app.push_screen(ListScreen())
        await game.press("ctrl+p ctrl+p")
        await game.until(lambda: isinstance(game.app.screen, Palette))
        assert sum(isinstance(screen, Palette) for screen in game.app.screen_stack) == 1
        listed = game.app.screen.query_one(PaletteList)
        await game.until(lambda: listed.option_count > 0)
        await game.press("escape escape")
        await game.until(lambda: not isinstance(game.app.screen, Palette))
