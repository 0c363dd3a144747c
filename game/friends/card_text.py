"""A card as it is pasted into a chat: a few words that everybody can read, then the code.

    The day's five, 2026-11-25
    Ada: 5 of 5 solved, 3 over par, 1:12.34
    par  +1  par  par  +2
    EPAIR ... OVER

The words are for people; whoever ranks reads the code alone.
"""

from __future__ import annotations

from game.foreign import shown
from game.friends.codes import Addressed, card_code
from game.friends.contest import TIME, Contest
from game.friends.standings import Pars, Ranked, proven_turns
from game.play.times import written
from game.prose import counted

UNSOLVED = "-"


def day_name(day: str) -> str:
    """What a day's five are called."""
    return f"The day's five, {day}"


def contest_name(contest: Contest) -> str:
    """What a contest is called: by its title, and without one by how many positions it has."""
    if contest.title.strip():
        return shown(contest.title)
    return f"A contest of {counted(len(contest.positions), 'position')}"


def card_text(contest: Contest, addressed: Addressed, pars: Pars) -> str:
    """The card in words and as a code. pars: of the positions, as far as they are known.

    Raises ContestError for a card that does not hold what it claims.
    """
    row = Ranked(1, addressed.card, proven_turns(contest, addressed.card), namesake=False)
    lines = (
        day_name(addressed.day) if addressed.day else contest_name(contest),
        f"{shown(row.card.name)}: {summary(row, contest, pars)}",
        "  ".join(map(_position_text, row.turns, pars)),
        card_code(addressed),
    )
    return "\n".join(lines)


def summary(row: Ranked, contest: Contest, pars: Pars) -> str:
    """What a card comes to: "5 of 5 solved, 3 over par, 1:12.34"; time first where it counts."""
    solved = f"{row.solved} of {len(contest.positions)} solved"
    over = row.over(pars)
    if not row.solved:
        return solved
    if over is None:
        turns = f"{row.all_turns} turns"
    else:
        turns = f"{over} over par" if over else "all at par"
    parts = [turns, written(row.time)]
    if contest.rules.by == TIME:
        parts.reverse()
    return ", ".join([solved, *parts])


def _position_text(turns: int | None, par: int | None) -> str:
    """ "par", "+2"; the turns where par is not known; a dash where it was not solved."""
    if turns is None:
        return UNSOLVED
    if par is None:
        return str(turns)
    return f"+{turns - par}" if turns > par else "par"
