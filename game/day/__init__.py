"""The day's five: positions that belong to a date, and days in a row.

meeting   par of positions near their goal, proven without tables
five      the five of a date, dealt
joined    how many days are joined
"""

from game.day.five import FIRST_DAY, LAST_DAY, day, day_text, is_day
from game.day.joined import Joined, Played, joined_days

__all__ = [
    "FIRST_DAY",
    "LAST_DAY",
    "Joined",
    "Played",
    "day",
    "day_text",
    "is_day",
    "joined_days",
]
