"""Standings as words and as JSON.

The JSON object has three keys:

    contests   for each: `belongs` (the invite's key, or the date of a day's five), `title`, `by`,
               `inspection`, `positions` (each `text` and `par`, null where it is not known), `rows`
               and `refused` (each `name` and `reason`)
    strays     cards without their invite: `name` and `belongs`
    faults     why codes could not be read

A row has `rank`, `name`, `solved`, `turns`, `over` (null where a par is not known), `time` in
hundredths of a second, `calls`, `right_calls`, `namesake`, and `results`: for each position
`turns` (null where it was not solved), `line`, `seeing` and `doing` in hundredths, `called`, and
`inspection`, the seconds that it added.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from game.cube.moves import line_text
from game.errors import DayError
from game.foreign import shown
from game.friends.card_text import contest_name, day_name
from game.friends.chat import Chat
from game.friends.codes import Findings
from game.friends.contest import Card, Contest
from game.friends.day import day
from game.friends.standings import PROOF, Pars, Ranked, Standings, standings
from game.play.times import written
from game.prose import counted

ParOf = Mapping[str, int]
"""A position's text -> its par."""
COLUMNS = ("rank", "solved", "turns", "over", "time", "calls", "player")


@dataclass(frozen=True)
class Told:
    """What a chat comes to. belongs: of each contest in the standings, its key or date.

    strays: cards whose contest is not known, each with what it belongs to.
    """

    belongs: tuple[str, ...]
    all_standings: tuple[Standings, ...]
    strays: tuple[tuple[str, Card], ...]
    found: Findings


def ranked(chat: Chat, found: Findings) -> Told:
    """The standings of every contest, in the order of the chat."""
    belongs: list[str] = []
    made: list[Standings] = []
    strays: list[tuple[str, Card]] = []
    for kind in chat.kinds:
        contest = chat.contests.get(kind) or _day_of(kind)
        if contest is None:
            strays += ((kind, card) for card in chat.cards_for(kind))
        else:
            belongs.append(kind)
            made.append(standings(contest, chat.cards_for(kind)))
    return Told(tuple(belongs), tuple(made), tuple(strays), found)


def _day_of(kind: str) -> Contest | None:
    """The five of a date; None for any other text."""
    try:
        return day(date.fromisoformat(kind))
    except (ValueError, DayError):
        return None


# -- words ---------------------------------------------------------------------------------------


def as_words(told: Told, pars: ParOf, *, is_one_text: bool = True) -> str:
    """For a reader: a table a contest, then what is not ranked.

    is_one_text: whether all came in one text: then codes that cannot be read have their line.
    """
    parts = [
        "\n".join(_contest_lines(kind, one, _pars(one.contest, pars)))
        for kind, one in zip(told.belongs, told.all_standings, strict=True)
    ]
    if told.strays:
        lines = (f"  {shown(card.name)} belongs to {_stray_of(kind)}" for kind, card in told.strays)
        parts.append("\n".join(["Not ranked:", *lines]))
    faults = [f"  {fault.placed if is_one_text else fault}" for fault in told.found.faults]
    if told.found.more:
        faults.append(f"  and {told.found.more} more")
    if faults:
        parts.append("\n".join(["Not readable:", *faults]))
    if any(one.rows for one in told.all_standings):
        parts.append(PROOF)
    return "\n\n".join(parts)


def _stray_of(kind: str) -> str:
    return f"{kind}, a day without five" if "-" in kind else f"invite {kind}, which is not here"


def _contest_lines(kind: str, one: Standings, pars: Pars) -> Iterator[str]:
    contest = one.contest
    yield day_name(kind) if "-" in kind else contest_name(contest)
    facts = [counted(len(contest.positions), "position"), f"by {contest.rules.by}"]
    if contest.rules.inspection:
        facts.append("with inspection")
    if None not in pars:
        facts.append(f"par {sum(par or 0 for par in pars)}")
    yield ", ".join(facts)
    if one.rows:
        yield ""
        yield from _table([COLUMNS, *(_cells(row, contest, pars) for row in one.rows)])
    elif not one.refused:
        yield "No card yet."
    if one.refused:
        yield "\nNot ranked:"
        yield from (f"  {shown(card.card.name)} {card.reason}" for card in one.refused)


def _cells(row: Ranked, contest: Contest, pars: Pars) -> tuple[str, ...]:
    over = row.over(pars)
    calls = str(row.calls) if row.calls else ""
    if row.calls and None not in pars:
        calls = f"{row.right_calls(pars)} of {row.calls} right"
    return (
        str(row.rank),
        f"{row.solved} of {len(contest.positions)}",
        str(row.all_turns) if row.solved else "-",
        "" if over is None or not row.solved else f"+{over}" if over else "par",
        written(row.time) if row.solved else "-",
        calls,
        shown(row.card.name) + (" (another card has this name)" if row.namesake else ""),
    )


def _table(rows: Iterable[tuple[str, ...]]) -> Iterator[str]:
    """The rows in columns, all to the right but the last, which may be of any script."""
    rows = list(rows)
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for *cells, name in rows:
        aligned = (cell.rjust(size) for cell, size in zip(cells, wide, strict=False))
        yield "  ".join(["", *aligned, name]).rstrip()


# -- JSON ----------------------------------------------------------------------------------------


def as_json(told: Told, pars: ParOf) -> str:
    """For programs: one line, ASCII only."""
    return json.dumps(
        {
            "contests": [
                _contest_facts(kind, one, _pars(one.contest, pars))
                for kind, one in zip(told.belongs, told.all_standings, strict=True)
            ],
            "strays": [{"name": card.name, "belongs": kind} for kind, card in told.strays],
            "faults": [*map(str, told.found.faults), *_left_out(told.found.more)],
        }
    )


def _left_out(more: int) -> list[str]:
    return [f"and {more} more"] if more else []


def _contest_facts(kind: str, one: Standings, pars: Pars) -> dict[str, Any]:
    contest = one.contest
    together = zip(contest.positions, pars, strict=True)
    return {
        "belongs": kind,
        "title": contest.title,
        "by": contest.rules.by,
        "inspection": contest.rules.inspection,
        "positions": [{"text": position.text, "par": par} for position, par in together],
        "rows": [_row_facts(row, pars) for row in one.rows],
        "refused": [{"name": card.card.name, "reason": card.reason} for card in one.refused],
    }


def _row_facts(row: Ranked, pars: Pars) -> dict[str, Any]:
    return {
        "rank": row.rank,
        "name": row.card.name,
        "solved": row.solved,
        "turns": row.all_turns,
        "over": row.over(pars),
        "time": row.time,
        "calls": row.calls,
        "right_calls": row.right_calls(pars) if None not in pars else None,
        "namesake": row.namesake,
        "results": [
            {
                "turns": turns,
                "line": line_text(result.line),
                "seeing": result.seeing,
                "doing": result.doing,
                "called": result.called,
                "inspection": result.inspection,
            }
            for result, turns in zip(row.card.results, row.turns, strict=True)
        ],
    }


def _pars(contest: Contest, pars: ParOf) -> Pars:
    return [pars.get(position.text) for position in contest.positions]
