"""Which puzzle comes when: the first minutes, and going on after them.

The *opening* is the first four puzzles of the first pack, twins among them: the first level, its
left twin, one turn more, and the hook, where the habit is not the shortest way. A player who has
played nothing is put inside its first puzzle, without a menu; after its last one comes the map of
packs. From there on the *course* is level by level, and other twins are extras that wait on the
map.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from game.packs import Pack, Puzzle, puzzles

OPENING = 4
"""Puzzles of the first pack that come before the map."""


def opening(packs: Sequence[Pack]) -> tuple[Puzzle, ...]:
    """The puzzles of the first minutes, in order; none when there is no pack."""
    return puzzles(packs[0])[:OPENING] if packs else ()


def course(packs: Sequence[Pack]) -> tuple[Puzzle, ...]:
    """Every puzzle that going on comes to, in order: the opening, then each level of each pack."""
    first = opening(packs)
    opened = {puzzle.key for puzzle in first}
    levels = (puzzle for pack in packs for puzzle in puzzles(pack) if not puzzle.twin)
    return (*first, *(level for level in levels if level.key not in opened))


def first_puzzle(packs: Sequence[Pack], in_hand: Iterable[str] = ()) -> Puzzle | None:
    """The puzzle that the program opens in for whoever has played nothing to its end.

    in_hand: canonical texts of the positions that were left before their end. None where another
    than the first puzzle's is among them: then the program opens at home.
    """
    first = next(iter(opening(packs)), None)
    return first if first is not None and {*in_hand} <= {first.text} else None


def go_on(
    packs: Sequence[Pack], solved: Collection[str], in_hand: Iterable[str] = ()
) -> Puzzle | None:
    """Where to go on: a puzzle left in hand, else the first of the course that is not solved.

    solved: canonical texts of positions; in_hand: likewise, the one to take up first leading.
    None when nothing is left.
    """
    in_order = course(packs)
    if begun := [text for text in in_hand if text not in solved]:
        every = (*in_order, *(puzzle for pack in packs for puzzle in puzzles(pack)))
        by_text = {puzzle.text: puzzle for puzzle in reversed(every)}  # the first one stays
        taken_up = next((by_text[text] for text in begun if text in by_text), None)
        if taken_up is not None:
            return taken_up
    return next((puzzle for puzzle in in_order if puzzle.text not in solved), None)


def following(packs: Sequence[Pack], puzzle: Puzzle) -> Puzzle | None:
    """The puzzle that comes after this one; None where the map comes.

    That is after the opening and after the last level of a pack. A twin of a later level is
    followed by the next twin or level as its pack lists them.
    """
    stretch = _stretch(packs, puzzle)
    at = _place(stretch, puzzle)
    return stretch[at + 1] if at is not None and at + 1 < len(stretch) else None


def preceding(packs: Sequence[Pack], puzzle: Puzzle) -> Puzzle | None:
    """The puzzle that `following` would leave for this one; None for the first puzzle."""
    stretch = _stretch(packs, puzzle)
    at = _place(stretch, puzzle)
    return stretch[at - 1] if at else None


def _stretch(packs: Sequence[Pack], puzzle: Puzzle) -> tuple[Puzzle, ...]:
    """The puzzles among which one steps from here: the opening, or the rest of a pack.

    From a level one steps to levels, from a twin to whatever its pack lists beside it.
    """
    first = opening(packs)
    if _place(first, puzzle) is not None:
        return first
    listed = puzzles(puzzle.pack) if puzzle.pack in packs else ()
    rest = tuple(other for other in listed if _place(first, other) is None)
    if puzzle.twin:
        return rest
    return tuple(other for other in rest if not other.twin)


def _place(stretch: Sequence[Puzzle], puzzle: Puzzle) -> int | None:
    return next((i for i, other in enumerate(stretch) if other.key == puzzle.key), None)
