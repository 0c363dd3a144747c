"""Random positions of a kind."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube import pair
from game.cube.geometry import FACES
from game.cube.pair import SLOTS
from game.deal.deal import HANDS, Kind, deal, deal_at
from game.deal.dice import Dice
from game.errors import PositionError
from game.play.position import parse_position
from game.search.reach import obstacle
from tests.plain_cube import is_home

kinds = st.sampled_from([Kind(pairs, open_) for pairs in range(1, 5) for open_ in range(5 - pairs)])


@given(kinds, st.text(max_size=8), st.sampled_from(["focus", "full"]))
def test_a_deal_is_of_its_kind(kind: Kind, seed: str, view: str) -> None:
    """So many pairs in play, so many slots open, the cross and all other pairs at home."""
    position = deal(Kind(kind.pairs, kind.open, view), seed)
    assert (len(position.pairs), len(position.open)) == (kind.pairs, kind.open)
    assert pair.is_cross_solved(position.cube)
    assert all(is_home(position.cube, slot) for slot in position.kept)
    assert not any(is_home(position.cube, slot) for slot in position.pairs)
    assert position.view == view
    assert parse_position(position.text) == position


@given(kinds, st.text(max_size=8))
def test_a_seed_always_deals_the_same(kind: Kind, seed: str) -> None:
    """Two deals of one kind and seed are one position; the next seed's is another as a rule."""
    assert deal(kind, seed) == deal(kind, seed)
    others = {deal(kind, f"{seed}{n}").text for n in range(5)}
    assert len(others) > 1


@given(
    st.sampled_from(["FRU", "RLU", "FBRLU", "RU", HANDS]), st.integers(1, 2), st.text(max_size=5)
)
def test_few_faces(faces: str, pairs: int, seed: str) -> None:
    """The slots in play lie beside the faces that may turn, and these can solve every deal."""
    kind = Kind(pairs, faces="".join(f for f in FACES if f in faces) or HANDS)
    position = deal(kind, seed)
    assert len(position.pairs) == pairs
    assert set(position.pairs) <= set(kind.playable)
    assert position.faces == (position.hand_faces if faces == HANDS else kind.faces)
    assert obstacle(position.cube, position.solve, position.faces) == ""


@given(st.sets(st.sampled_from(SLOTS), min_size=1), st.text(max_size=5))
def test_chosen_slots(slots: set[str], seed: str) -> None:
    """Only slots of the kind come into play; others may be left open."""
    kind = Kind(1, 2, slots=tuple(slot for slot in SLOTS if slot in slots))
    position = deal(kind, seed)
    assert set(position.pairs) <= slots
    assert len(position.open) == 2


@pytest.mark.parametrize(
    "terms",
    [
        {"slots": ("BR", "FR")},
        {"slots": ("FR", "FR")},
        {"slots": ("XX",)},
        {"slots": ()},
        {"pairs": 2, "slots": ("FR",)},
        {"pairs": 3, "faces": "RU"},
        {"faces": "UR"},
        {"faces": "Q"},
        {"view": "dim"},
    ],
)
def test_terms_that_cannot_be(terms: dict[str, Any]) -> None:
    """A kind that nothing fits is refused when it is made."""
    with pytest.raises(PositionError):
        Kind(**terms)


def test_faces_that_move_nothing() -> None:
    """Faces that can move no pair without the cross are refused, and not tried for ever."""
    with pytest.raises(PositionError, match="leaves a pair solved"):
        deal(Kind(faces="R"), "seed")


def test_known_deals() -> None:
    """What these seeds deal must never change: invites carry seeds, not cubes (computed)."""
    assert deal(Kind(1, 0), "first").text == KNOWN[0]
    assert deal(Kind(2, 1), "second").text == KNOWN[1]
    assert deal(Kind(4, 0, "full"), "third").text == KNOWN[2]


KNOWN = (
    "..uv..xw/.bcu.fix.w.v/FR+FL+BL+BR/FBRLUD/focus",
    "..u...lw/.j.u.rgx.w.v/FL+BL+BR/FBRLUD/focus",
    "eicnkgwf/bfiuqcrxnwtv/FR+FL+BL+BR/FBRLUD/full",
)


def test_every_state_of_a_pair_comes_as_often() -> None:
    """Of 4470 deals at FR each of the 149 unsolved states gets its 30, within five deviations."""
    dice = Dice("even")
    cubes = (deal_at(["FR"], [], dice).cube for _ in range(4470))
    counts = Counter(pair.pair_place(cube, "FR") for cube in cubes)
    assert len(counts) == 149
    assert all(abs(count - 30) < 5 * 30**0.5 for count in counts.values())


def test_every_slot_comes() -> None:
    """The slots in play and the open ones are dealt too."""
    dealt = [deal(Kind(1, 1), str(n)) for n in range(120)]
    both = Counter((position.pairs, position.open) for position in dealt)
    assert len(both) == len(SLOTS) * (len(SLOTS) - 1)


def test_in_full_view_the_other_pieces_are_dealt_too() -> None:
    """Two deals of one pair state differ in the pieces that do not matter."""
    dice = Dice("full")
    texts = {deal_at(["FR"], ["BL"], dice, "full").text for _ in range(50)}
    assert len(texts) == 50


@pytest.mark.parametrize(("pairs", "open_"), [(0, 0), (5, 0), (2, 3), (1, -1)])
def test_a_kind_that_cannot_be(pairs: int, open_: int) -> None:
    """At least one pair, and no more slots than there are."""
    with pytest.raises(PositionError, match="there are 4 slots"):
        Kind(pairs, open_)
