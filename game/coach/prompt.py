"""What the first puzzles say to someone who reads nothing: one line, and the keys.

The line starts as the aim. Who waits, or goes astray, is told more: first a turn back, then the
next turn, then the rest. Nothing here is said before it is needed, and never after the opening.
"""

from __future__ import annotations

from collections.abc import Iterable

from game.cube import line as lines
from game.cube.line import Line
from game.cube.moves import Move
from game.cube.symmetry import VERTICAL
from game.cube.words import slot_words
from game.play.attempt import Attempt

WAIT_MS = 12_000
"""Milliseconds without a turn after which the next turn is told."""
LONG_WAIT_MS = 30_000
"""Milliseconds without a turn after which the whole rest is told."""


def prompt(attempt: Attempt, solutions: Iterable[Line], waited_ms: int) -> str:
    """The line for an attempt whose last turn was `waited_ms` ago.

    solutions: the shortest ones that are known so far, as face turns named by their centres.
    """
    if attempt.is_solved:
        return ""
    own = lines.tidy(attempt.line).turns
    rests = [rest for line in solutions if (rest := _rest(own, line))]
    if not rests and own:
        return "Backspace takes a turn back; that is free."
    if not rests or waited_ms < WAIT_MS:
        return aim(attempt) if not own else "Good so far."
    rest = lines.held(rests[0], attempt.cube.grip)
    if waited_ms < LONG_WAIT_MS:
        return f"Try {key_words(rest[0])}."
    return f"Press {', then '.join(map(key_words, rest))}."


def _rest(own: Line, solution: Line) -> Line:
    """What is left of a solution after one's own turns; nothing when they are not on its way."""
    rest = lines.tidy((*lines.inverse(own), *solution)).turns
    left = len(solution) - len(own)
    inside_half_turn = len(rest) == left + 1 and bool(own) and rest[0] == own[-1]
    return rest if len(rest) == left or inside_half_turn else ()


def aim(attempt: Attempt) -> str:
    """What is asked, in one sentence: the pairs in play and their slots."""
    pairs = attempt.position.pairs
    if not pairs:
        return "Bring the cross home."
    if len(pairs) > 1:
        return "Bring each corner and its edge home."
    grip = attempt.cube.grip
    slot = f"the {slot_words(pairs[0], grip)}" if grip in VERTICAL else "their slot"
    return f"Bring corner and edge home, to {slot}."


def key_words(move: Move) -> str:
    """The keys that make a face turn: "r", "Shift+r", "r twice"."""
    face, quarters = move.name[0].lower(), move.name[1:]
    return {"": face, "'": f"Shift+{face}", "2": f"{face} twice"}[quarters]
