"""A table match: whose turn it is, how the players stand, and what leads from one to the next.

Between two players this screen stands, with no cube and no line on it: whoever played last hands
the keyboard over. When all have played a position, its lines are shown beside each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static

from game.friends.contest import TURNS
from game.friends.match import Match
from game.keeping import matches
from game.modes import MATCH
from game.play.position import Position
from game.play.result import Result
from game.screens.lines.columns import PlayerLine
from game.screens.lines.screen import LinesScreen, Page
from game.screens.match import rows as match_rows
from game.screens.shared import keys
from game.screens.shared.frame import WARN, FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList

LEFT = "This position was left: its clock runs on meanwhile."
SECRET = "Nobody sees a line until all have played the position."


LOOKS_ON = "Another window plays this match. Here you look on, and see no line before its time."
LOOK_SECONDS = 1.0
"""Between two looks at a match that another window plays."""


class MatchScreen(FramedScreen):
    """Leads through a match. run: its number in the records, None where it cannot be kept."""

    COMMAND_SCREEN = "match"
    SAID = "#match-said"
    BINDINGS = keys.bindings("match")
    CSS_PATH = "match.tcss"

    def __init__(self, match: Match, run: int | None) -> None:
        super().__init__()
        self.match = match
        self._run = run
        self._pars: dict[str, int] = {}
        self._result: Result | None = None  # of the round that was played last
        self._leaving: int | None = None  # who has been asked whether they leave
        self._looks_on = False  # another window plays this match

    def body(self) -> Iterable[Widget]:
        """Whose turn it is; the table of the players."""
        yield Static(id="match-call")
        yield Static(id="match-head")
        yield ChoiceList(eager=True, id="match-table")
        yield Static(id="match-said")

    def on_mount(self) -> None:
        """Have par searched, of what was played before too."""
        for position in self.match.contest.positions[: self.match.number + 1]:
            self._ask(position)
        self._looks_on = not self.app.keeper.take(self._run)
        if self._looks_on:
            self.say(LOOKS_ON, WARN)
            self.set_interval(LOOK_SECONDS, self._look)
        self._show()
        self.query_one(ChoiceList).focus()

    def on_unmount(self) -> None:
        """It can be gone on with elsewhere."""
        if not self._looks_on:
            self.app.keeper.release(self._run)

    def _look(self) -> None:
        """See how it goes on in another window; go on here once that is closed."""
        if not self.stands or not self._looks_on:
            return
        found = dict(matches.open_matches(self.app.keeper)).get(self._run or 0)
        if found is not None:
            self.match = found
        if self.app.keeper.take(self._run):
            self._looks_on = False
            self.say("")
        self._show()

    def on_resize(self) -> None:
        """As wide as the room."""
        self.call_after_refresh(self._show)

    # -- showing ---------------------------------------------------------------------------------

    def _show(self) -> None:
        match, table = self.match, self.query_one(ChoiceList)
        count = len(match.contest.positions)
        place = f"position {match.number + 1} of {count}, " if not match.is_finished else ""
        self.entitle("Table match", f"{place}{match_rows.ranked_words(match)}")
        self.query_one("#match-call", Static).update(self._call())
        marked = table.highlighted
        width = table.row_width
        if not width:
            return  # its room is not known yet
        self.query_one("#match-head", Static).update(match_rows.head_row(width))
        table.set_options(match_rows.player_rows(match, self._pars, width))
        table.highlighted = self._playing_row if marked is None else marked
        self.query_one(KeyBar).refresh()

    @property
    def _playing_row(self) -> int:
        """The row of whoever plays now; the first once the match is over."""
        seat = self.match.next
        return 0 if seat is None else match_rows.seats(self.match).index(seat)

    def _call(self) -> Content:
        """Whose turn it is, or who has won."""
        seat = self.match.next
        if seat is None:
            return Content.assemble((match_rows.winner_words(self.match), "bold $accent"))
        name = self.match.players[seat].name
        return Content.assemble(
            (name, "bold $accent"),
            (" plays. Everyone else looks away.", "bold"),
            (f"\n{SECRET}", "$muted"),
        )

    def key_label(self, action: str) -> str | None:
        """What Enter does."""
        if action == "go":
            return "the lines" if self.match.is_finished else "play"
        return None

    def allows(self, action: str) -> bool:
        """Lines are there once all have played a position; leaving is for those who play."""
        if self._looks_on and action in ("go", "leave"):
            return False
        if action == "lines":
            return bool(self.match.number) and not self.match.is_finished
        if action == "go":
            return not self.match.is_finished or bool(self.match.number)
        return action != "leave" or not self.match.is_finished

    @property
    def names(self) -> Iterable[str]:
        """The players'."""
        return (player.name for player in self.match.players)

    # -- par -------------------------------------------------------------------------------------

    def _ask(self, position: Position) -> None:
        self.app.keeper.follow(position, partial(self._learn, position.text))

    def _learn(self, position: str, par: int | None) -> None:
        """The par of one of the positions is known."""
        if par is not None:
            self._pars[position] = par
        if self.stands:
            self._show()

    # -- playing ---------------------------------------------------------------------------------

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click."""
        event.stop()
        if self.allows("go"):
            self.call_later(self.action_go)

    def action_go(self) -> None:
        """The next player plays; at the end the lines are looked through."""
        match, seat = self.match, self.match.next
        if seat is None:
            self.action_lines()
            return
        position = match.contest.positions[match.number]
        self._ask(position)
        self._play(position, match.players[seat].name)

    def _play(self, position: Position, name: str) -> None:
        """Anew, or once more: who has seen it gets neither another clock nor another inspection."""
        from game.screens.round.played_once import PlayedOnceRules, shown_before  # noqa: PLC0415 - when pushed
        from game.screens.round.rules import Round  # noqa: PLC0415 - likewise
        from game.screens.round.screen import RoundScreen  # noqa: PLC0415

        match = self.match
        is_new = match.shown is None
        round_ = Round(
            position,
            source="Table match",
            name=f"{match.number + 1} of {len(match.contest.positions)} · {name}",
            mode=MATCH,
            run=self._run,
            player=name,
            inspects=match.contest.rules.inspection and is_new,
            calls=match.contest.rules.by == TURNS,
            counts_down=is_new,
            said="" if is_new else shown_before(is_unsure=self.app.keeper.clock.is_unsure),
        )
        self._result = None
        gone = match.gone(self.app.keeper.now())
        rules = PlayedOnceRules(round_, gone, self._seen, self._take)
        self.app.push_screen(RoundScreen(rules), self._back)

    def _seen(self) -> None:
        """The position is shown: from now on its clock runs."""
        self.match = self.match.showing(self.app.keeper.now())
        matches.amend(self.app.keeper, self._run, self.match)

    def _take(self, result: Result) -> None:
        """What has come of it; nothing else is played before the keyboard is handed over."""
        self._result = result

    def _back(self, _: bool | None) -> None:
        """The player is back, and has played the position or left it."""
        result = self._result
        if result is None:
            self.say(LEFT if self.match.shown is not None else "", WARN)
            return
        before = self.match
        self.match = before.after(result)
        if self.match.is_finished:
            matches.end(self.app.keeper, self._run)
        self._go_on(before)

    def _go_on(self, before: Match) -> None:
        """Hand over, or show the lines if this was the last to play the position."""
        self._leaving = None
        self.say("", WARN)
        self.query_one(ChoiceList).highlighted = None
        self._show()
        if self.match.number > before.number:
            onward = "who has won" if self.match.is_finished else "next position"
            self._open_lines(onward)

    def _open_lines(self, onward: str = "") -> None:
        match = self.match
        pages = [self._page(number) for number in range(match.number)]
        if onward:
            self.app.push_screen(LinesScreen(pages[-1:], onward=onward))
        else:
            self.app.push_screen(LinesScreen(pages, len(pages) - 1))

    def _page(self, number: int) -> Page:
        position = self.match.contest.positions[number]
        entries = (
            PlayerLine(position, name, result.line, result)
            for name, result in self.match.played(number)
        )
        title = f"Position {number + 1} of {len(self.match.contest.positions)}"
        return Page(title, position, tuple(entries), self._pars.get(position.text))

    # -- what else the players do ----------------------------------------------------------------

    def action_lines(self) -> None:
        """The lines of what all have played."""
        if self.match.number:
            self._open_lines()

    @property
    def _marked(self) -> int:
        """The player whose row is marked."""
        return match_rows.seats(self.match)[self.query_one(ChoiceList).highlighted or 0]

    def action_leave(self) -> None:
        """The marked player leaves for good; asked twice."""
        seat = self._marked
        name = self.match.players[seat].name
        if self.match.players[seat].left:
            self.say(f"{name} has left already.", WARN)
        elif self._leaving != seat:
            self._leaving = seat
            self.say(f"x again: {name} leaves for good, and keeps what is played.", WARN)
        else:
            before = self.match
            self.match = before.without(seat)
            matches.amend(self.app.keeper, self._run, self.match)
            self._go_on(before)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Once another player is marked nobody has been asked."""
        event.stop()
        if self._leaving not in (None, self._marked):
            self._leaving = None
            self.say("", WARN)
