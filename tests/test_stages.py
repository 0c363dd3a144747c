"""When a pair joins along a line."""

from __future__ import annotations

from game.cube.line import inverse
from game.cube.moves import parse_line
from game.position import position_after
from game.stages import joined_after, joined_at

SHORT = parse_line("R B U2 B' R'")
HOOK = position_after(inverse(SHORT))


def test_joined_after_each_move() -> None:
    """In R B U2 B' R', R takes the corner to the back and B brings it to its edge on the left."""
    assert joined_after(HOOK, SHORT) == ((), ("FR",), ("FR",), ("FR",), ("FR",))
    assert joined_at(HOOK, SHORT, "FR") == 2


def test_a_join_that_breaks_does_not_count() -> None:
    """Only the join that lasts to the end of the line counts."""
    line = parse_line("R B B' B U2 B' R'")
    assert joined_at(HOOK, line, "FR") == 4
    assert joined_at(HOOK, parse_line("R B B'"), "FR") is None


def test_joined_at_the_start() -> None:
    """A pair that lies joined from the start joins at turn 0."""
    position = position_after(parse_line("R U R' U'"))
    assert joined_at(position, parse_line("U R U' R'"), "FR") == 0


def test_a_rotation_breaks_nothing() -> None:
    """Being joined does not depend on the grip."""
    turned = joined_after(HOOK, (*SHORT[:2], *parse_line("z x y2")))
    assert turned == ((), ("FR",), ("FR",), ("FR",), ("FR",))
