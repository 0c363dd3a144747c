"""Positions and their one canonical text."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

import game.play.position
from game.cube import symmetry
from game.cube.cube import CORNERS, EDGES, SOLVED, Cube
from game.cube.geometry import FACES, UNMOVED, Matrix
from game.cube.line import Line, inverse, rotation_line
from game.cube.moves import parse_line
from game.cube.pair import SLOT, SLOTS, is_cross_solved, is_pair_solved, pair_place
from game.errors import PositionError
from game.play.position import (
    MAX_POSITION_TEXT,
    VIEWS,
    Position,
    glance,
    parse_position,
    position_after,
    position_of,
    position_with,
    text_after,
)
from tests.strategies import (
    cubes,
    face_lines,
    face_sets,
    positions,
    rotations,
    slot_sets,
    upright_symmetries,
)


def after(line: str, open_: tuple[str, ...] = (), view: str = "focus") -> Position:
    return position_after(parse_line(line), open_, view=view)


# -- the text ------------------------------------------------------------------------------------


def test_the_text_of_the_solved_cube() -> None:
    """Letters are read off the numbering of stickers: F a.., B, R, L, U q r s t, D u v w x."""
    assert after("", view="full").text == "stuvrqxw/tbcuqfgxswrv/FR+FL+BL+BR/FBRLUD/full"
    assert after("").text == "..uv..xw/.bcu.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus"


def test_the_text_shows_only_the_pieces_that_matter() -> None:
    """With slots open and few faces allowed, their pieces are dots and the text says so."""
    position = position_after(parse_line("R U R'"), ["FL", "BL", "BR"], "UR")
    assert position.text == "...n..../..tu...x.w.v/FR/RU/focus"
    only_cross = position_after((), SLOTS)
    assert only_cross.text == "......../...u...x.w.v/cross/FBRLUD/focus"


def test_the_example_in_the_module_is_a_position() -> None:
    """The text that the module shows is a canonical one."""
    lines = (game.play.position.__doc__ or "").splitlines()
    found = [line.split()[0] for line in lines if line.endswith("(R U R', all slots to solve)")]
    assert [parse_position(text) for text in found] == [after("R U R'")]


@given(positions())
def test_a_text_reads_back(position: Position) -> None:
    """`parse_position` undoes `text`, for every cube, slots, faces and view."""
    assert parse_position(position.text) == position
    assert len(position.text) <= MAX_POSITION_TEXT
    assert position.text.isascii()
    assert position.text.isprintable()


TOP_ONLY = ["R U R' U R U2 R'", "F R U R' U' F'", "U", "R' F R' B2 R F' R' B2 R2"]
"""Lines that move pieces of the top layer only (common practice, no source)."""


@given(face_lines(12), slot_sets, st.lists(st.sampled_from(TOP_ONLY), max_size=4), rotations)
def test_equal_puzzles_have_equal_texts_in_focus(
    setup: Line, open_: tuple[str, ...], top: list[str], grip: Matrix
) -> None:
    """Other pieces of the top layer, other pieces of open slots, another grip: the same text."""
    mixed = [f"{s[1]} U {s[1]}'" if s in ("FR", "BL") else f"{s[1]}' U' {s[1]}" for s in open_]
    first = parse_line(" ".join(top + mixed))
    solve = [slot for slot in SLOTS if slot not in open_]
    plain = position_of(SOLVED.turn(setup), solve)
    other = position_of(SOLVED.turn(first).turn(setup).turn(rotation_line(grip)), solve)
    assert other == plain
    assert other.text == plain.text


@given(face_lines(12), rotations, slot_sets, face_sets, st.sampled_from(VIEWS))
def test_a_text_is_had_without_the_position(
    setup: Line, grip: Matrix, open_: tuple[str, ...], faces: str, view: str
) -> None:
    """`text_after` is the text of `position_after`, for every setup, in any grip, and question."""
    asked = ((*setup, *rotation_line(grip)), open_, faces, view)
    assert text_after(*asked) == position_after(*asked).text


def test_another_first_corner_makes_another_full_text() -> None:
    """In full view the top layer matters: the same change makes another position."""
    plain, other = after("R U R'", view="full"), after(TOP_ONLY[0] + " R U R'", view="full")
    assert plain.text != other.text


@given(cubes(), slot_sets, face_sets)
def test_a_position_is_upright_and_keeps_what_matters(
    cube: Cube, solve: tuple[str, ...], faces: str
) -> None:
    """The position's cube has its centres at home and asks the same of the same pieces."""
    position = position_of(cube, solve, faces)
    full = position_of(cube, solve, faces, "full")
    assert position.cube.grip == UNMOVED
    assert full.cube == cube.upright
    assert position.pairs == full.pairs
    assert (position.solve, position.faces) == (solve, faces)


# -- what it asks --------------------------------------------------------------------------------


