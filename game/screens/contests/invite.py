"""A new invite: what is played, by which rules, under which title."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Iterable
from datetime import date

from textual.containers import Vertical
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static

from game.cube.moves import MAX_TEXT, parse_line
from game.deal.selection import first_positions
from game.errors import (
    NotationError,
    PairwrightError,
    PositionError,
    did_you_mean,
    printable,
)
from game.friends.contest import MAX_BYTES, MAX_POSITIONS, Contest
from game.keeping import contests
from game.packs import puzzles
from game.play.position import Position, position_after
from game.screens.shared import keys
from game.screens.shared.contest_terms import ContestTerms
from game.screens.shared.form import FormRows
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.selection_rows import Chosen

SETUPS = "R U R', F R U R' U' F', 00-first-turns/open-door"
ABOUT = "It carries the positions themselves: the same for everyone."


class TermsList(FormRows):
    """The terms; past their first and last row are the fields."""

    def action_cursor_up(self) -> None:
        """The row before, or the field above."""
        if self.highlighted:
            super().action_cursor_up()
        else:
            self.screen.focus_previous()

    def action_cursor_down(self) -> None:
        """The next row, or the field below."""
        if self.highlighted == self.option_count - 1:
            self.screen.focus_next()
        else:
            super().action_cursor_down()


class InviteScreen(FramedScreen):
    """Rows to choose from, and two fields. then: called with the contest made."""

    COMMAND_SCREEN = "invite"
    SAID = "#invite-said"
    BINDINGS = keys.bindings("invite")
    CSS_PATH = "contests.tcss"

    def __init__(self, then: Callable[[Contest], None]) -> None:
        super().__init__()
        self._then = then
        self._terms: ContestTerms | None = None

    def body(self) -> Iterable[Widget]:
        """Title, terms, setups that are typed, what is wrong."""
        yield Vertical(
            Input(id="invite-title", max_length=MAX_BYTES, compact=True,
                  placeholder="title: what your friends will call it"),
            TermsList(quiet=True, id="invite-terms"),
            Static("Or setups and levels, with commas between", classes="invite-label"),
            Input(id="invite-setups", max_length=MAX_TEXT, compact=True, placeholder=SETUPS),
            Static(id="invite-said"),
            id="invite",
        )  # fmt: skip

    def on_mount(self) -> None:
        """The usual terms."""
        self.entitle("Make an invite")
        packs = tuple(pack for pack in self.app.packs if pack.levels)
        self._terms = ContestTerms(Chosen(packs, date.today()))
        self.say(ABOUT)
        self._show()
        self.query_one("#invite-title").focus()

    def _show(self) -> None:
        if self._terms is None:
            return
        self._choices.show(self._terms.rows(), last="Make the invite")
        self.query_one(KeyBar).refresh()

    @property
    def _choices(self) -> TermsList:
        return self.query_one(TermsList)

    @property
    def _field(self) -> str | None:
        """The field that is written in."""
        return self.focused.id if isinstance(self.focused, Input) else None

    @property
    def _is_writing(self) -> bool:
        return self._field is not None

    @property
    def _is_at_end(self) -> bool:
        return self._choices.marked is None

    # -- what the player does --------------------------------------------------------------------

    def on_descendant_focus(self) -> None:
        """Other keys do something now."""
        self.query_one(KeyBar).refresh()

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Other keys do something now."""
        event.stop()
        self.query_one(KeyBar).refresh()

    def key_label(self, action: str) -> str | None:
        """What the keys do where the pointer is."""
        if self._is_writing:
            return {"next": "go on", "change": "", "help": ""}.get(action)
        if self._is_at_end:
            return {"next": "make it", "change": ""}.get(action)
        return {"next": ""}.get(action)

    def key_sign(self, action: str) -> str | None:
        """While something is written, only Escape leads back."""
        return "Esc" if action == "back" and self._is_writing else None

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """From the title to the terms; from the setups on to the invite."""
        event.stop()
        if event.input.id == "invite-title":
            self._choices.focus()
        elif event.value.strip():
            self.call_later(self._make)
        else:
            self._choices.focus()

    def action_next(self) -> None:
        """What Enter does where the pointer is."""
        if isinstance(self.focused, Input):
            self.call_later(self.focused.action_submit)
        else:
            self._choices.action_select()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """The next choice, or make it."""
        event.stop()
        if event.option.id == FormRows.LAST:
            self.call_later(self._make)
        else:
            self.action_change()

    def action_down(self) -> None:
        """From the title to the first of the terms."""
        if self._field == "invite-title":
            self._choices.highlighted = 0
            self._choices.focus()

    def action_up(self) -> None:
        """From the setups to the last row over them."""
        if self._field == "invite-setups":
            self._choices.highlighted = self._choices.option_count - 1
            self._choices.focus()

    def action_change(self) -> None:
        """The next value."""
        self._change(1)

    def action_change_back(self) -> None:
        """The value before."""
        self._change(-1)

    def _change(self, step: int) -> None:
        marked = self._choices.marked
        if self._terms is not None and not self._is_writing and marked is not None:
            self._terms = self._terms.stepped(marked.key, step)
            self._show()

    def action_back(self) -> None:
        """From a field to the terms, from there back."""
        if self._is_writing:
            self._choices.focus()
        else:
            super().action_back()

    # -- making it -------------------------------------------------------------------------------

    def _make(self) -> None:
        """Make the contest and hand it on."""
        assert self._terms is not None
        try:
            title = self.query_one("#invite-title", Input).value.strip()
            contest = Contest(title, self._positions(), self._terms.rules)
        except PairwrightError as fault:
            self.say(_problem(fault), "$error")
            return
        contests.keep(self.app.keeper, contests.entry_for(self.app.keeper, contest))
        self.leave()
        self._then(contest)

    def _positions(self) -> tuple[Position, ...]:
        """Those that are typed, or else those of the terms. Raises PairwrightError."""
        assert self._terms is not None
        typed = self.query_one("#invite-setups", Input).value.split(",")
        named = [part.strip() for part in typed if part.strip()]
        if named:
            return tuple(map(self._position, named[: MAX_POSITIONS + 1]))
        terms = self._terms
        return first_positions(terms.chosen.selection, secrets.token_hex(8), terms.count)

    def _position(self, named: str) -> Position:
        """The position of a setup, or of a level by its key: pack/level."""
        if "/" not in named:
            return position_after(parse_line(named))
        found = {puzzle.key: puzzle for pack in self.app.packs for puzzle in puzzles(pack)}
        if named not in found:
            hint = did_you_mean(named, list(found))
            raise PositionError(f'there is no level "{printable(named, 40)}"{hint}')
        return found[named].position


def _problem(fault: PairwrightError) -> str:
    return fault.problem if isinstance(fault, NotationError) else str(fault)
