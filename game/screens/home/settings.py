"""The settings: each applies at once, is kept at once, and shows on a cube."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static

from game.cube.moves import parse_line
from game.draw.drawing import draw_cube, size_for
from game.errors import SettingsError
from game.play.position import position_after
from game.screens.shared import keys
from game.screens.shared.choices import SETTINGS, Choice, changed, stepped, usual
from game.screens.shared.cube_view import scene_of
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.picture_view import PictureView
from game.settings import MAX_PLAYER, Settings

SAMPLE = position_after(parse_line("R U R' U'"), view="full")
"""The position on which settings are tried: a corner and an edge apart."""
LABEL_WIDTH = 16


class SettingsScreen(FramedScreen):
    """A row a setting; the right and left keys change it."""

    COMMAND_SCREEN = "settings"
    SAID = "#setting-help"
    BINDINGS = keys.bindings("settings")
    CSS_PATH = "settings.tcss"

    def body(self) -> Iterable[Widget]:
        """The settings and what the marked one does; a cube that shows them."""
        yield Horizontal(
            Vertical(
                ChoiceList(eager=True, id="settings"),
                Static(id="setting-help"),
                Input(id="player", max_length=MAX_PLAYER, placeholder="your name", compact=True),
                id="setting-rows",
            ),
            Vertical(PictureView(id="sample"), id="sample-box"),
            id="settings-table",
        )

    def on_mount(self) -> None:
        """Begin at the first."""
        self.entitle("Settings")
        self.query_one("#player").display = False
        self._show()
        self._list.focus()

    def on_resize(self) -> None:
        """The sample is as large as its room."""
        self.call_after_refresh(self._show)

    @property
    def _list(self) -> ChoiceList:
        return self.query_one("#settings", ChoiceList)

    @property
    def _choice(self) -> Choice:
        return SETTINGS[self._list.highlighted or 0]

    def _show(self) -> None:
        settings, marked = self.app.settings, self._list.highlighted or 0
        self._list.set_options(_row(choice, settings) for choice in SETTINGS)
        self._list.highlighted = marked
        self.say(self._choice.help)
        columns, rows = self.query_one("#sample-box").content_size
        look = look_of(settings, self.app.depth, SAMPLE)
        look = replace(look, size=size_for(columns, rows))
        scene = scene_of(SAMPLE, SAMPLE.cube, look, focus=focuses(settings, SAMPLE))
        picture = draw_cube(scene.cube, scene.look, grey=scene.grey, joined=scene.joined)
        self.query_one("#sample", PictureView).show(picture)

    def _apply(self, settings: Settings) -> None:
        self.app.change_settings(settings)
        self._show()

    # -- what the player does --------------------------------------------------------------------

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Say what this one does."""
        event.stop()
        self.say(self._choice.help)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click: the next choice."""
        event.stop()
        self.call_later(self.action_change)

    async def action_change(self) -> None:
        """The next choice; for the name, write it, and once it is written keep it."""
        field = self.query_one("#player", Input)
        if field.has_focus:
            await field.action_submit()
        elif self._choice.key == "player":
            field.value = self.app.settings.player
            field.display = True
            self.set_focus(field)
            self.query_one(KeyBar).refresh()
        else:
            self._apply(stepped(self._choice.key, self.app.settings, 1))

    def action_change_back(self) -> None:
        """The choice before."""
        self._apply(stepped(self._choice.key, self.app.settings, -1))

    def action_usual(self) -> None:
        """As at first."""
        self._apply(usual(self._choice.key, self.app.settings))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """The name is written."""
        event.stop()
        try:
            settings = changed("player", self.app.settings, event.value.strip())
        except SettingsError as fault:
            self.say(str(fault), "$error")
            return
        self._close_input()
        self._apply(settings)

    def _close_input(self) -> None:
        self.query_one("#player").display = False
        self.set_focus(self._list)
        self.query_one(KeyBar).refresh()

    def key_label(self, action: str) -> str | None:
        """While the name is written, Enter keeps it and Escape drops it."""
        if not self.query_one("#player").has_focus:
            return None
        return {"change": "keep the name", "back": "drop it"}.get(action, "")

    def key_sign(self, action: str) -> str | None:
        """The keys of these two while the name is written."""
        if not self.query_one("#player").has_focus:
            return None
        return {"change": "Enter", "back": "Esc"}.get(action)

    def action_back(self) -> None:
        """From the name to the settings, from there back."""
        if self.query_one("#player").has_focus:
            self._close_input()
        else:
            super().action_back()


def _row(choice: Choice, settings: Settings) -> Content:
    value = choice.value_words(settings)
    return Content.assemble(
        (f"{choice.label:<{LABEL_WIDTH}}", ""), ("‹ ", "$muted"), (value, "bold"), (" ›", "$muted")
    )