def test_pairs_kept_and_open() -> None:
    """Slots are in play, kept or open, and the hand is at the top and the sides in play."""
    position = after("R U R' L' U' L", open_=("BL",))
    assert position.pairs == ("FR", "FL")
    assert position.kept == ("BR",)
    assert position.open == ("BL",)
    assert position.hand_faces == "FRLU"
    assert after("R U R'").hand_faces == "FRU"
    assert position_after(parse_line("R U R'"), faces="URB").hand_faces == "RU"


@given(face_lines(8), slot_sets, rotations)
def test_undoing_the_setup_solves_the_position(
    setup: Line, open_: tuple[str, ...], grip: Matrix
) -> None:
    """The inverse of the setup is a solution, in any grip."""
    position = position_after(setup, open_)
    undone = position.cube.turn(inverse(setup))
    assert position.is_goal(undone)
    assert position.is_goal(undone.turn(rotation_line(grip)))
    solved = all(is_pair_solved(position.cube, slot) for slot in position.solve)
    assert set(position.pairs) | set(position.kept) | set(position.open) == set(SLOTS)
    assert (not position.pairs) == solved


@given(positions(), upright_symmetries)
def test_the_image_of_a_position(position: Position, image: Matrix) -> None:
    """A mirrored position asks for the mirrored slots and faces, and mirrored back is itself."""
    seen = position.image(image)
    assert set(seen.pairs) == {symmetry.slot_image(s, image) for s in position.pairs}
    assert seen.faces == symmetry.faces_image(position.faces, image)
    back = next(m for m in symmetry.UPRIGHT if seen.image(m).text == position.text)
    assert seen.image(back) == position
    assert parse_position(seen.text) == seen


# -- what is refused -----------------------------------------------------------------------------


SOLVED_FOCUS = "..uv..xw/.bcu.fgx.w.v/FR+FL+BL+BR/FBRLUD/focus"
SOLVED_FULL = "stuvrqxw/tbcuqfgxswrv/FR+FL+BL+BR/FBRLUD/full"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "a position of 1 parts; expected 5 with / between"),
        ("x" * 61, "a position of 61 characters; at most 60 are read"),
        ("a/b/FR/R", "a position of 4 parts; expected 5 with / between"),
        (".uv..xw/.bcu.fgx.w.v/FR/R/focus", "7 corners in a position; expected 8"),
        ("..uv..xw/.bcu.fgx.w.vv/FR/R/focus", "13 edges in a position; expected 12"),
        (
            "..uv..xy/.bcu.fgx.w.v/FR/R/focus",
            "'y' among the corners of a position; expected a to x",
        ),
        (
            "..uv..xw/.bcu.fgx.w.\n/FR/R/focus",
            "'\\n' among the edges of a position; expected a to x",
        ),
        ("..uv..xu/.bcu.fgx.w.v/FR/R/focus", "two pieces of a position lie at one place"),
        (SOLVED_FOCUS.replace("BR/", "RB/"), 'unknown slot "RB"; expected FR, FL, BL or BR'),
        (SOLVED_FOCUS.replace("BRLUD", "X"), 'unknown face "X"; expected letters of F B R L U D'),
        (SOLVED_FOCUS.replace("focus", "Full"), 'unknown view "Full"; did you mean "full"?'),
        (
            SOLVED_FOCUS.replace("focus", "\n\x1b"),
            'unknown view "??"; expected focus or full',
        ),
        (
            SOLVED_FOCUS.replace("FR+FL", "FL+FR"),
            f"not the canonical text of a position; that would be {SOLVED_FOCUS}",
        ),
        (
            SOLVED_FOCUS.replace("..uv", "s.uv"),
            f"not the canonical text of a position; that would be {SOLVED_FOCUS}",
        ),
        # The reference sticker of a corner where the next of that corner belongs: a twist.
        (
            SOLVED_FULL.replace("stuv", "atuv"),
            "turning cannot reach this cube: one corner is twisted",
        ),
        (
            SOLVED_FULL.replace("/tb", "/ab"),
            "turning cannot reach this cube: one edge is flipped",
        ),
        (
            SOLVED_FULL.replace("stuv", "tsuv"),
            "turning cannot reach this cube: two pieces are exchanged",
        ),
    ],
)
def test_what_is_no_position_is_refused(text: str, message: str) -> None:
    """Each fault of a text in one line."""
    with pytest.raises(PositionError) as refused:
        parse_position(text)
    assert str(refused.value) == message


def check_hostile(text: str) -> None:
    """A text is either a position's own, or refused in one printable line of modest length."""
    try:
        position = parse_position(text)
    except PositionError as error:
        assert str(error).isprintable()
        assert len(str(error)) < 150
    else:
        assert position.text == text


@given(st.text(max_size=70) | st.text(alphabet="abxyz./+FRLUD focusl\n\u0661", max_size=60))
@example("/" * 4)
@example("......../............/cross/F/focus")
def test_any_text_is_a_position_or_refused_in_one_line(text: str) -> None:
    """Nothing but a position or a PositionError comes of any text."""
    check_hostile(text)


