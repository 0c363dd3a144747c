"""What an attempt is played as: every mode that the records know, in one place.

Casual play is a level or a placement that the player chose. Attempts of a match are not all by
whom the records are of.
"""

from __future__ import annotations

CASUAL, DRILL = "casual", "drill"
DASH, HOURGLASS = "dash", "hourglass"
MATCH, CONTEST, DAY = "match", "contest", "day"

TIMED = (DASH, HOURGLASS)
"""The modes of timed runs."""
