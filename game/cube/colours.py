"""Which colour each centre has: the usual scheme, in any of its 24 grips.

White lies opposite yellow, green opposite blue, red opposite orange; with white down and green in
front, orange is on the right (common practice, no source). A choice of colours is a choice of
names: it never changes a turn.
"""

from __future__ import annotations

from game.cube import geometry
from game.cube.geometry import FACE_AT, FACES, NORMAL, ROTATIONS
from game.errors import SettingsError, did_you_mean, printable

HOME_COLOURS: dict[str, str] = {
    "U": "yellow",
    "D": "white",
    "F": "green",
    "B": "blue",
    "R": "orange",
    "L": "red",
}
"""Centre -> colour with white down and green in front."""
COLOURS = tuple(HOME_COLOURS[face] for face in FACES)


def colour_scheme(cross: str, front: str) -> dict[str, str]:
    """Centre -> colour, with the given colours on D and F.

    Raises SettingsError for a word that is no colour and for two colours that are not neighbours.
    """
    for colour in (cross, front):
        if colour not in COLOURS:
            known = ", ".join(COLOURS)
            hint = did_you_mean(colour, COLOURS) or f"; expected one of {known}"
            raise SettingsError(f'unknown colour "{printable(colour)}"{hint}')
    for rotation in ROTATIONS:
        scheme = {FACE_AT[geometry.apply(rotation, NORMAL[f])]: HOME_COLOURS[f] for f in FACES}
        if scheme["D"] == cross and scheme["F"] == front:
            return scheme
    raise SettingsError(f"{front} cannot be in front of a {cross} cross: it is not beside {cross}")
