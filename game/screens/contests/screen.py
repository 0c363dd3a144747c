"""One contest, or a day's five: what is played of it, and what leads on from there."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from textual.widgets import Input, OptionList

from game.deal.five import is_day
from game.errors import ContestError, SettingsError
from game.friends.card_text import card_text, contest_name, day_name
from game.friends.codes import invite_code
from game.friends.contest import Contest
from game.friends.entry import ContestProgress
from game.keeping import contests
from game.keeping.entries import settled
from game.play.result import Result
from game.screens.contests import rows as contest_rows
from game.screens.contests.code import CodeScreen
from game.screens.contests.paste import PasteScreen
from game.screens.contests.table import ContestTableScreen
from game.screens.shared import keys
from game.screens.shared.choices import changed
from game.screens.shared.frame import MUTED
from game.screens.shared.key_bar import KeyBar

if TYPE_CHECKING:
    from game.screens.shared.host import Host

PLAYED_MEANWHILE = "More of this was played meanwhile, in another copy of the game."
FIRST_COUNTS = "This position was played in another copy of the game: the first attempt counts."
NOT_YET = "Lines are shown once you have played every position."


class ContestScreen(ContestTableScreen):
    """Plays what is next; card, invite, standings and lines."""

    BINDINGS = keys.bindings("contest")

    @classmethod
    def of_kind(cls, app: Host, kind: str) -> ContestScreen:
        """The screen for a contest by its key, which must be known, or for the day of a date."""
        if is_day(kind):
            return cls(None, date.fromisoformat(kind))
        return cls(contests.entry_of(app.keeper, app.pasted, kind))

    def allows(self, action: str) -> bool:
        """Days follow each other; a day's five need no invite; what is over is over."""
        entered = self._entered
        is_finished = entered is not None and entered.is_finished
        if self.query_one("#contest-name").has_focus:
            return True
        if action in ("earlier", "later", "today"):
            return self._date is not None
        if action == "invite":
            return self._date is None
        return not is_finished if action == "play" else True

    def key_label(self, action: str) -> str | None:
        """What can be done now; while the name is written, Enter keeps it."""
        if self.query_one("#contest-name").has_focus:
            return {"play": "keep the name", "back": "drop it"}.get(action, "")
        entered = self._entered
        if entered is None or not entered.is_finished:
            going = entered is not None and bool(entered.number or entered.begun)
            return {"card": "", "lines": "", "play": "go on" if going else "play"}.get(action)
        return None

    # -- playing ---------------------------------------------------------------------------------

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click: play what is next; the lines once all is played."""
        event.stop()
        over = self._entered is not None and self._entered.is_finished
        self.call_later(self.action_lines if over else self.action_play)

    def action_play(self) -> None:
        """The next position."""
        from game.screens.contests.round import contest_rules  # noqa: PLC0415 - when pushed
        from game.screens.round.screen import RoundScreen  # noqa: PLC0415 - likewise

        entry = self._entry
        if self.query_one("#contest-name").has_focus:
            self.call_later(self.query_one("#contest-name", Input).action_submit)
        elif entry is not None and not entry.entered.is_finished:
            shown, entry = entry, contests.keep(self.app.keeper, entry)
            self._entry = entry
            if entry.entered.number != shown.entered.number:
                self.said = (PLAYED_MEANWHILE, MUTED)
                self._open()
                return
            gone = entry.entered.gone(self.app.keeper.now())
            rules = contest_rules(
                entry, gone, self._seen, self._played, is_unsure=self.app.keeper.clock.is_unsure
            )
            self.app.push_screen(RoundScreen(rules))

    def _seen(self) -> None:
        """The position is shown."""
        assert self._entry is not None
        self._entry = contests.begin(self.app.keeper, self._entry, self.app.keeper.now())

    def _played(self, result: Result) -> None:
        """The position is over."""
        assert self._entry is not None
        number = self._entry.entered.number
        self._entry = contests.after(self.app.keeper, self._entry, result)
        counts = self._entry.entered.results[number] == settled(result)
        self.said = ("" if counts else FIRST_COUNTS, MUTED)
        self._open()

    # -- text for a chat -------------------------------------------------------------------------

    def action_invite(self) -> None:
        """The invite."""
        if self._entered is not None and self._date is None:
            self.app.push_screen(invite_screen(self._entered.contest))

    def action_card(self) -> None:
        """The card, once all is played; it needs a name."""
        entered = self._entered
        if entered is None or not entered.is_finished:
            self.say("Your card comes once every position is played.")
        elif not self.app.settings.player:
            field = self.query_one("#contest-name", Input)
            field.display = True
            self.set_focus(field)
            self.query_one(KeyBar).refresh()
        else:
            self._show_card(entered)

    def _show_card(self, entered: ContestProgress) -> None:
        name = self.app.settings.player
        try:
            text = card_text(entered.contest, entered.card(name), self._known_pars(entered))
        except ContestError as fault:
            self.say(str(fault))
            return
        called = day_name(entered.day) if entered.day else contest_name(entered.contest)
        about = "Paste this into the chat: the words are for your friends, the code ranks you."
        self.app.push_screen(CodeScreen("Your card", about, text, f"{called} {name}"))

    def opens_line(self, key: str) -> bool:
        """Whether this key is about to open the line for the name."""
        entered = self._entered
        wanted = entered is not None and entered.is_finished and not self.app.settings.player
        return wanted and key.lower() in ("c", "shift+c")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """The name is written: on to the card."""
        event.stop()
        try:
            settings = changed("player", self.app.settings, event.value.strip())
        except SettingsError as fault:
            self.say(str(fault))
            return
        self._close_input()
        self.app.change_settings(settings)
        if settings.player:
            self.action_card()

    def _close_input(self) -> None:
        self.query_one("#contest-name").display = False
        self.set_focus(self._rows)
        self.query_one(KeyBar).refresh()

    # -- among friends ---------------------------------------------------------------------------

    def action_paste(self) -> None:
        """Cards of others, or anything else."""
        self.app.push_screen(PasteScreen(self.open_kind))

    def action_standings(self) -> None:
        """The ranking of all cards that there are."""
        from game.screens.contests.standings import StandingsScreen  # noqa: PLC0415 - when pushed

        entered = self._entered
        if entered is not None:
            self.app.push_screen(StandingsScreen(entered, self._cards(entered)))

    def action_lines(self) -> None:
        """Everybody's lines, once all is played."""
        from game.screens.lines.screen import LinesScreen  # noqa: PLC0415 - likewise

        entered = self._entered
        if entered is None or not entered.is_finished:
            self.say(NOT_YET)
            return
        pages = contest_rows.pages(entered, self._cards(entered))
        self.app.push_screen(LinesScreen(pages, self._rows.highlighted or 0))

    def _cards(self, entered: ContestProgress) -> contest_rows.Cards:
        """The player's own card, if there is one, and those that were pasted."""
        own = entered.own_card(self.app.settings.player)
        pasted = self.app.pasted.cards_for(entered.kind)
        return tuple(dict.fromkeys((*own, *pasted)))

    def action_back(self) -> None:
        """From the name to the table, from there to the screen before."""
        if self.query_one("#contest-name").has_focus:
            self._close_input()
        else:
            super().action_back()


def invite_screen(contest: Contest) -> CodeScreen:
    """The invite of a contest, to be sent."""
    name = contest_name(contest)
    about = "Send this to your friends: all of it, in one piece or in several lines."
    return CodeScreen("Invite", about, f"{name}\n{invite_code(contest)}", name)
