"""Which puzzle comes when: the first minutes, and going on after them.

The *opening* is the first four puzzles of the first pack, twins among them: the first level, its
left twin, one turn more, and the hook, where the habit is not the shortest way. A player who has
solved nothing is put inside its first puzzle, without a menu; after its last one comes the map of
packs. From there on the *course* is level by level, and other twins are extras that wait on the
map.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

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


def first_puzzle(packs: Sequence[Pack], solved: Collection[str]) -> Puzzle | None:
    """The puzzle that the program opens in; None once something is solved: then it opens at home.

    solved: canonical texts of the positions that the player has solved.
    """
    first = opening(packs)
    return first[0] if first and not solved else None


def go_on(
    packs: Sequence[Pack], solved: Collection[str], in_hand: Collection[str] = ()
) -> Puzzle | None:
    """Where to go on: a puzzle left in hand, else the first of the course that is not solved.

    solved, in_hand: canonical texts of positions. None when nothing is left.
    """
    left = [puzzle for puzzle in course(packs) if puzzle.position.text not in solved]
    begun = (puzzle for puzzle in left if puzzle.position.text in in_hand)
    return next(begun, left[0] if left else None)


def following(packs: Sequence[Pack], puzzle: Puzzle) -> Puzzle | None:
    """The puzzle that comes after this one; None where the map comes.

    That is after the opening and after the last level of a pack. A twin of a later level is
    followed by the next twin or level as its pack lists them.
    """
    first = opening(packs)
    keys = [other.key for other in first]
    if puzzle.key in keys:
        at = keys.index(puzzle.key) + 1
        return first[at] if at < len(first) else None
    pack = next((pack for pack in packs if pack.id == puzzle.key.partition("/")[0]), None)
    listed = puzzles(pack) if pack is not None else ()
    at = next((i for i, other in enumerate(listed) if other.key == puzzle.key), len(listed))
    after = listed[at + 1 :]
    return next((other for other in after if puzzle.twin or not other.twin), None)
