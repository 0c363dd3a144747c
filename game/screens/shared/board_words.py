"""What stands beside the cube, in words: what is asked, what it has come to. Pure."""

from __future__ import annotations

from collections.abc import Mapping

from game.cube import pair
from game.cube.colours import HOME_COLOURS
from game.cube.geometry import FACES, UNMOVED, Matrix
from game.cube.pair import SLOTS
from game.cube.symmetry import VERTICAL
from game.cube.words import SIDE, slot_words
from game.draw.look import Look, far_eye
from game.errors import ForbiddenTurn
from game.play.position import Position
from game.play.score import Mark, Score
from game.prose import listed, numeral, tallied

MARK_WORDS: Mapping[Mark, str] = {
    Mark.SOLVED: "solved",
    Mark.AT_HAND: "at hand: no shorter by slot's sides",
    Mark.AT_PAR: "at par: no shorter way at all",
    Mark.CALLED: "called it",
}
AT_HAND_ALL_SIDES = "at hand: no shorter by top, sides"
"""In place of that of the mark where pairs on all sides are in play."""
AT_PAR_FACES = "at par: no shorter with these faces"
"""In place of that of the mark where not every face may turn."""


def goal_words(
    position: Position, grip: Matrix = UNMOVED, colours: Mapping[str, str] = HOME_COLOURS
) -> str:
    """What must be solved, in one line, as it is seen in a grip. colours: centre -> name."""
    parts = [] if pair.is_cross_solved(position.cube) else ["the cross"]
    if position.pairs == SLOTS:
        parts.append("all four pairs")
    elif position.pairs:
        noun = "" if grip in VERTICAL else " slot"
        slots = (f"the {slot_words(slot, grip, colours)}{noun}" for slot in position.pairs)
        pairs = "the pair" if len(position.pairs) == 1 else "the pairs"
        parts.append(f"{pairs} at {listed(slots)}")
    return f"Solve {listed(parts)}" if parts else "Nothing to solve"


def terms_words(
    position: Position, grip: Matrix = UNMOVED, colours: Mapping[str, str] = HOME_COLOURS
) -> list[str]:
    """What else holds: slots left open, faces that may not turn."""
    terms = []
    if position.open:
        slots = listed(slot_words(slot, grip, colours) for slot in position.open)
        terms.append(f"{'Slots' if len(position.open) > 1 else 'Slot'} left open: {slots}")
    if position.faces != FACES:
        terms.append(f"Only {_allowed(position.faces, grip, colours)} may turn")
    return terms


def forbidden_words(fault: ForbiddenTurn, grip: Matrix, colours: Mapping[str, str]) -> str:
    """Why a turn is refused, true in the grip in which it was tried."""
    if grip == UNMOVED:
        return f"{fault}."
    allowed = _allowed(fault.allowed, grip, colours)
    return f"{fault.move} turns the {colours[fault.face]} face; here only {allowed} may turn."


def _allowed(faces: str, grip: Matrix, colours: Mapping[str, str]) -> str:
    """Faces by their letters; by their colours where a letter turns another face than it names."""
    if grip == UNMOVED:
        return listed(faces)
    return f"the {listed(colours[face] for face in faces)} face{'s' if len(faces) > 1 else ''}"


def far_words(look: Look, *, from_below: bool) -> str:
    """What is seen on the far side, as the picture shows it: side by side, then the cap."""
    eye = far_eye(look.lean, from_below)
    order = (eye.side, eye.front) if eye.leans_left else (eye.front, eye.side)
    return "far side: " + ", ".join(SIDE[face] for face in (*order, eye.cap))


def turns_words(count: int) -> str:
    """ "1 turn", "5 turns"."""
    return tallied(count, "turn")


def par_words(par: int | None, at_least: int) -> str:
    """Par, or as much as is known of it: "12+" is 12 or more."""
    if par is not None:
        return str(par)
    return f"{at_least}+" if at_least else "?"


def verdict_words(score: Score) -> str:
    """The headline of a solved attempt."""
    if score.over <= 0:
        return f"Solved in {score.turns}: {'par, with a hint' if score.hinted else 'at par'}"
    return f"Solved in {score.turns}: {numeral(score.over)} over par"


def mark_rows(
    score: Score, faces: str = FACES, hand_faces: str = ""
) -> list[tuple[bool | None, str]]:
    """The marks that can be earned and whether each was; None: still being searched.

    faces: those that may turn; hand_faces: those of them at the hands.
    """
    earned = score.marks
    helped = score.shown or score.hinted
    rows: list[tuple[bool | None, str]] = []
    for mark in (Mark.SOLVED, Mark.AT_HAND, Mark.AT_PAR):
        is_earned: bool | None = mark in earned
        if mark is Mark.AT_HAND and score.at_hand is None and not helped:
            is_earned = None
        words = MARK_WORDS[mark]
        if mark is Mark.AT_PAR and faces != FACES:
            words = AT_PAR_FACES
        elif mark is Mark.AT_HAND and set(FACES) - set(hand_faces) == {"D"}:
            words = AT_HAND_ALL_SIDES
        rows.append((is_earned, words))
    if score.call.value:
        rows.append((Mark.CALLED in earned, f"called it: {score.call.value}"))
    return rows
