"""What the records keep of a sitting, and what they give back when it is taken up again."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING

from game.play.playable import Playable
from game.play.sitting import Sitting

if TYPE_CHECKING:
    from game.screens.shared.host import Host


def take_up(app: Host, puzzle: Playable) -> Sitting:
    """A sitting at a puzzle, which goes on with what is in hand there."""
    now = datetime.now().astimezone()
    if not app.has_records:
        return Sitting(puzzle, now, must_call=app.settings.call)
    text = puzzle.position.text
    shown = app.record(lambda records: records.was_shown(text), False)
    sitting = Sitting(puzzle, now, shown=shown, must_call=app.settings.call)
    kept = app.record(lambda records: records.in_hand(text), None)
    if kept is not None and not sitting.take_up(kept.events, kept.elapsed_ms):
        app.record(lambda records: records.drop_in_hand(text), None)
    return sitting


def put_aside(app: Host, sitting: Sitting) -> None:
    """Stop its clock, and keep in hand what was begun and is not over."""
    moment = app.clock()
    sitting.pause(moment)
    events = sitting.attempt.events
    if events and not sitting.outcome:
        text, key, elapsed = sitting.position.text, sitting.puzzle.key, sitting.ms(moment)
        app.record(lambda records: records.keep_in_hand(text, key, events, elapsed), None)


def keep(app: Host, sitting: Sitting, then: Callable[[], None] | None = None) -> None:
    """Keep an attempt that is over; where par is not known, add it once it is.

    then: called when it has been added.
    """
    record = sitting.record(app.settings.far_side, app.settings.player)
    sitting.number = app.record(lambda records: records.add(record), None)
    if record.par is None:
        app.follow_par(sitting.position, then)


def amend(app: Host, sitting: Sitting) -> None:
    """Keep what became known of an attempt only after its end."""
    number, score = sitting.number, sitting.score
    if number is not None:
        called, at_hand = sitting.call, score.at_hand if score is not None else None
        app.record(lambda records: records.amend(number, called=called, at_hand=at_hand), None)


def mark_shown(app: Host, sitting: Sitting) -> None:
    """The solutions are seen: later attempts at the position count as helped."""
    app.record(lambda records: records.mark_shown(sitting.position.text), None)


def best_turns(app: Host, sitting: Sitting) -> str:
    """The fewest turns that the player ever needed, or nothing."""
    if not app.has_records:
        return ""
    best = app.record(lambda records: records.best(sitting.position.text), None)
    return str(best.turns) if best is not None and best.turns is not None else ""
