"""What is shown of a contest, or of a day's five, and which of them it is.

What leads on from there is in `game.screens.contests.screen`.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from functools import lru_cache, partial

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static

from game.deal.five import FIRST_DAY, LAST_DAY, is_day
from game.errors import DayError
from game.friends.card_text import contest_name
from game.friends.contest import Contest
from game.friends.day import day
from game.friends.entry import ContestProgress
from game.keeping import contests
from game.keeping.entries import Entry
from game.screens.contests import rows as contest_rows
from game.screens.shared.frame import MUTED, FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.preview import Preview
from game.settings import MAX_PLAYER

WITH_PICTURE, WITH_LARGE_PICTURE = 76, 100
"""Columns from which on there is room for a picture beside the table, and for a large one."""
ONE_DAY = timedelta(1)


class ContestTableScreen(FramedScreen):
    """A row a position. Give either an entry, or the date whose five are wanted."""

    COMMAND_SCREEN = "contest"
    CSS_PATH = "contests.tcss"
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
        self._sought: set[str] = set()  # positions whose par is being searched

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
        self._date, self._entry, self.said = date_, None, ("", MUTED)
        self._show()
        self.run_worker(lambda: self._deal(date_), thread=True, exclusive=True)

    def _deal(self, date_: date) -> None:
        try:
            self.app.call_later(self._take, date_, dealt(date_))
        except DayError as fault:
            self.app.call_later(self.say, str(fault).capitalize() + ".")

    def _take(self, date_: date, contest: Contest) -> None:
        if self.is_attached and date_ == self._date:
            self._entry = contests.entry_for(self.app.keeper, contest, date_.isoformat())
            self._open()

    def _open(self) -> None:
        """Show the entry, the next position marked, and look for the pars of those played."""
        assert self._entry is not None
        if self._entry.run is None and self._date is None:  # from now on it is in the list
            self._entry = contests.keep(self.app.keeper, self._entry)
        self._ask()
        self._show()
        entered = self._entry.entered
        self._rows.highlighted = min(entered.number, len(entered.contest.positions) - 1)

    def open_kind(self, kind: str) -> None:
        """Show another contest in place of this one, by its key or date."""
        if is_day(kind):
            self._go_to(date.fromisoformat(kind))
            return
        entry = contests.entry_of(self.app.keeper, self.app.pasted, kind)
        if entry is not None:
            self._date, self._entry = None, entry
            self._open()

    # -- par -------------------------------------------------------------------------------------

    def _ask(self) -> None:
        """Ask for the pars of what is played; of nothing else, which may be on the screen soon."""
        entered = self._entered
        for position in entered.contest.positions[: entered.number] if entered else ():
            if position.text not in self._pars and position.text not in self._sought:
                self._sought.add(position.text)
                self.app.keeper.follow(position, partial(self._learn, position.text))

    def _learn(self, position: str, par: int | None) -> None:
        """A par is known, or will not be."""
        self._sought.discard(position)
        if par is not None:
            self._pars[position] = par
        if self.stands:
            self._show()

    # -- showing ---------------------------------------------------------------------------------

    @property
    def _entered(self) -> ContestProgress | None:
        return self._entry.entered if self._entry is not None else None

    @property
    def _rows(self) -> ChoiceList:
        return self.query_one("#contest-rows", ChoiceList)

    def _known_pars(self, entered: ContestProgress) -> tuple[int | None, ...]:
        return tuple(self._pars.get(position.text) for position in entered.contest.positions)

    def _show(self) -> None:
        if not self.is_attached:
            return
        entered = self._entered
        self.entitle(*self._titles(entered))
        days = contest_rows.joined_words(contests.days_played(self.app.keeper), date.today())
        self.query_one("#contest-days", Static).update(days if self._date else "")
        self.query_one("#contest-said", Static).update(Content.styled(self.said[0], "$foreground"))
        self.query_one(KeyBar).refresh()
        if entered is None:
            self._rows.clear_options()
            dealing = Content.styled("" if self.said[0] else "Dealing ...", "$muted")
            self.query_one("#contest-words", Static).update(dealing)
            return
        pars, marked = self._known_pars(entered), self._rows.highlighted
        self.query_one("#contest-head", Static).update(contest_rows.head())
        self._rows.set_options(contest_rows.rows(entered, pars))
        self._rows.highlighted = marked
        cards = len(self.app.pasted.cards_for(entered.kind))
        searches = any(
            position.text in self._sought
            for position, result in zip(entered.contest.positions, entered.results, strict=False)
            if result.solved
        )
        words = contest_rows.words(entered, pars, cards, searches=searches)
        self.query_one("#contest-words", Static).update(words)
        self.call_after_refresh(self._draw)

    def _titles(self, entered: ContestProgress | None) -> tuple[str, str]:
        if self._date is not None:
            return "The day's five", contest_rows.date_words(self._date, date.today())
        assert entered is not None
        name = contest_name(entered.contest)
        return name, contest_rows.aside(name, entered.contest, self.size.width)

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

    def show_said(self) -> None:
        """The message is part of the page."""
        self._show()

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Another position."""
        event.stop()
        self._draw()

    # -- days ------------------------------------------------------------------------------------

    def action_earlier(self) -> None:
        """The day before."""
        if self._date is not None and self._date > date.fromisoformat(FIRST_DAY):
            self._go_to(min(self._date - ONE_DAY, date.fromisoformat(LAST_DAY)))

    def action_later(self) -> None:
        """The day after, which is today at most."""
        if self._date is not None and self._date < date.today():
            self._go_to(self._date + ONE_DAY)

    def action_today(self) -> None:
        """Today."""
        if self._date is not None:
            self._go_to(date.today())


@lru_cache(maxsize=32)
def dealt(date_: date) -> Contest:
    """The five of a date."""
    return day(date_)
