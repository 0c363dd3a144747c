"""What is shown of a contest as text: its rows, its rules, the days in a row. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from rich.cells import cell_len
from textual.content import Content

from game.cube.line import obtm
from game.deal.joined_days import Played, counted_days, joined_days
from game.foreign import shown
from game.friends.card_text import summary
from game.friends.contest import TIME, Card, Contest
from game.friends.entry import ContestProgress
from game.friends.standings import Pars, Ranked, proven_turns
from game.play.result import Result
from game.play.times import written
from game.prose import counted, tallied
from game.screens.lines.columns import PlayerLine
from game.screens.lines.screen import Page

Cards = Sequence[Card]
ONCE = (
    "Each position is played once. Once it is shown its clock runs on, even while you are away:"
    " what was seen cannot be unseen."
)

NUMBER_WIDTH, TURNS_WIDTH, OVER_WIDTH, TIME_WIDTH = 3, 5, 14, 8
UNKNOWN = "par ?"
TIMES = ("seeing", "doing", "time")
TITLE_GAP = 4
"""Columns of a title row beside its two texts."""
SHOWN_DAYS = 21
"""Days of the row of days."""
JOINED, MISSED, OPEN = "━", "·", "○"
LEGEND = f"{JOINED} played in time   {MISSED} not   {OPEN} today, still open"


def head() -> Content:
    """The headings of the rows."""
    times = "".join(f"{name:>{TIME_WIDTH}}" for name in TIMES)
    text = f"  {'':{NUMBER_WIDTH}}{'turns':<{TURNS_WIDTH + OVER_WIDTH}}{times}"
    return Content.styled(text, "$muted")


def rows(entered: ContestProgress, pars: Pars) -> Iterable[Content]:
    """A row a position."""
    for number, par in enumerate(pars):
        first = f"{number + 1:<{NUMBER_WIDTH}}"
        if number < entered.number:
            yield Content.assemble(first, *_played(entered.results[number], par))
        elif number > entered.number:
            yield Content.styled(first, "$muted")
        elif entered.begun is None:
            yield Content.assemble(first, ("to play", "$accent"))
        else:
            yield Content.assemble(first, ("begun; its clock runs on", "$warning"))


def _played(result: Result, par: int | None) -> Iterable[tuple[str, str]]:
    """Turns, turns over par, whether it was called, times."""
    if not result.solved:
        yield "not solved", "$muted"
        return
    turns = obtm(result.line)
    over = UNKNOWN if par is None else "par" if turns == par else f"+{turns - par}"
    yield f"{turns:>{TURNS_WIDTH - 2}}  ", "bold"
    yield f"{over:<7}", "$accent" if over == "par" else "$muted"
    yield f"{'called' if result.called else '':<{OVER_WIDTH - 7}}", "$muted"
    for time in (result.seeing, result.doing):
        yield f"{written(time):>{TIME_WIDTH}}", "$muted"
    yield f"{written(result.time):>{TIME_WIDTH}}", ""


def words(entered: ContestProgress, pars: Pars, cards: int, *, searches: bool = False) -> Content:
    """What it comes to, or what is to be known before the next position.

    searches: whether a par of what is played is being searched.
    """
    contest = entered.contest
    if entered.is_finished:
        card = Card("?", entered.results)
        row = Ranked(1, card, proven_turns(contest, card), namesake=False)
        lines: list[tuple[str, str]] = [(f"{summary(row, contest, pars)}.\n", "bold")]
        lines.append(("Your card is ready for the chat.", "$muted"))
    else:
        lines = [(ONCE, "$muted")]
    if searches:
        lines.append((f"\n{UNKNOWN}: it is being searched.", "$muted"))
    if cards:
        lines.append((f"\n{counted(cards, 'card').capitalize()} pasted.", "$muted"))
    return Content.assemble(*lines)


def rules_words(contest: Contest) -> str:
    """ "5 positions, by turns, inspection"."""
    inspection = ", inspection" if contest.rules.inspection else ""
    by = "by time" if contest.rules.by == TIME else "by turns, then time"
    return f"{counted(len(contest.positions), 'position')}, {by}{inspection}"


def aside(name: str, contest: Contest, width: int) -> str:
    """The rules beside a name in a row of that many columns, as much of them as there is room."""
    rules = rules_words(contest)
    short = "by time" if contest.rules.by == TIME else "by turns"
    room = width - cell_len(name) - TITLE_GAP
    return next((said for said in (rules, short) if cell_len(said) <= room), "")


def date_words(date_: date, today: date) -> str:
    """ "Wednesday 25 November 2026, today"."""
    written = f"{date_:%A} {date_.day} {date_:%B %Y}"
    away = (today - date_).days
    near = {0: ", today", 1: ", yesterday"}.get(away, "")
    return written + near


def joined_words(played: Iterable[Played], today: date) -> Content:
    """The last weeks, a sign a day, and how many days are joined."""
    days = tuple(played)
    now, most = joined_days(days, today.toordinal())
    counted_ = counted_days(days, today.toordinal())
    numbers = range(today.toordinal() - SHOWN_DAYS + 1, today.toordinal() + 1)
    line: list[tuple[str, str]] = []
    for number in numbers:
        if number in counted_:
            line.append((JOINED, "$accent"))
        else:
            line.append((OPEN if number == numbers[-1] else MISSED, "$muted"))
    joined = f"{tallied(now, 'day')} joined"
    told = f"  {joined}" + (f", once {most}" if most > now else "")
    return Content.assemble(*line, (f"{told}\n{LEGEND}", "$muted"))


def pages(entered: ContestProgress, cards: Cards) -> tuple[Page, ...]:
    """Everybody's lines, a page a position."""
    found = []
    for number, position in enumerate(entered.contest.positions):
        results = [(shown(c.name, 16), c.results) for c in cards]
        entries = tuple(
            PlayerLine(position, name, played[number].line, played[number])
            for name, played in results
            if number < len(played)
        )
        count = len(entered.contest.positions)
        found.append(Page(f"Position {number + 1} of {count}", position, entries))
    return tuple(found)
