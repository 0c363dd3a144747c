"""How a player stands: what counts as won, and ratings from the tries alone."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.drill import DrillTry, History, Standing, history, items, items_of
from game.drill.rating import Rating, aged, rated
from game.drill.standing import PERIOD, USUAL_FROM, USUAL_OF, WITHIN

A, B = "one/FR/a3", "one/BL/c2"
START = Rating()


def tries(*played: tuple[str, bool, int]) -> list[DrillTry]:
    """Tries at ever new positions: item, at par, milliseconds."""
    return [DrillTry(item, f"position {n}", won, ms) for n, (item, won, ms) in enumerate(played)]


def test_a_period_of_one_try_is_one_game() -> None:
    """A win at par is a game that the player won and the item lost, by the published system."""
    item = items()[A].start
    now = history(tries((A, True, 3000))).now
    assert now.player == rated(START, [(item, 1.0)])
    assert now.met[A].rating == rated(item, [(START, 0.0)])
    assert (now.met[A].times, now.met[A].last, now.tries) == (1, 0, 1)


def test_all_games_of_a_period_are_against_what_held_before_it() -> None:
    """Within a period the order of the tries changes nothing but the numbers."""
    played = [(A, True, 3000), (B, False, 3000), (A, False, 3000)]
    forth, back = history(tries(*played)).now, history(tries(*reversed(played))).now
    assert forth.player == back.player
    assert forth.met[A].rating == back.met[A].rating
    results = [(items()[A].start, 1.0), (items()[A].start, 0.0), (items()[B].start, 0.0)]
    assert forth.player.rating == pytest.approx(rated(START, results).rating)


def test_a_period_ends_with_its_last_try() -> None:
    """After so many tries the ratings are settled, and the next try is a game against those."""
    made = history(tries(*[(A, True, 3000)] * PERIOD))
    assert (made.running, made.settled, made.now.periods) == ((), made.now, 1)
    more = made.after(DrillTry(A, "another", False, 3000))
    assert more.settled == made.now
    assert more.now.player == rated(made.now.player, [(made.now.met[A].rating, 0.0)])


def test_an_item_not_met_grows_doubtful() -> None:
    """Period by period its deviation grows as that of a player who does not play."""
    made = history(tries((A, True, 3000), *[(B, True, 3000)] * (3 * PERIOD - 1)))
    known = made.settled.met[A]
    assert made.settled.hardness(items()[A]) == aged(known.rating, 2)
    assert made.settled.hardness(items()[A]).deviation > known.rating.deviation


# -- what counts as won --------------------------------------------------------------------------


def player_after(*played: tuple[str, bool, int]) -> float:
    return history(tries(*played)).now.player.rating


def test_over_par_is_lost() -> None:
    """However quick it was."""
    assert player_after((A, False, 1)) < START.rating < player_after((A, True, 90_000))


def test_a_slow_win_is_half_one() -> None:
    """Once five times are known, more than half as long again as the median counts half."""
    known = [(A, True, ms) for ms in (1000, 2000, 3000, 4000, 5000)]
    assert len(known) == USUAL_FROM
    limit = int(3000 * WITHIN)
    usual, slow = player_after(*known, (A, True, limit)), player_after(*known, (A, True, limit + 1))
    lost = player_after(*known, (A, False, limit))
    assert lost < slow < usual
    assert usual - slow == pytest.approx(slow - lost, rel=0.2)


def test_before_that_any_time_will_do() -> None:
    """With four times known there is no usual one yet."""
    known = [(A, True, 1000)] * (USUAL_FROM - 1)
    assert player_after(*known, (A, True, 10**6)) == player_after(*known, (A, True, 1))


def test_usual_times_are_of_the_newest_tries_of_a_step() -> None:
    """Older ones than the last 25 are forgotten; tries of other steps and losses are no measure."""
    other = items_of("astray")[0].key
    slow = [(A, True, 9000)] * USUAL_OF
    now = history(tries(*slow, *[(A, True, 1000)] * USUAL_OF, (other, True, 1), (A, False, 1))).now
    assert now.usual_ms("one") == 1000
    assert now.usual_ms("astray") is None


def test_of_tries_at_one_position_in_a_row_the_first_counts() -> None:
    """Trying again with the solution in mind changes nothing; coming back later does."""
    first = DrillTry(A, "here", False, 3000)
    made = history([first])
    assert made.after(DrillTry(A, "here", True, 2000)) is made
    assert made.after(DrillTry(B, "there", True, 2000)).after(first).now.tries == 3


def test_an_item_that_is_none_any_more_is_passed_over() -> None:
    """Records may name an item of an earlier version, or nonsense."""
    made = history(tries(("two/FR+XX/free", True, 1), ("", True, 1)))
    assert made.now == Standing()


# -- where nothing is known ----------------------------------------------------------------------


def test_a_weak_slot_is_weak_where_nothing_is_known() -> None:
    """After losses at one slot, what was not met there starts harder; elsewhere, and in the other
    steps, it starts as measured."""
    lost = [(item.key, False, 3000) for item in items_of("one") if item.slots == ("BL",)][:10]
    now = history(tries(*lost)).now
    unmet = items()["one/BL/f9"]
    assert unmet.key not in now.met
    assert now.hardness(unmet).rating > unmet.start.rating + 20
    for key in ("one/FR/f9", "astray/BL/edge astray", "two/FR+BL/free+free"):
        assert now.hardness(items()[key]) == items()[key].start


def test_what_lies_alike_is_weak_in_every_slot() -> None:
    """After losses at one entry in three slots, it starts harder in the fourth."""
    lost = [(f"one/{slot}/d9", False, 3000) for slot in ("FR", "FL", "BR")]
    now = history(tries(*lost)).now
    assert now.hardness(items()["one/BL/d9"]).rating > items()["one/BL/d9"].start.rating + 20


# -- replaying -----------------------------------------------------------------------------------

played = st.lists(
    st.builds(
        DrillTry,
        st.sampled_from(list(items())),
        st.sampled_from("abcdef"),
        st.booleans(),
        st.none() | st.integers(0, 60_000),
    ),
    max_size=45,
)


@given(played, st.integers(0, 45))
def test_going_on_is_the_same_as_replaying(all_tries: list[DrillTry], cut: int) -> None:
    """Wherever a session ends, the tries made so far lead to the same standing as all at once."""
    made = history(all_tries[:cut])
    for one in all_tries[cut:]:
        made = made.after(one)
    assert made == history(all_tries)
    assert made.now == history(all_tries).now


@given(played)
def test_ratings_stay_sane(all_tries: Iterable[DrillTry]) -> None:
    """Whatever is played, every rating stays finite and no surer than the system allows."""
    now: History | Standing = history(all_tries).now
    assert isinstance(now, Standing)
    for rating in (now.player, *(known.rating for known in now.met.values())):
        assert -2000 < rating.rating < 5000
        assert 10 < rating.deviation <= 360
    assert sum(known.times for known in now.met.values()) == now.tries


def test_a_try_whose_par_is_not_known_is_no_game() -> None:
    """It counts as a try, and the item as met, but only once par is known a rating moves."""
    key = items_of("four")[0].key
    waiting = history([DrillTry(key, "a", None, 9000)]).now
    assert (waiting.tries, waiting.met[key].times) == (1, 1)
    assert waiting.player.rating == Standing().player.rating
    assert waiting.met[key].rating.rating == items_of("four")[0].start.rating
    won = history([DrillTry(key, "a", True, 9000)]).now
    assert won.player.rating > waiting.player.rating
