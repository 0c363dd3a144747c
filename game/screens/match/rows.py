"""The table of a match: how the players stand, and what each does now. Pure.

        player         turns  over    time  solved
    1   Ada               14    +2   21.07     3/3   waits
    2   Bo                16    +4   20.11     3/3   plays now

Until all have played a position the rows are in the order of play, from then on by rank. What is
counted is of the positions that all have played, so nothing here tells of a line that may not be
seen yet.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from textual.content import Content

from game.friends.contest import TURNS
from game.friends.match import Match
from game.friends.standings import Ranked, Standings, standings
from game.play.times import written
from game.prose import listed
from game.screens.shared.fitting import fit

RANK_WIDTH, STATE_WIDTH = 4, 11
TURNS_WIDTH, OVER_WIDTH, TIME_WIDTH, SOLVED_WIDTH, CALLS_WIDTH = 7, 6, 10, 8, 7
LEAST_NAME, MOST_NAME = 8, 24
WIDE = 70
"""Columns from which on calls are counted too."""
PLAYS, PLAYED, WAITS, LEFT = "plays now", "played", "waits", "left"

Pars = Mapping[str, int]
"""Par of the positions, by their text, as far as it is known."""


def standing(match: Match) -> Standings | None:
    """How the players stand by what all have played; None before the first position."""
    return standings(*match.so_far) if match.so_far is not None else None


def seats(match: Match) -> tuple[int, ...]:
    """The players as they are listed: by rank, at first by their order of play."""
    every = range(len(match.players))
    made = standing(match)
    if made is not None:
        ranks = {row.card.name: at for at, row in enumerate(made.rows)}
        return tuple(sorted(every, key=lambda seat: ranks[match.players[seat].name]))
    order = match.order
    return (*order, *(seat for seat in every if seat not in order))


def state_words(match: Match, seat: int) -> str:
    """What a player does now."""
    player = match.players[seat]
    if player.left:
        return LEFT
    if match.is_finished:
        return ""
    if seat == match.next:
        return PLAYS
    return PLAYED if len(player.results) > match.number else WAITS


def head_row(width: int) -> Content:
    """The headings."""
    name = " " * RANK_WIDTH + fit("player", _name_width(width))
    heads = ["turns", "over", "time", "solved", *["calls"] * (width >= WIDE)]
    return Content.styled(name + _right(heads), "$muted")


def player_rows(match: Match, pars: Pars, width: int) -> list[Content]:
    """A row for each player, in the order of `seats`."""
    made = standing(match)
    rows = {row.card.name: row for row in made.rows} if made is not None else {}
    return [_row(match, seat, rows.get(match.players[seat].name), pars, width)
            for seat in seats(match)]  # fmt: skip


def winner_words(match: Match) -> str:
    """Who has won: "Ada wins", "Ada and Bo share the first place"; nobody where nothing is won."""
    made = standing(match)
    best = [row for row in made.rows if row.rank == 1 and row.solved] if made is not None else []
    names = [row.card.name for row in best]
    if not names:
        return "Nobody has won"
    return f"{names[0]} wins" if len(names) == 1 else f"{listed(names)} share the first place"


def ranked_words(match: Match) -> str:
    """How the match is ranked."""
    return "by turns" if match.contest.rules.by == TURNS else "by time"


def _row(match: Match, seat: int, row: Ranked | None, pars: Pars, width: int) -> Content:
    player = match.players[seat]
    state = state_words(match, seat)
    now = state == PLAYS
    name = fit(player.name, _name_width(width))
    rank = "" if row is None else str(row.rank)
    style = "bold $accent" if now else "$muted" if player.left else "bold"
    return Content.assemble(
        (f"{rank:<{RANK_WIDTH}}", "$accent" if rank == "1" else "$muted"),
        (name, style),
        (_right(_figures(match, row, pars, width)), "$muted" if player.left else ""),
        (f"  {state}", "$accent" if now else "$muted"),
    )


def _figures(match: Match, row: Ranked | None, pars: Pars, width: int) -> Sequence[str]:
    if row is None or match.so_far is None:
        return [""] * (4 + (width >= WIDE))
    positions = match.so_far[0].positions
    known = tuple(pars.get(position.text) for position in positions)
    over = row.over(known)
    calls = f"{row.right_calls(known)}/{row.calls}" if row.calls else ""
    made = ["-", "", "-"]
    if row.solved:
        how = "" if over is None else f"+{over}" if over else "par"
        made = [str(row.all_turns), how, written(row.time)]
    return [*made, f"{row.solved}/{len(positions)}", *[calls] * (width >= WIDE)]


def _right(cells: Sequence[str]) -> str:
    widths = (TURNS_WIDTH, OVER_WIDTH, TIME_WIDTH, SOLVED_WIDTH, CALLS_WIDTH)
    return "".join(f"{cell:>{columns}}" for cell, columns in zip(cells, widths, strict=False))


def _name_width(width: int) -> int:
    others = RANK_WIDTH + STATE_WIDTH + TURNS_WIDTH + OVER_WIDTH + TIME_WIDTH + SOLVED_WIDTH
    others += CALLS_WIDTH * (width >= WIDE)
    return max(LEAST_NAME, min(MOST_NAME, width - others))
