"""What comes next: weak ones more often, and none forgotten."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable

import pytest

from game.deal.dice import Dice
from game.drill import STEPS, Choice, DrillTry, History, Item, Standing, choose, history, items_of
from game.drill.choice import APART, EVERY, open_steps
from game.drill.rating import Rating

WEAKER = "One of your weaker ones"


def simulated(
    positions: int, wins: Callable[[Item], float], opened: list[int] | None = None
) -> tuple[History, list[Choice]]:
    """A player who wins with these chances, all in the same time, over so many positions.

    opened: takes how many steps are open at each.
    """
    made, dice, chosen = history(()), Dice("player"), []
    for _ in range(positions):
        choice = choose(made.now)
        if opened is not None:
            opened.append(len(open_steps(made.now)))
        won = dice.below(1000) < 1000 * wins(choice.item)
        made = made.after(DrillTry(choice.item.key, choice.position.text, won, 4000))
        chosen.append(choice)
    return made, chosen


@pytest.mark.parametrize("weak", ["FR", "BL"])
def test_a_weak_slot_comes_clearly_more_often(weak: str) -> None:
    """Who wins three of four, but one of five at one slot, gets that slot half as often again as
    any other, once a hundred positions have shown it."""
    _, chosen = simulated(400, lambda item: 0.2 if weak in item.slots else 0.75)
    slots = Counter(c.item.slots[0] for c in chosen[100:] if len(c.item.slots) == 1)
    others = [count for slot, count in slots.items() if slot != weak]
    assert slots[weak] > 1.5 * max(others)


def test_an_even_player_gets_even_slots() -> None:
    """Without a weakness no slot comes half as often again as another."""
    _, chosen = simulated(400, lambda _: 0.6)
    slots = Counter(c.item.slots[0] for c in chosen if c.item.step == "one")
    assert max(slots.values()) < 1.5 * min(slots.values())


def test_a_weak_entry_comes_more_often() -> None:
    """Who always loses one kind of placement gets it more often than its share."""
    _, chosen = simulated(400, lambda item: 0.1 if item.lies[0][0] in "de" else 0.8)
    one = [c.item for c in chosen[100:] if c.item.step == "one"]
    weak = sum(item.lies[0][0] in "de" for item in one)
    pool = items_of("one")
    share = sum(item.lies[0][0] in "de" for item in pool) / len(pool)
    assert weak / len(one) > 1.7 * share


@pytest.mark.parametrize(("chance", "steps"), [(0.0, 1), (1.0, 6)])
def test_none_is_forgotten(chance: float, steps: int) -> None:
    """While the same steps stay open, each of n items comes within 3 n positions."""
    pool = {item for step in STEPS[:steps] for item in items_of(step)}
    opened: list[int] = []
    begun = 120  # by then it is plain how strong the player is
    _, chosen = simulated(begun + EVERY * len(pool), lambda _: chance, opened=opened)
    assert set(opened[begun:]) == {steps}
    assert {choice.item for choice in chosen[begun:]} == pool


def test_none_comes_again_at_once() -> None:
    """Between two positions of one item there are always three of others."""
    _, chosen = simulated(300, lambda _: 0.1)
    for number, choice in enumerate(chosen):
        assert choice.item not in [c.item for c in chosen[max(0, number - APART) : number]]


# -- steps ---------------------------------------------------------------------------------------


def at(rating: float, deviation: float = 50) -> Standing:
    return Standing(player=Rating(rating, deviation))


def test_everybody_begins_with_single_pairs() -> None:
    """Nothing else is open to who is not known yet."""
    assert open_steps(Standing()) == ("one",)


def test_steps_open_with_strength() -> None:
    """The stronger the player, the more is open, in the order of the steps; all at the end."""
    opened = [open_steps(at(rating)) for rating in range(900, 2500, 100)]
    assert [len(steps) for steps in opened] == sorted(len(steps) for steps in opened)
    assert opened[0] == ("one",)
    assert opened[-1] == STEPS
    assert all(steps == STEPS[: len(steps)] for steps in opened)


def test_doubt_keeps_a_step_closed() -> None:
    """A rating that is not sure opens less than the same rating that is."""
    assert set(open_steps(at(1950, 300))) < set(open_steps(at(1950, 40)))


def test_two_pairs_come_to_the_strong_only() -> None:
    """Who wins nearly all single pairs soon gets two; who wins few never does."""
    _, strong = simulated(200, lambda item: 0.95 if len(item.slots) == 1 else 0.5)
    _, weak = simulated(200, lambda _: 0.3)
    assert sum(len(c.item.slots) == 2 for c in strong[100:]) > 20
    assert all(len(c.item.slots) == 1 for c in weak)


# -- why, and going on ---------------------------------------------------------------------------


def test_every_choice_says_why() -> None:
    """Drawn for weakness, by lot, not met yet, new, or its turn: each in one line."""
    _, chosen = simulated(EVERY * len(items_of("one")), lambda _: 0.5)
    kinds = Counter(choice.why.split(":")[0] for choice in chosen)
    assert set(kinds) <= {WEAKER, "Drawn by lot", "Not met yet", "New", "Its turn"}
    assert kinds[WEAKER] > 0 and kinds["Drawn by lot"] > 0
    assert kinds["New"] > 0 and kinds["Not met yet"] > 0
    assert max(len(choice.why) for choice in chosen) <= 76


def test_of_a_new_player_nothing_is_claimed() -> None:
    """Before the first try nothing is known, and nothing is said of strength or weakness."""
    assert choose(history([]).now).why == "New: you have not met it yet."


def test_weaker_is_never_said_without_its_figures() -> None:
    """One of the weaker has been met, and its figure, as it stands, is below the mean."""
    _, chosen = simulated(300, lambda _: 0.5)
    met = set()
    for choice in chosen:
        if choice.why.startswith(WEAKER):
            wins, mean = map(int, re.findall(r"(\d+) of ten", choice.why))
            assert wins < mean and choice.item in met
        elif choice.why.startswith("Not met yet"):
            assert choice.item not in met
        met.add(choice.item)


def test_what_is_said_of_waiting_is_true() -> None:
    """New means never met; its turn tells how many positions ago it was met last."""
    _, chosen = simulated(700, lambda _: 0.0)
    kinds = set()
    for number, choice in enumerate(chosen):
        before = [n for n in range(number) if chosen[n].item == choice.item]
        if choice.why.startswith("New"):
            assert not before
        elif choice.why.startswith("Its turn"):
            assert f"{number - before[-1]} positions ago" in choice.why
        kinds.add(choice.why.split(":")[0])
    assert {"New", "Its turn"} <= kinds


def test_the_same_tries_lead_to_the_same_position() -> None:
    """Who leaves and comes back finds the position that was waiting."""
    made, _ = simulated(37, lambda _: 0.5)
    again, _ = simulated(37, lambda _: 0.5)
    assert choose(made.now) == choose(again.now)
