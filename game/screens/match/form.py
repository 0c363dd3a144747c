"""A new table match: who plays, what, and by which rules; or one that waits is gone on with."""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from datetime import date

from textual import events
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static

from game.deal.selection import first_positions
from game.errors import PairwrightError
from game.friends.contest import Contest
from game.friends.match import MAX_NAME, MOST, Match, begin_match
from game.keeping import matches
from game.prose import listed
from game.screens.match.screen import MatchScreen
from game.screens.shared import keys
from game.screens.shared.contest_terms import ContestTerms
from game.screens.shared.form import FormRows
from game.screens.shared.frame import ERROR, FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList
from game.screens.shared.selection_rows import Chosen

LABEL_WIDTH = 12


class NameInput(Input):
    """A line for a name; Enter leads on at once, so that what is typed next lands in the next."""

    def __init__(self) -> None:
        super().__init__(max_length=MAX_NAME, compact=True, classes="player-name")

    async def action_submit(self) -> None:
        """On to the next name; from the last, and from an empty one, to the terms."""
        self.lead_on()

    def lead_on(self) -> None:
        """To the next name, or to the terms where nobody is named here nor further down.

        At once: what is typed meanwhile belongs there.
        """
        fields = [*self.screen.query(NameInput)]
        behind = fields[fields.index(self) :]
        is_last = len(behind) == 1 or not any(field.value.strip() for field in behind)
        self.screen.set_focus(self.screen.query_one("#terms") if is_last else behind[1])

    def on_blur(self) -> None:
        """Of a name that is longer than its line the beginning is seen."""
        self.cursor_position = 0


