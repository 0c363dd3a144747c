"""Contests over a chat: those entered; making an invite, pasting what friends sent."""

from __future__ import annotations

from collections.abc import Iterable

from rich.cells import cell_len
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from game.friends.card_text import contest_name
from game.friends.contest import Contest
from game.friends.entry import ContestProgress
from game.keeping import contests
from game.keeping.entries import Entry
from game.screens.contests import rows as contest_rows
from game.screens.contests.paste import PasteScreen
from game.screens.contests.screen import ContestScreen, invite_screen
from game.screens.shared import keys
from game.screens.shared.fitting import fit
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList

INTRODUCTION = (
    "Play the same positions as your friends, over any chat.\n\n"
    "i makes an invite: text that carries the positions and the rules. Send it.\n"
    "p takes an invite that you were sent, or a whole chat with cards in it.\n\n"
    "Once you have played, your card is text too. Whoever pastes the cards sees the standings:"
    " every turn is replayed, so that nobody has to take anybody's word for it."
)
STATE_WIDTH, RULES_WIDTH, DATE_WIDTH = 16, 22, 12
MIN_NAME, MAX_NAME = 16, 40
"""Columns that the names take before anything else does."""


class ContestsScreen(FramedScreen):
    """A row a contest, the newest first."""

    COMMAND_SCREEN = "contests"
    BINDINGS = keys.bindings("contests")
    CSS_PATH = "contests.tcss"

    def __init__(self) -> None:
        super().__init__()
        self._entries: tuple[Entry, ...] = ()

    def body(self) -> Iterable[Widget]:
        """The list, or a word while the list is empty."""
        yield Vertical(
            Static(INTRODUCTION, id="contests-about"),
            ChoiceList(eager=True, id="contest-list"),
            id="contests",
        )

    def on_screen_resume(self) -> None:
        """What was played meanwhile shows."""
        self._entries = contests.entries(self.app.keeper)
        self._show()

    def on_resize(self) -> None:
        """Rows are as wide as the list."""
        self.call_after_refresh(self._show)

    def _show(self) -> None:
        choices = self.query_one(ChoiceList)
        marked = choices.highlighted or 0
        width = choices.row_width
        names = [cell_len(contest_name(entry.entered.contest)) + 2 for entry in self._entries]
        name_width = min(max([MIN_NAME, *names]), MAX_NAME)
        choices.set_options(
            Option(row(entry, width, name_width), id=str(entry.run)) for entry in self._entries
        )
        choices.highlighted = min(marked, len(self._entries) - 1) if self._entries else None
        self.query_one("#contests-about").display = not self._entries
        choices.focus()
        waiting = sum(not entry.entered.is_finished for entry in self._entries)
        aside = f"{waiting} to play" if waiting else ""
        self.entitle("Contests", aside)
        self.query_one(KeyBar).refresh()

    # -- what the player does --------------------------------------------------------------------

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Open what was chosen."""
        event.stop()
        self.call_later(self.action_open)

    def action_open(self) -> None:
        """Open the contest that is marked."""
        marked = self.query_one(ChoiceList).highlighted
        if marked is not None:
            self.app.push_screen(ContestScreen(self._entries[marked]))

    def action_paste(self) -> None:
        """Invites and cards."""
        self.app.push_screen(PasteScreen(self.open_kind))

    def open_kind(self, kind: str) -> None:
        """Open the contest of a key or date."""
        self.app.push_screen(ContestScreen.of_kind(self.app, kind))

    def action_invite(self) -> None:
        """Make an invite."""
        from game.screens.contests.invite import InviteScreen  # noqa: PLC0415 - imported where it is pushed

        self.app.push_screen(InviteScreen(self._take_up))

    def _take_up(self, contest: Contest) -> None:
        """Show the invite of a contest that was made; back from there is the contest."""
        self.app.push_screen(ContestScreen(contests.entry_for(self.app.keeper, contest)))
        self.app.push_screen(invite_screen(contest))

    def allows(self, action: str) -> bool:
        """There must be something to open."""
        return action != "open" or bool(self._entries)


def row(entry: Entry, width: int, name_width: int) -> Content:
    """A contest: its name, how far it is played, its rules, when it was entered.

    Rules and date are left out where they would take from the name's width.
    """
    entered = entry.entered
    state, style = state_words(entered)
    shown = [(f"{state:<{STATE_WIDTH}}", style)]
    room = width - STATE_WIDTH
    if room >= RULES_WIDTH + name_width:
        rules = contest_rows.rules_words(entered.contest).partition(", ")[2]
        shown.append((fit(rules, RULES_WIDTH), "$muted"))
        room -= RULES_WIDTH
    if room >= DATE_WIDTH + name_width and entry.began is not None:
        shown.append((f"{entry.began.astimezone():%d %b}".rjust(DATE_WIDTH - 2), "$muted"))
        room -= DATE_WIDTH
    return Content.assemble(fit(contest_name(entered.contest), max(8, room)), *shown)


def state_words(entered: ContestProgress) -> tuple[str, str]:
    """How far it is played, and in what tone that is said."""
    count = len(entered.contest.positions)
    if entered.is_finished:
        return "played", "$muted"
    if not entered.number:
        return "to play", "$accent"
    return f"{entered.number} of {count} played", "$accent"
