"""What the records keep of a sitting, and what they give back when it is taken up again."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from game.keeping.keeper import Keeper
from game.play.playable import Playable
from game.play.sitting import SOLVED, Sitting
from game.settings import Settings


def take_up(keeper: Keeper, puzzle: Playable, *, must_call: bool) -> Sitting:
    """A sitting at a puzzle, which goes on with what is in hand there."""
    now = datetime.now().astimezone()
    if not keeper.has_records:
        return Sitting(puzzle, now, must_call=must_call)
    text = puzzle.position.text
    shown = keeper.record(lambda records: records.was_shown(text), False)
    sitting = Sitting(puzzle, now, shown=shown, must_call=must_call)
    kept = keeper.record(lambda records: records.in_hand(text), None)
    if kept is not None and not sitting.take_up(kept.events, kept.elapsed_ms):
        keeper.record(lambda records: records.drop_in_hand(text), None)
    return sitting


def put_aside(keeper: Keeper, sitting: Sitting, moment: float) -> None:
    """Stop its clock, and keep in hand what was begun and is not over."""
    sitting.pause(moment)
    events = sitting.attempt.events
    if events and not sitting.outcome:
        text, key, elapsed = sitting.position.text, sitting.puzzle.key, sitting.ms(moment)
        keeper.record(lambda records: records.keep_in_hand(text, key, events, elapsed), None)


def keep(
    keeper: Keeper,
    sitting: Sitting,
    settings: Settings,
    then: Callable[[], None] | None = None,
) -> None:
    """Keep an attempt that is over; what is not known of it is added once it is.

    then: called when par has been added.
    """
    record = sitting.record(settings.far_side, settings.player)
    sitting.number = number = keeper.record(lambda records: records.add(record), None)
    if record.par is None:
        keeper.follow(sitting.position, lambda par: then() if then is not None else None)
    if record.at_hand is None and sitting.outcome == SOLVED and number is not None:
        keeper.follow_hand(sitting.position, number, record.turns)


def amend(keeper: Keeper, sitting: Sitting) -> None:
    """Keep what became known of an attempt only after its end."""
    number, score = sitting.number, sitting.score
    if number is not None:
        called, at_hand = sitting.call, score.at_hand if score is not None else None
        keeper.record(lambda records: records.amend(number, called=called, at_hand=at_hand), None)


def mark_shown(keeper: Keeper, sitting: Sitting) -> None:
    """The solutions are seen: later attempts at the position count as helped."""
    mark_position_shown(keeper, sitting.position.text)


def mark_position_shown(keeper: Keeper, position: str) -> None:
    """The same for a position by its text."""
    keeper.record(lambda records: records.mark_shown(position), None)


def best_turns(keeper: Keeper, sitting: Sitting) -> str:
    """The fewest turns that the player ever needed, or nothing."""
    if not keeper.has_records:
        return ""
    best = keeper.record(lambda records: records.best(sitting.position.text), None)
    return str(best.turns) if best is not None and best.turns is not None else ""
