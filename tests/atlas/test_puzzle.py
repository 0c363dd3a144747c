"""A spot as it is played."""

from __future__ import annotations

from game.atlas import AtlasPuzzle, Spot, named
from game.cube.colours import HOME_COLOURS
from game.records.record import MAX_TEXT


def test_what_a_puzzle_is_called() -> None:
    """Slot, name, the turn of the top and the open slots make its key and its title."""
    plain = AtlasPuzzle(Spot(named("a3")), 5)
    assert (plain.key, plain.source, plain.name, plain.aside) == (
        "atlas/FR/a3", "Atlas", "a3 at FR", "",
    )  # fmt: skip
    turned = AtlasPuzzle(Spot(named("n8"), "BL", 0, ("FR",)), 6)
    assert turned.key == "atlas/BL/n8/FR+FL+BR"
    assert AtlasPuzzle(Spot(named("c5"), turn=2), 7).key == "atlas/FR/c5/U2"
    assert AtlasPuzzle(Spot(named("c5"), turn=2), 7).aside == "top turned U2"


def test_a_key_fits_into_the_records() -> None:
    """The longest key is one that records keep."""
    longest = AtlasPuzzle(Spot(named("h5"), "FR", 3, ("FL", "BL", "BR")), 5).key
    assert len(longest) <= MAX_TEXT["puzzle"]


def test_a_puzzle_tells_its_place_and_its_pieces() -> None:
    """Its number on its sheet, and a sentence about where both pieces lay."""
    puzzle = AtlasPuzzle(Spot(named("g1"), "FL"), 6)
    assert puzzle.place == "2 of 36"
    assert puzzle.note(HOME_COLOURS) == (
        "Corner above its slot, white up; edge in slot BL, red to the back."
    )
    assert puzzle.position == puzzle.spot.position
