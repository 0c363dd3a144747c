"""The drill: endless positions, chosen for the player by ratings.

measured   the difficulty that items start from
items      what is rated, and the positions of it
standing   ratings, from the tries alone
choice     what comes next, and why
"""

from game.drill.choice import Choice, choose, open_steps
from game.drill.item import STEP_WORDS, STEPS, Item, items, items_of
from game.drill.standing import History, Standing, Try, history

__all__ = [
    "STEPS",
    "STEP_WORDS",
    "Choice",
    "History",
    "Item",
    "Standing",
    "Try",
    "choose",
    "history",
    "items",
    "items_of",
    "open_steps",
]
