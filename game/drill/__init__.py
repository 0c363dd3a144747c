"""The drill: endless positions, chosen for the player by ratings.

measured   the difficulty that items start from
items      what is rated, and the positions of it
standing   ratings, from the tries alone
choice     what comes next, and why
"""

from game.drill.choice import Choice, choose, open_steps
from game.drill.item import STEP_WORDS, STEPS, Item, items, items_of
from game.drill.standing import DrillTry, History, Standing, history

__all__ = [
    "STEPS",
    "STEP_WORDS",
    "Choice",
    "DrillTry",
    "History",
    "Item",
    "Standing",
    "choose",
    "history",
    "items",
    "items_of",
    "open_steps",
]
