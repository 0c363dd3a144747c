"""A line told turn by turn."""

from __future__ import annotations

from game.coach.telling import told, where
from game.cube.colours import HOME_COLOURS
from game.cube.line import inverse
from game.cube.moves import parse_line
from game.play.position import position_after


def solving(line: str) -> tuple[str, ...]:
    """The story of a line, from the position that it solves."""
    return told(position_after(inverse(parse_line(line))), parse_line(line))


# computed: what happens at each turn follows from the geometry; each is plain on a real cube


def test_a_pair_joined_from_the_start() -> None:
    """Nothing is told of a pair that stays joined until it is home."""
    assert solving("R U' R'") == ("", "", "The pair is home.")


def test_the_hook() -> None:
    """The hook's pair joins at its second turn."""
    assert solving("R B U2 B' R'") == ("", "The pair joins.", "", "", "The pair is home.")


def test_joining_again() -> None:
    """A join that breaks is told as its parting, and the next join as one."""
    start = position_after(parse_line("R U R'"))
    assert told(start, parse_line("L L'")) == ("The pair comes apart.", "The pair joins.")


def test_joining_for_a_while() -> None:
    """A join that does not last to the end is told as such."""
    start = position_after(parse_line("R U R' L"))
    said = told(start, parse_line("L' L"))
    assert "The FR pair joins, for a while." in said[0]
    assert said[1] == "The FR pair comes apart."


def test_freeing() -> None:
    """A piece that lies below the top layer in a wrong place is told to be free for good."""
    assert solving("L' U L F U F'")[0] == "Both pieces are free."


def test_a_kept_slot_is_opened_and_closed() -> None:
    """A kept slot is open once the top carries one of its pieces, closed when it is whole."""
    said = solving("R' U2 R2 U R2 U R")
    assert said[1] == "Slot BR is opened."
    assert said[6] == "The pair is home. Slot BR is closed again."
    assert not any("BR" in each for each in said[2:6])


def test_two_pairs_are_named() -> None:
    """With two pairs in play each is named by its slot."""
    said = solving("L U L' R U R'")
    assert said[0] == "The FR pair is free. The BL pair joins."
    assert said[5] == "The FR pair is home."


def test_a_joined_pair_is_told_as_one() -> None:
    """Where the two pieces are joined, what is said of the corner says it of both, in any grip."""
    joined = position_after(parse_line("R U R'")).cube
    assert where(joined, "FR", HOME_COLOURS) == "joined, corner above FL, white to the left"
    turned = joined.turn(parse_line("y"))
    assert where(turned, "FR", HOME_COLOURS) == "joined, corner above BL, white to the back"


def test_where_follows_the_grip() -> None:
    """In a turned grip the words are those of someone who looks at the cube as it is held."""
    position = position_after(inverse(parse_line("R B U2 B' R'")))
    turned = position.cube.turn(parse_line("y"))
    assert where(position.cube, "FR", HOME_COLOURS) == (
        "corner above its slot, white up; edge in the top layer on the left, green up"
    )
    assert where(turned, "FR", HOME_COLOURS) == (
        "corner above its slot, white up; edge in the top layer at the back, green up"
    )
    assert where(position.cube.turn(parse_line("x")), "FR", HOME_COLOURS) == ""


def test_what_happens_to_several_pairs_at_once() -> None:
    """One sentence tells it of all of them."""
    said = solving("F2 B2 D R2 L2 U' R L U L U R D'")
    assert said[-1] == "The FR, FL, BL and BR pairs are home."
    assert solving("U2 D' R L")[2] == "The FR and BR pairs are home."