class MatchFormScreen(FramedScreen):
    """Names at the left; at the right the matches that wait, and the terms below them."""

    COMMAND_SCREEN = "players"
    SAID = "#match-problem"
    BINDINGS = keys.bindings("players")
    CSS_PATH = "match.tcss"
    AUTO_FOCUS = ""  # what waits decides

    def __init__(self) -> None:
        super().__init__()
        self._terms: ContestTerms | None = None
        self._waiting: tuple[tuple[int, Match], ...] = ()
        self._dropping: int | None = None  # the match of which it was asked whether it is over

    def body(self) -> Iterable[Widget]:
        """The names; the terms; what is wrong."""
        names = (
            Horizontal(
                Static(f"{number}", classes="seat"),
                NameInput(),
                classes="player",
            )
            for number in range(1, MOST + 1)
        )
        yield Horizontal(
            Vertical(Static("Players", classes="heading"), *names, id="players"),
            Vertical(
                Static("Waiting", classes="heading", id="waiting-heading"),
                ChoiceList(eager=True, quiet=True, id="waiting"),
                Static("Terms", classes="heading"),
                FormRows(quiet=True, id="terms"),
                id="match-terms",
            ),
            id="match-form",
        )
        yield Static(id="match-problem")

    def on_mount(self) -> None:
        """The names of last time; the usual terms."""
        self.entitle("Table match")
        packs = tuple(pack for pack in self.app.packs if pack.levels)
        self._terms = ContestTerms(Chosen(packs, date.today()))
        names = matches.last_names(self.app.keeper) or (self.app.settings.player,)
        for field, name in zip(self._fields, names, strict=False):
            field.value = name
        if not self._waiting:
            self._fields[0].focus()

    def on_screen_resume(self) -> None:
        """What waits may have become another: then going on with it is offered first."""
        before, self._waiting = self._waiting, matches.open_matches(self.app.keeper)
        self._show()
        if self._waiting and len(before) != len(self._waiting):
            self.query_one("#waiting").focus()

    @property
    def _fields(self) -> list[NameInput]:
        return [*self.query(NameInput)]

    # -- showing ---------------------------------------------------------------------------------

    def _show(self) -> None:
        if self._terms is None:
            return
        self._rows.show(self._terms.rows(), last="Begin the match")
        waiting = self.query_one("#waiting", ChoiceList)
        marked = waiting.highlighted or 0
        waiting.set_options(waiting_words(match) for _, match in self._waiting)
        waiting.highlighted = min(marked, len(self._waiting) - 1) if self._waiting else None
        waiting.display = bool(self._waiting)
        self.query_one("#waiting-heading").display = bool(self._waiting)
        self.query_one(KeyBar).refresh()

    def _help(self) -> None:
        """What the marked term means, while it is marked."""
        marked = self._rows.marked if self.focused is self._rows else None
        self.say(marked.help if marked is not None else "")

    @property
    def _rows(self) -> FormRows:
        return self.query_one(FormRows)

    @property
    def _is_writing(self) -> bool:
        return isinstance(self.focused, Input)

    @property
    def _is_waiting(self) -> bool:
        """Whether the pointer is among the matches that wait."""
        return self.focused is self.query_one("#waiting")

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Another term, perhaps; other keys do something now."""
        event.stop()
        self._help()
        self.query_one(KeyBar).refresh()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """Other keys do something now."""
        self._help()
        self.query_one(KeyBar).refresh()

    def key_label(self, action: str) -> str | None:
        """What the keys do where the pointer is."""
        if self._is_writing:
            return None if action in ("next", "back") else ""
        if action == "drop":
            return None if self._is_waiting else ""
        if self._is_waiting:
            return {"next": "go on", "change": ""}.get(action)
        is_last = self._rows.marked is None
        return {"next": "begin", "change": ""}.get(action) if is_last else {"next": ""}.get(action)

    def key_sign(self, action: str) -> str | None:
        """While a name is written, only Escape leads back."""
        return "Esc" if action == "back" and self._is_writing else None

    # -- the names -------------------------------------------------------------------------------

    def opens_line(self, key: str) -> bool:
        """Whether this key leads from a name elsewhere, so that those behind it must wait."""
        return self._is_writing and key in ("enter", "tab", "shift+tab", "down", "up")

    def action_down(self) -> None:
        """The next name; from where no more are named, the terms."""
        if isinstance(self.focused, NameInput):
            self.focused.lead_on()

    def action_up(self) -> None:
        """The name before."""
        if self._is_writing:
            self.focus_previous()

    # -- the terms -------------------------------------------------------------------------------

    def action_next(self) -> None:
        """What Enter does where the pointer is."""
        if isinstance(self.focused, OptionList):
            self.focused.action_select()
        elif isinstance(self.focused, Input):
            self.call_later(self.focused.action_submit)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """The next choice; begin; or go on with a match that waits."""
        event.stop()
        if event.option_list.id == "waiting":
            number, match = self._waiting[event.option_index]
            self.app.push_screen(MatchScreen(match, number))
        elif event.option.id == FormRows.LAST:
            self.call_later(self._begin)
        else:
            self.action_change()

    def action_change(self) -> None:
        """The next value."""
        self._change(1)

    def action_change_back(self) -> None:
        """The value before."""
        self._change(-1)

    def _change(self, step: int) -> None:
        marked = self._rows.marked
        if self._terms is not None and self.focused is self._rows and marked is not None:
            self._terms = self._terms.stepped(marked.key, step)
            self._show()

    def _begin(self) -> None:
        if self._terms is None:
            return
        names = [field.value for field in self._fields if field.value.strip()]
        terms = self._terms
        try:
            selection = terms.chosen.selection
            positions = first_positions(selection, secrets.token_hex(8), terms.count)
            match = begin_match(Contest(selection.words, positions, terms.rules), names)
        except PairwrightError as fault:
            self.say(f"{fault}.", ERROR)
            return
        self.say("", ERROR)
        self.app.push_screen(MatchScreen(match, matches.begin(self.app.keeper, match)))

    # -- matches that wait -----------------------------------------------------------------------

    def action_drop(self) -> None:
        """The marked match is over for good; asked twice."""
        at = self.query_one("#waiting", ChoiceList).highlighted
        if not self._is_waiting or at is None:
            return
        number, match = self._waiting[at]
        if self._dropping != number:
            self._dropping = number
            self.say(f"x again: the match of {_names(match)} is over for good.", ERROR)
            return
        matches.end(self.app.keeper, number)
        self.say("", ERROR)
        self.query_one("#terms").focus()
        self.on_screen_resume()


def waiting_words(match: Match) -> Content:
    """A match that waits: who plays, and how far it is."""
    place = f"position {match.number + 1} of {len(match.contest.positions)}"
    return Content.assemble(_names(match), (f"\n{match.contest.title}, {place}", "$muted"))


def _names(match: Match) -> str:
    return listed(player.name for player in match.players if not player.left)
