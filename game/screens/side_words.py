"""What stands beside the cube, in words: what is asked, what it has come to. Pure."""

from __future__ import annotations

from collections.abc import Mapping

from game.cube import pair
from game.cube.geometry import FACES
from game.cube.words import SIDE, slot_words
from game.draw import Look
from game.draw.look import far_eye
from game.position import Position
from game.prose import listed, numeral
from game.score import Mark, Score

MARK_WORDS: Mapping[Mark, str] = {
    Mark.SOLVED: "solved",
    Mark.AT_HAND: "no shorter way from this grip",
    Mark.AT_PAR: "at par: no shorter way at all",
    Mark.CALLED: "called it",
}


def goal_words(position: Position) -> str:
    """What must be solved, in one line."""
    parts = [] if pair.is_cross_solved(position.cube) else ["the cross"]
    if position.pairs:
        pairs = "the pair" if len(position.pairs) == 1 else "the pairs"
        parts.append(f"{pairs} at {listed(f'the {slot_words(s)}' for s in position.pairs)}")
    return f"Solve {listed(parts)}" if parts else "Nothing to solve"


def terms_words(position: Position) -> list[str]:
    """What else holds: slots left open, faces that may not turn."""
    terms = []
    if position.open:
        slots = listed(f"the {slot_words(slot)}" for slot in position.open)
        plural = len(position.open) > 1
        terms.append(f"{'Slots' if plural else 'Slot'} left open: {slots.replace('the ', '')}")
    if position.faces != FACES:
        terms.append(f"Only {listed(position.faces)} may turn")
    return terms


def far_words(look: Look, *, from_below: bool) -> str:
    """What is seen on the far side, as the picture shows it: side by side, then the cap."""
    eye = far_eye(look.lean, from_below)
    order = (eye.side, eye.front) if eye.leans_left else (eye.front, eye.side)
    return "far side: " + ", ".join(SIDE[face] for face in (*order, eye.cap))


def turns_words(count: int) -> str:
    """ "1 turn", "5 turns"."""
    return f"{count} turn" if count == 1 else f"{count} turns"


def verdict_words(score: Score) -> str:
    """The headline of a solved attempt."""
    if score.over <= 0:
        return f"Solved in {score.turns}: {'par, with a hint' if score.hinted else 'at par'}"
    return f"Solved in {score.turns}: {numeral(score.over)} over par"


def mark_rows(score: Score) -> list[tuple[bool | None, str]]:
    """The marks that can be earned and whether each was; None: still being searched."""
    earned = score.marks
    helped = score.shown or score.hinted
    rows: list[tuple[bool | None, str]] = []
    for mark in (Mark.SOLVED, Mark.AT_HAND, Mark.AT_PAR):
        is_earned: bool | None = mark in earned
        if mark is Mark.AT_HAND and score.at_hand is None and not helped:
            is_earned = None
        rows.append((is_earned, MARK_WORDS[mark]))
    if score.call.value:
        rows.append((Mark.CALLED in earned, f"called it: {score.call.value}"))
    return rows
