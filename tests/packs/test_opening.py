"""Which puzzle comes when."""

from __future__ import annotations

from pathlib import Path

from game.cube.line import inverse
from game.cube.moves import parse_line
from game.packs import Level, Pack, Puzzle, load_packs, pack_folder, puzzles
from game.packs.opening import course, first_puzzle, following, go_on, opening, preceding
from game.play.position import position_after


def level(id_: str, setup: str, *twins: str) -> Level:
    """A level with nothing of note but its position."""
    return Level(id_, id_.title(), setup, (), "FBRLUD", "focus", 3, "Done.", twins)


def pack(id_: str, *levels: Level) -> Pack:
    """A pack of these levels."""
    return Pack(id_, id_.title(), "About.", "Somebody", "CC0-1.0", levels, Path(f"{id_}.toml"))


FIRST = pack(
    "first",
    level("a", "R U R'", "left-right"),
    level("b", "L' U L U'"),
    level("c", "R B U2 B' R'"),
    level("d", "R' F' U2 F R"),
)
SECOND = pack("second", level("e", "F R U R' F'", "left-right", "diagonal"), level("f", "R U2 R'"))
PACKS = (FIRST, SECOND)


def keys(found: tuple[Puzzle, ...]) -> list[str]:
    return [puzzle.key for puzzle in found]


def texts(*wanted: str) -> set[str]:
    """The position texts of these puzzles of the course."""
    return {puzzle.position.text for puzzle in course(PACKS) if puzzle.key in wanted}


def key(puzzle: Puzzle | None) -> str | None:
    return puzzle.key if puzzle is not None else None


def test_the_shipped_opening() -> None:
    """The first minutes: three turns, the same at the left, four turns, and the hook of five."""
    packs, _ = load_packs(pack_folder())
    first = opening(packs)
    assert [puzzle.par for puzzle in first] == [3, 3, 4, 5]
    assert [puzzle.position.pairs for puzzle in first[:2]] == [("FR",), ("FL",)]
    assert first[1].twin == "left-right"
    # common practice, no source; the search's tests prove its par
    assert first[3].position == position_after(inverse(parse_line("R B U2 B' R'")))


def test_course() -> None:
    """Twins belong to the course in the opening only."""
    assert keys(course(PACKS)) == [
        "first/a", "first/a~left-right", "first/b", "first/c", "first/d", "second/e", "second/f",
    ]  # fmt: skip


def test_first_start() -> None:
    """The first start is inside the first puzzle, and so is one that was left there; not others."""
    assert key(first_puzzle(PACKS)) == "first/a"
    assert key(first_puzzle(PACKS, texts("first/a"))) == "first/a"
    assert first_puzzle(PACKS, texts("first/a", "second/f")) is None
    assert first_puzzle(()) is None


def test_go_on() -> None:
    """Going on leads to the first puzzle of the course that is not solved."""
    assert key(go_on(PACKS, texts("first/a"))) == "first/a~left-right"
    assert key(go_on(PACKS, texts("first/a", "first/a~left-right", "first/c"))) == "first/b"
    assert go_on(PACKS, texts(*keys(course(PACKS)))) is None


def test_go_on_with_what_is_in_hand() -> None:
    """A puzzle left in hand comes first, unless it is solved."""
    assert key(go_on(PACKS, texts("first/a"), texts("second/e"))) == "second/e"
    twin = puzzles(SECOND)[1]
    assert key(go_on(PACKS, texts("first/a"), [twin.position.text])) == twin.key
    assert key(go_on(PACKS, texts("first/a"), ["no position"])) == "first/a~left-right"
    assert key(go_on(PACKS, texts("first/a"), texts("first/a"))) == "first/a~left-right"


def test_go_on_where_two_levels_share_a_position() -> None:
    """A position that several levels pose is taken up at the first of the course."""
    again = pack("third", level("g", "R B U2 B' R'"))
    in_hand = [puzzles(again)[0].position.text]
    assert key(go_on((FIRST, again), texts("first/a"), in_hand)) == "first/c"


def test_following_in_the_opening() -> None:
    """The opening runs through its twin to the hook, and then to the map."""
    walked = [opening(PACKS)[0]]
    while (after := following(PACKS, walked[-1])) is not None:
        walked.append(after)
    assert tuple(walked) == opening(PACKS)


def test_following_later() -> None:
    """A level is followed by the next level, a twin by what is listed next, an end by None."""
    listed = {puzzle.key: puzzle for pack_ in PACKS for puzzle in puzzles(pack_)}
    assert key(following(PACKS, listed["second/e"])) == "second/f"
    assert key(following(PACKS, listed["second/e~left-right"])) == "second/e~diagonal"
    assert key(following(PACKS, listed["second/e~diagonal"])) == "second/f"
    assert following(PACKS, listed["second/f"]) is None
    assert following(PACKS, listed["first/d"]) is None


def test_preceding() -> None:
    """Going back undoes going on, in the opening and later; both ends have nothing before them."""
    for first in (opening(PACKS)[0], puzzles(SECOND)[0], puzzles(FIRST)[4]):
        assert preceding(PACKS, first) is None
        after = following(PACKS, first)
        assert after is None or key(preceding(PACKS, after)) == first.key
    twin = puzzles(SECOND)[2]
    assert key(preceding(PACKS, twin)) == "second/e~left-right"


def test_following_of_a_stranger() -> None:
    """A puzzle of a pack that is not there is followed by the map."""
    assert following((FIRST,), puzzles(SECOND)[0]) is None
