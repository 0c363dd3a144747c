"""Positions, lines and texts as numbers: what invites and cards are made of."""

from __future__ import annotations

from collections.abc import Sequence

from game.cube import pair
from game.cube.cube import CORNERS, EDGES, PIECE_OF, Cube, cube_of
from game.cube.geometry import FACES
from game.cube.line import Line
from game.cube.moves import MOVES
from game.cube.pair import CROSS_EDGES, SLOTS
from game.errors import CodeError, PositionError
from game.friends.codes.mixed import Packing, Unpacking
from game.friends.contest import MAX_BYTES
from game.play.position import VIEWS, Position, position_of

_CROSS = tuple(PIECE_OF[i] for i in CROSS_EDGES)
_NO_CROSS = tuple(piece for piece in EDGES if piece not in _CROSS)

_NAMES = tuple(MOVES)
_NUMBER = {move: number for number, move in enumerate(MOVES.values())}
LENGTHS = (5, 10)
"""Bits that the count of a line's moves may take."""
_AT_ONCE = 5
"""Moves that are packed together: 54^5 still is a small number."""

Pieces = Sequence[tuple[int, ...]]


def put_position(packing: Packing, position: Position) -> None:
    """A position: 47.7 bits where the cross is done, else 65.2, and 12 for what is asked."""
    cube = position.cube
    has_cross = pair.is_cross_solved(cube)
    packing.put(has_cross, 2)
    _put_pieces(packing, cube, CORNERS, 1)
    _put_pieces(packing, cube, _NO_CROSS if has_cross else EDGES, 2)
    packing.put(_mask(SLOTS, position.solve), 2 ** len(SLOTS))
    packing.put(_mask(FACES, position.faces) - 1, 2 ** len(FACES) - 1)
    packing.put(VIEWS.index(position.view), len(VIEWS))


def take_position(packed: Unpacking) -> Position:
    """A position that `put_position` has put."""
    has_cross = packed.take(2)
    places = {piece[0]: piece[0] for piece in _CROSS} if has_cross else {}
    places |= _take_pieces(packed, CORNERS, 1)
    edges = _NO_CROSS if has_cross else EDGES
    places |= _take_pieces(packed, edges, 2)
    try:
        cube = cube_of(places)
    except PositionError:  # two edges the other way round
        places |= _exchanged(places, edges[-2][0], edges[-1][0])
        cube = cube_of(places)
    solve = _chosen(SLOTS, packed.take(2 ** len(SLOTS)))
    faces = "".join(_chosen(FACES, packed.take(2 ** len(FACES) - 1) + 1))
    return position_of(cube, solve, faces, VIEWS[packed.take(len(VIEWS))])


def put_line(packing: Packing, line: Line) -> None:
    """A line of any of the 54 moves, each of them taking as much."""
    packing.put_size(len(line), LENGTHS)
    for start in range(0, len(line), _AT_ONCE):
        block = line[start : start + _AT_ONCE]
        number = 0
        for move in block:
            number = number * len(MOVES) + _NUMBER[move]
        packing.put(number, len(MOVES) ** len(block))


def take_line(packed: Unpacking) -> Line:
    """A line that `put_line` has put."""
    left = packed.take_size(LENGTHS)
    line: list[str] = []
    while left:
        size = min(left, _AT_ONCE)
        number = packed.take(len(MOVES) ** size)
        block = []
        for _ in range(size):
            number, last = divmod(number, len(MOVES))
            block.append(_NAMES[last])
        line += reversed(block)
        left -= size
    return tuple(MOVES[name] for name in line)


def put_text(packing: Packing, text: str) -> None:
    """A text of at most `MAX_BYTES` bytes in UTF-8."""
    encoded = text.encode()
    packing.put(len(encoded), MAX_BYTES + 1)
    for byte in encoded:
        packing.put(byte, 256)


def take_text(packed: Unpacking) -> str:
    """A text that `put_text` wrote. Raises CodeError if the bytes are not UTF-8."""
    encoded = bytes(packed.take(256) for _ in range(packed.take(MAX_BYTES + 1)))
    try:
        return encoded.decode()
    except UnicodeDecodeError:
        raise CodeError("a name or title in the code is no text") from None


def _put_pieces(packing: Packing, cube: Cube, pieces: Pieces, settled: int) -> None:
    """Where the pieces lie among their own places, and how they are turned.

    Of the last `settled` pieces the place follows from the others, of the last one the turn too.
    """
    left = list(pieces)
    for piece in pieces[: len(pieces) - settled]:
        place = PIECE_OF[cube.where[piece[0]]]
        packing.put(left.index(place), len(left))
        left.remove(place)
    for piece in pieces[:-1]:
        sticker = cube.where[piece[0]]
        packing.put(PIECE_OF[sticker].index(sticker), len(piece))


def _take_pieces(packed: Unpacking, pieces: Pieces, settled: int) -> dict[int, int]:
    """Home of each piece's reference sticker -> its place; two edges may be exchanged."""
    left = list(pieces)
    there = [left.pop(packed.take(len(left))) for _ in pieces[settled:]] + left
    turns = [packed.take(len(piece)) for piece in pieces[:-1]]
    turns.append(-sum(turns) % len(pieces[0]))
    together = zip(pieces, there, turns, strict=True)
    return {piece[0]: place[turn] for piece, place, turn in together}


def _exchanged(places: dict[int, int], one: int, other: int) -> dict[int, int]:
    """Two pieces at each other's places, each turned as before."""
    first, second = PIECE_OF[places[one]], PIECE_OF[places[other]]
    turns = first.index(places[one]), second.index(places[other])
    return {one: second[turns[0]], other: first[turns[1]]}


def _mask(all_: Sequence[str], chosen: Sequence[str]) -> int:
    """Which of them are chosen, a bit each."""
    return sum(2**i for i, one in enumerate(all_) if one in chosen)


def _chosen(all_: Sequence[str], mask: int) -> tuple[str, ...]:
    """Those whose bit is set."""
    return tuple(one for i, one in enumerate(all_) if mask >> i & 1)
