"""The help: words and keys of the screen in front, its page of the manual, then the rest."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from textwrap import wrap

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from game.manual import INDEX, page
from game.screens.shared.command import Command
from game.screens.shared.keys import groups
from game.screens.shared.text_page import TextPage

KEYS_WIDTH = 14
"""Columns of the keys, before what they do."""

SCREENS = {
    "play": "Playing",
    "round": "Runs, matches, contests",
    "curtain": "The curtain",
    "watch": "Watching solutions",
    "home": "Home",
    "map": "The map",
    "atlas": "The atlas",
    "drill": "The drill",
    "runs": "Timed runs",
    "run": "A run that is over",
    "contests": "Contests",
    "invite": "An invite",
    "contest": "A contest, and the day's five",
    "code": "Text for a chat",
    "paste": "Pasting",
    "standings": "Standings",
    "players": "A new table match",
    "match": "A table match",
    "lines": "The lines of several players",
    "race": "Watching lines",
    "statistics": "Statistics",
    "settings": "Settings",
}
"""The screens whose keys are told, in order, and what they are called."""

MEANINGS: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    (
        "What it is about",
        ("play", "home", "map"),
        (
            "A pair is a corner and the edge beside it. Bring both into their slot, keep the cross"
            " and the other slots, in as few turns as can be.",
            "Par is the length of a shortest way: exact, no estimate. Over is what you turned"
            " beyond it; it is never less than nothing.",
        ),
    ),
    (
        "Counting",
        ("play", "round", "watch"),
        (
            "A turn of a face counts one, by a quarter or a half; a wide turn one, a slice two;"
            " turning the whole cube counts nothing.",
            "The line is tidied before it is counted: R R is one turn, and R R' costs nothing."
            " Undo is free.",
        ),
    ),
    (
        "Times",
        ("play", "round", "runs", "run"),
        (
            "Seeing is the time until the first turn, doing that from there to the last; turning"
            " the whole cube to look does not end seeing. First side turn is when you first turned"
            " a face other than the top.",
            "The turns of a line that is entered with t are all made at the moment of Enter: from"
            " the first of them to the last takes no time.",
            "Before a start inspection costs nothing up to 15 seconds. A position that is given up,"
            " though, costs its inspection too: in an hourglass nobody looks for nothing.",
        ),
    ),
    (
        "Marks",
        ("play", "map", "atlas"),
        (
            "The first for solving; the second, at hand, when no shorter way exists with the faces"
            " at your hands, the top and the two sides of the slot; the third at par.",
            "With par hidden you may call it: declare, once solved, that no shorter way exists."
            " A right call earns a mark of its own.",
            "After the solutions were shown only the first can be earned.",
        ),
    ),
    (
        "Placements",
        ("atlas", "drill", "statistics"),
        (
            "A placement is where a pair lies as seen from its slot, whatever the turn of the top:"
            " 168, of which 42 have no piece in another slot. Its par is the least over the four"
            " turns of the top. The atlas shows them all.",
            "Over its columns stands the side at which the edge lies, under the colour that is up;"
            " of an edge in a slot, the first letter of a colour and the face to which it looks.",
        ),
    ),
    (
        "Signs",
        ("play", "round", "watch", "map", "lines", "race"),
        (
            "A pair is joined when its two pieces lie side by side as in their slot, wherever that"
            " is: the gap between them closes, and & stands under that turn of the line. Under"
            " other turns stands what they lead to: ▴ the pair is freed, = lined up, ▾ slotted.",
            "In the flat drawings * stands beside the two stickers of a joined pair, and + beside"
            " those that a hint means.",
            "A slot left open need not be solved: use it as you like. Grey stickers do not matter.",
            "Twins are mirror images of a level.",
            "On the map, shown stands in place of the marks where the solutions were seen and the"
            " level was never solved.",
        ),
    ),
    (
        "Contests",
        ("contests", "invite", "contest", "code", "paste", "standings"),
        (
            "An invite is text that carries positions and rules; a card is text that carries what"
            " one player made of them. Whoever pastes cards sees the standings: turns are proven"
            " by replaying every line, times are the players' word.",
            "Each position is played once, in order. Once it is shown its clock runs on, for three"
            " days at most, whether you stay or not. Nobody's lines are shown before you have"
            " played all.",
            "The day's five belong to a date and are the same for everybody. A day is joined to"
            " the one before when its five were played on their own date or the day after.",
        ),
    ),
    (
        "Table matches",
        ("players", "match"),
        (
            "Once a position is shown to a player their clock runs on, for three days at most,"
            " whether the cube is hidden or not. Whoever leaves it, or ends the game, begins it"
            " again with that time on the clock, from its start and without inspection.",
        ),
    ),
    (
        "The drill's rating",
        ("drill", "statistics"),
        (
            "You and everything that the drill asks are rated by Glicko-2: a position is won at"
            " par without help, and half won when that took half as long again as it usually"
            " takes you. What you are expected to win one time in five comes most often, and"
            " every third position is the one that has waited longest.",
        ),
    ),
)

"""What the game means by its words: a heading, the screens on which they are met, paragraphs."""

PAGES = {
    "play": "playing", "round": "runs", "curtain": "runs", "watch": "coach", "home": "index",
    "map": "playing", "atlas": "atlas", "drill": "drill", "runs": "runs", "run": "runs",
    "contests": "contests", "invite": "contests", "contest": "contests", "code": "contests",
    "paste": "contests", "standings": "contests", "players": "match", "match": "match",
    "lines": "coach", "race": "coach", "statistics": "statistics", "settings": "files",
}  # fmt: skip
"""Screen -> the page of the manual that tells of it."""

LEAST_COLUMNS = 40
"""A window with fewer is too small to show the text, but it must still be made."""


class HelpScreen(TextPage):
    """The help for a screen, its words and keys first."""

    def __init__(self, screen: str) -> None:
        super().__init__("Help")
        self._screen = screen

    def below(self) -> Iterable[Widget]:
        """The page of the manual, and what is told of other screens."""
        from textual.widgets import Markdown  # noqa: PLC0415 - heavy, and for the help alone

        yield Markdown(page(PAGES.get(self._screen, INDEX)), id="page", open_links=False)
        yield Static(id="rest")

    def text(self, columns: int) -> Content:
        """The words and keys of the screen."""
        return own_text(self._screen, max(columns, LEAST_COLUMNS))

    def lay_out(self, columns: int) -> None:
        """Also the words and keys of all others."""
        super().lay_out(columns)
        rest = rest_text(self._screen, max(columns, LEAST_COLUMNS))
        self.query_one("#rest", Static).update(rest)


def own_text(screen: str, columns: int) -> Content:
    """The words that are met on a screen, and its keys; its lines at most `columns` wide."""
    parts = _words(columns, lambda screens: screen in screens)
    if screen in SCREENS:
        parts += _keys_of(screen, columns)
    return Content("\n").join(parts)[1:]


def rest_text(screen: str, columns: int) -> Content:
    """The words that are met elsewhere, and the keys of the other screens."""
    parts = _words(columns, lambda screens: screen not in screens)
    for other in SCREENS:
        if other != screen:
            parts += _keys_of(other, columns)
    return Content("\n").join(parts)


def _words(columns: int, wanted: Callable[[tuple[str, ...]], bool]) -> list[Content]:
    parts: list[Content] = []
    for heading, screens, paragraphs in MEANINGS:
        if wanted(screens):
            parts.append(_heading(heading))
            parts += (Content("\n".join(wrap(paragraph, columns))) for paragraph in paragraphs)
    return parts


def _keys_of(screen: str, columns: int) -> Iterable[Content]:
    for group, commands in groups(screen).items():
        name = SCREENS[screen]
        yield _heading(name if group == name else f"{name}: {group[0].lower()}{group[1:]}")
        for command in commands:
            yield _row(command, columns)


def _heading(text: str) -> Content:
    return Content.assemble("\n", (text, "bold $accent"))


def _row(command: Command, columns: int) -> Content:
    """The keys, and beside them what they do, in as many lines as it takes."""
    lines = wrap(command.help, columns - KEYS_WIDTH)
    indent = "\n" + " " * KEYS_WIDTH
    return Content.assemble((f"{command.shown:<{KEYS_WIDTH}}", "bold"), indent.join(lines))
