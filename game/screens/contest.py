"""One contest, or a day's five: what is played of it, and what leads on from there."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static

from game.card_text import card_text, contest_name, day_name
from game.codes import invite_code
from game.contest import Contest, Result
from game.day import FIRST_DAY, day, is_day
from game.entered import Entered
from game.errors import ContestError, SettingsError
from game.screens import book, commands, contest_rows
from game.screens.book import Entry
from game.screens.choices import changed
from game.screens.code import CodeScreen
from game.screens.engine import Answered, Failed, whole_question
from game.screens.frame import FramedScreen
from game.screens.key_bar import KeyBar
from game.screens.lists import ChoiceList
from game.screens.looks import focuses, look_of
from game.screens.paste import PasteScreen
from game.screens.preview import Preview
from game.settings import MAX_PLAYER

if TYPE_CHECKING:
    from game.screens.app import PairwrightApp

WITH_PICTURE = 76
"""Columns from which on there is room for a picture beside the table."""
WITH_LARGE_PICTURE = 100
NOT_YET = "Lines are shown once you have played every position."
ONE_DAY = timedelta(1)


class ContestScreen(FramedScreen):
    """A row a position. Give either an entry, or the date whose five are wanted."""

    COMMAND_SCREEN = "contest"
    BINDINGS = commands.bindings("contest")
    HORIZONTAL_BREAKPOINTS = [  # noqa: RUF012
        *FramedScreen.HORIZONTAL_BREAKPOINTS,
        (WITH_PICTURE, "-with-picture"),
        (WITH_LARGE_PICTURE, "-with-large-picture"),
    ]

    def __init__(self, entry: Entry | None = None, date_: date | None = None) -> None:
        super().__init__()
        self._entry = entry
        self._date = date_
        self._pars: dict[str, int] = {}
        self._said = ""

    @classmethod
    def of_kind(cls, app: PairwrightApp, kind: str) -> ContestScreen:
        """The screen for a contest by its key, which must be known, or for the day of a date."""
        if is_day(kind):
            return cls(None, date.fromisoformat(kind))
        return cls(book.entry_of(app, kind))

    def body(self) -> Iterable[Widget]:
        """The table and what it comes to; the picture of a position that is played."""
        yield Horizontal(
            Vertical(
                Static(id="contest-head"),
                ChoiceList(eager=True, id="contest-rows"),
                Static(id="contest-words"),
                Static(id="contest-days"),
                Static(id="contest-said"),
                Input(id="contest-name", max_length=MAX_PLAYER, compact=True,
                      placeholder="your name, for the card"),
                id="contest-table",
            ),
            Preview(words=False, id="contest-picture"),
            id="contest",
        )  # fmt: skip

    def on_mount(self) -> None:
        """What there is to see, at once or as soon as it is dealt."""
        self.query_one("#contest-name").display = False
        self._rows.focus()
        if self._date is not None:
            self._go_to(self._date)
        else:
            self._open()

    def on_screen_resume(self) -> None:
        """Cards may have been pasted meanwhile."""
        self._show()

    def on_resize(self) -> None:
        """Rows and picture are as large as their room."""
        self.call_after_refresh(self._show)

    def on_unmount(self) -> None:
        """Nothing is to be known any more."""
        self.app.engine.forget(self)

    # -- which contest ---------------------------------------------------------------------------

    def _go_to(self, date_: date) -> None:
        """Another day; its five are dealt in a thread."""
        self._date, self._entry, self._said = date_, None, ""
        self._show()
        self.run_worker(lambda: self._deal(date_), thread=True, exclusive=True)

    def _deal(self, date_: date) -> None:
        self.app.call_later(self._take, date_, dealt(date_))

    def _take(self, date_: date, contest: Contest) -> None:
        if self.is_attached and date_ == self._date:
            self._entry = book.entry_for(self.app, contest, date_.isoformat())
            self._open()

    def _open(self) -> None:
        """Show the entry, the next position marked, and look for the pars of those played."""
        assert self._entry is not None
        if self._entry.run is None and self._date is None:  # from now on it is in the list
            self._entry = book.keep(self.app, self._entry)
        self._ask()
        self._show()
        entered = self._entry.entered
        self._rows.highlighted = min(entered.number, len(entered.contest.positions) - 1)

    def open_kind(self, kind: str) -> None:
        """Show another contest in place of this one, by its key or date."""
        if is_day(kind):
            self._go_to(date.fromisoformat(kind))
            return
        entry = book.entry_of(self.app, kind)
        if entry is not None:
            self._date, self._entry = None, entry
            self._open()

    # -- par -------------------------------------------------------------------------------------

    def _ask(self) -> None:
        """Ask for the pars of what is played; of nothing else, which may be on the screen soon."""
        entered = self._entered
        for position in entered.contest.positions[: entered.number] if entered else ():
            self.app.engine.ask(whole_question(position), self)

    def on_answered(self, message: Answered) -> None:
        """A par is known."""
        message.stop()
        par = getattr(message.outcome, "par", None)
        entered = self._entered
        if par is None or entered is None:
            return
        for position in entered.contest.positions:
            if whole_question(position) == message.question:
                self._pars[position.text] = par
        self._show()

    def on_failed(self, message: Failed) -> None:
        """It goes without."""
        message.stop()

    # -- showing ---------------------------------------------------------------------------------

    @property
    def _entered(self) -> Entered | None:
        return self._entry.entered if self._entry is not None else None

    @property
    def _rows(self) -> ChoiceList:
        return self.query_one("#contest-rows", ChoiceList)

    def _known_pars(self, entered: Entered) -> tuple[int | None, ...]:
        return tuple(self._pars.get(position.text) for position in entered.contest.positions)

    def _show(self) -> None:
        if not self.is_attached:
            return
        entered = self._entered
        self.entitle(*self._titles(entered))
        days = contest_rows.joined_words(book.days_played(self.app), date.today())
        self.query_one("#contest-days", Static).update(days if self._date else "")
        self.query_one("#contest-said", Static).update(Content.styled(self._said, "$foreground"))
        self.query_one(KeyBar).refresh()
        if entered is None:
            self._rows.clear_options()
            self.query_one("#contest-words", Static).update(Content.styled("Dealing ...", "$muted"))
            return
        pars, marked = self._known_pars(entered), self._rows.highlighted
        self.query_one("#contest-head", Static).update(contest_rows.head())
        self._rows.set_options(contest_rows.rows(entered, pars))
        self._rows.highlighted = marked
        cards = len(book.chat(self.app).cards_for(entered.kind))
        words = contest_rows.words(entered, pars, cards)
        self.query_one("#contest-words", Static).update(words)
        self.call_after_refresh(self._draw)

    def _titles(self, entered: Entered | None) -> tuple[str, str]:
        if self._date is not None:
            return "The day's five", contest_rows.date_words(self._date, date.today())
        assert entered is not None
        return contest_name(entered.contest), contest_rows.rules_words(entered.contest)

    def _draw(self) -> None:
        """The marked position, if it is played: what is still to come is not to be seen."""
        entered, marked = self._entered, self._rows.highlighted
        picture = self.query_one(Preview)
        played = entered is not None and marked is not None and marked < entered.number
        picture.set_class(not played, "-hidden")
        if entered is not None and marked is not None and played:
            position = entered.contest.positions[marked]
            settings = self.app.settings
            look = look_of(settings, self.app.depth, position)
            picture.show(position, None, look, focus=focuses(settings, position))

    def _say(self, said: str) -> None:
        self._said = said
        self._show()

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Another position."""
        event.stop()
        self._draw()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Days follow each other; a day's five need no invite; what is over is over."""
        entered = self._entered
        is_over = entered is not None and entered.is_over
        if self.query_one("#contest-name").has_focus:
            return True
        if action in ("earlier", "later", "today"):
            return self._date is not None
        if action == "invite":
            return self._date is None
        return not is_over if action == "play" else True

    def key_label(self, action: str) -> str | None:
        """What can be done now; while the name is written, Enter keeps it."""
        if self.query_one("#contest-name").has_focus:
            return {"play": "keep the name", "back": "drop it"}.get(action, "")
        entered = self._entered
        if entered is None or not entered.is_over:
            going = entered is not None and entered.number > 0
            return {"card": "", "lines": "", "play": "go on" if going else "play"}.get(action)
        return None

    # -- playing ---------------------------------------------------------------------------------

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click: play what is next; the lines once all is played."""
        event.stop()
        over = self._entered is not None and self._entered.is_over
        self.call_later(self.action_lines if over else self.action_play)

    def action_play(self) -> None:
        """The next position."""
        from game.screens.contest_round import ContestRoundScreen  # noqa: PLC0415 - when pushed

        entry = self._entry
        if self.query_one("#contest-name").has_focus:
            self.call_later(self.query_one("#contest-name", Input).action_submit)
        elif entry is not None and not entry.entered.is_over:
            self._entry = entry = book.keep(self.app, entry)
            gone = entry.entered.gone(int(time.time()))
            self.app.push_screen(ContestRoundScreen(entry, gone, self._seen, self._played))

    def _seen(self) -> None:
        """The position is shown: what was seen cannot be unseen."""
        assert self._entry is not None
        begun = self._entry.entered.beginning(int(time.time()))
        self._entry = book.keep(self.app, replace(self._entry, entered=begun))

    def _played(self, result: Result) -> None:
        """The position is over."""
        assert self._entry is not None
        self._said = ""
        entered = self._entry.entered.after(result)
        self._entry = book.keep(self.app, replace(self._entry, entered=entered))
        if entered.is_over:
            book.close(self.app, self._entry)
        self._open()

    # -- text for a chat -------------------------------------------------------------------------

    def action_invite(self) -> None:
        """The invite."""
        entered = self._entered
        if entered is not None and self._date is None:
            name = contest_name(entered.contest)
            about = "Send this to your friends: all of it, in one piece or in several lines."
            text = f"{name}\n{invite_code(entered.contest)}"
            self.app.push_screen(CodeScreen("Invite", about, text, name))

    def action_card(self) -> None:
        """The card, once all is played; it needs a name."""
        entered = self._entered
        if entered is None or not entered.is_over:
            self._say("Your card comes once every position is played.")
        elif not self.app.settings.player:
            field = self.query_one("#contest-name", Input)
            field.display = True
            self.set_focus(field)
            self.query_one(KeyBar).refresh()
        else:
            self._show_card(entered)

    def _show_card(self, entered: Entered) -> None:
        name = self.app.settings.player
        try:
            text = card_text(entered.contest, entered.card(name), self._known_pars(entered))
        except ContestError as fault:
            self._say(str(fault))
            return
        called = day_name(entered.day) if entered.day else contest_name(entered.contest)
        about = "Paste this into the chat: the words are for your friends, the code ranks you."
        self.app.push_screen(CodeScreen("Your card", about, text, f"{called} {name}"))

    def opens_line(self, key: str) -> bool:
        """Whether this key is about to open the line for the name."""
        entered = self._entered
        wanted = entered is not None and entered.is_over and not self.app.settings.player
        return wanted and key.lower() in ("c", "shift+c")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """The name is written: on to the card."""
        event.stop()
        try:
            settings = changed("player", self.app.settings, event.value.strip())
        except SettingsError as fault:
            self._say(str(fault))
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
        from game.screens.standings import StandingsScreen  # noqa: PLC0415 - when pushed

        entered = self._entered
        if entered is not None:
            self.app.push_screen(StandingsScreen(entered, self._cards(entered)))

    def action_lines(self) -> None:
        """Everybody's lines, once all is played."""
        from game.screens.lines import LinesScreen  # noqa: PLC0415 - likewise

        entered = self._entered
        if entered is None or not entered.is_over:
            self._say(NOT_YET)
            return
        pages = contest_rows.pages(entered, self._cards(entered))
        self.app.push_screen(LinesScreen(pages, self._rows.highlighted or 0))

    def _cards(self, entered: Entered) -> contest_rows.Cards:
        """The player's own card, if there is one, and those that were pasted."""
        own = entered.own_card(self.app.settings.player)
        pasted = book.chat(self.app).cards_for(entered.kind)
        return tuple(dict.fromkeys((*own, *pasted)))

    # -- days ------------------------------------------------------------------------------------

    def action_earlier(self) -> None:
        """The day before."""
        if self._date is not None and self._date > date.fromisoformat(FIRST_DAY):
            self._go_to(self._date - ONE_DAY)

    def action_later(self) -> None:
        """The day after, which is today at most."""
        if self._date is not None and self._date < date.today():
            self._go_to(self._date + ONE_DAY)

    def action_today(self) -> None:
        """Today."""
        if self._date is not None:
            self._go_to(date.today())

    def action_back(self) -> None:
        """From the name to the table, from there to the screen before."""
        if self.query_one("#contest-name").has_focus:
            self._close_input()
        else:
            super().action_back()


@lru_cache(maxsize=32)
def dealt(date_: date) -> Contest:
    """The five of a date."""
    return day(date_)