@given(positions(), st.data())
def test_a_damaged_text_is_a_position_or_refused_in_one_line(
    position: Position, data: st.DataObject
) -> None:
    """One or two characters changed, dropped or added: a position with that text, or refused."""
    text = position.text
    for _ in range(data.draw(st.integers(1, 2))):
        at = data.draw(st.integers(0, len(text)))
        new = data.draw(st.sampled_from([*"abcdefghijklmnopqrstuvwx./+FBRLUD\x00\n\u00e9", ""]))
        text = text[:at] + new + text[at + data.draw(st.integers(0, 1)) :]
    check_hostile(text)


@pytest.mark.parametrize(
    ("first", "second", "fault"),
    [
        (CORNERS[0], (1, 2, 0), "one corner is twisted"),
        (EDGES[0], (1, 0), "one edge is flipped"),
    ],
)
def test_an_impossible_cube_makes_no_position(
    first: tuple[int, ...], second: tuple[int, ...], fault: str
) -> None:
    """A cube taken apart and put together wrongly is refused here, in any view and grip."""
    where = list(SOLVED.where)
    for i, k in zip(first, second, strict=True):
        where[i] = first[k]
    for view in ("focus", "full"):
        for grip in ("", "x y'"):
            with pytest.raises(PositionError) as refused:
                position_of(Cube(tuple(where)).turn(parse_line(grip)), view=view)
            assert str(refused.value) == f"turning cannot reach this cube: {fault}"


@pytest.mark.parametrize(
    ("solve", "faces", "view", "message"),
    [
        (["FX"], FACES, "focus", 'unknown slot "FX"; expected FR, FL, BL or BR'),
        (SLOTS, "", "focus", "no face may turn; expected letters of F B R L U D"),
        (SLOTS, "RQ", "focus", 'unknown face "Q"; expected letters of F B R L U D'),
        (SLOTS, FACES, "grey", 'unknown view "grey"; expected focus or full'),
    ],
)
def test_an_unknown_slot_face_or_view_makes_no_position(
    solve: list[str], faces: str, view: str, message: str
) -> None:
    """A word that means nothing here is refused in one line, not left out."""
    with pytest.raises(PositionError) as refused:
        position_of(SOLVED, solve, faces, view)
    assert str(refused.value) == message


def test_an_unknown_open_slot_is_refused() -> None:
    """An open slot that is none is not left out either."""
    with pytest.raises(PositionError, match='unknown slot "XY"'):
        position_after((), ["XY"])


# -- a glance ------------------------------------------------------------------------------------


@given(positions())
@example(after(""))
@example(after("F R"))
@example(after("R U R' L' U L", ("BL",)))
def test_a_glance_sees_what_parsing_finds(position: Position) -> None:
    """The pairs in play, where they lie, and whether the cross is done, from the text alone."""
    seen = glance(position.text)
    cube = position.cube
    assert seen.places == {slot: pair_place(cube, slot) for slot in position.pairs}
    assert seen.has_cross == is_cross_solved(cube)


@pytest.mark.parametrize("text", ["", "a/b/c/d/e", "////", "x" * 90, "...../FR/F/focus", "/////"])
def test_a_glance_at_nonsense(text: str) -> None:
    """What cannot be the text of a position is refused."""
    with pytest.raises(PositionError):
        glance(text)


# -- pieces at given places ----------------------------------------------------------------------


@given(positions())
def test_a_position_is_made_of_its_pieces(position: Position) -> None:
    """With every piece where it lies, told by any of its stickers, the position is the same."""
    where = position.cube.where
    for sticker in (0, -1):
        places = {piece[sticker]: where[piece[sticker]] for piece in CORNERS + EDGES}
        assert position_with(places, position.solve, position.faces, position.view) == position


def test_pieces_that_are_not_named_are_at_home() -> None:
    """One pair apart: the cross and the other slots are at home; nothing named: all is solved."""
    assert position_with({}) == after("")
    hook = after("R B U2 B' R'")
    home = SLOT["FR"].home
    places = {sticker: hook.cube.where[sticker] for sticker in home}
    assert position_with(places) == hook


@pytest.mark.parametrize(
    ("places", "problem"),
    [
        ({CORNERS[0][0]: EDGES[0][0]}, "a corner and an edge cannot take each other's places"),
        ({SLOT["FR"].home.corner: SLOT["BL"].home.corner}, "two pieces of a position lie at one"),
    ],
)
def test_pieces_that_cannot_be(places: dict[int, int], problem: str) -> None:
    """Places that no cube has, or that a kept slot needs, are refused."""
    with pytest.raises(PositionError, match=problem):
        position_with(places)


def test_an_unknown_view_of_pieces() -> None:
    """The view is checked as for any position."""
    with pytest.raises(PositionError, match='unknown view "fool"'):
        position_with({}, view="fool")
