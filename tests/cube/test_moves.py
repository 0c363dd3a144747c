"""Notation and turns: WCA Regulations Article 12 (version of 1 April 2026), SymPy, caret texts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy.combinatorics import Permutation
from sympy.combinatorics.generators import rubik, rubik_cube_generators

from game.cube import geometry
from game.cube.cube import SOLVED
from game.cube.geometry import FACES, sticker
from game.cube.moves import (
    FACE_MOVES,
    MAX_MOVES,
    MAX_TEXT,
    MOVES,
    PRIMES,
    Move,
    line_text,
    parse_line,
    parse_move,
    permutation,
    turned_face,
)
from game.errors import NotationError
from tests.strategies import cubes, lines, moves

EXPECTED = "expected F B R L U D, wide Fw ... Dw, M E S or x y z, each alone or with ' or 2"


def same(first: str, second: str) -> bool:
    """Whether two lines do the same to a solved cube, grip included."""
    return SOLVED.turn(parse_line(first)) == SOLVED.turn(parse_line(second))


# -- what may be written -------------------------------------------------------------------------


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize(("suffix", "quarters"), [("", 1), ("2", 2), ("'", 3)])
def test_faces_turn_by_a_quarter_a_half_or_back(face: str, suffix: str, quarters: int) -> None:
    """WCA 12a1: a letter is a quarter clockwise, 2 a half turn, ' a quarter anticlockwise."""
    assert same(face + suffix, face * quarters)
    assert same((face + " ") * 4, "")
    assert parse_move(face + suffix).name == face + suffix


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("suffix", ["", "2", "'"])
def test_a_wide_turn_takes_the_layer_behind_along(face: str, suffix: str) -> None:
    """WCA 12a2: on a 3x3x3 Rw and 2Rw turn two layers: the opposite face stays with the rest."""
    wide = parse_move(face + "w" + suffix)
    assert parse_move("2" + face + "w" + suffix) == wide
    assert len(wide.layers) == 2
    opposite = geometry.OPPOSITE[face]
    rotation = {"R": "x", "L": "x'", "U": "y", "D": "y'", "F": "z", "B": "z'"}[face]
    whole = f"{rotation} " * {"": 1, "2": 2, "'": 3}[suffix]
    assert same(f"{face}w{suffix}", f"{opposite}{suffix} {whole}")


@pytest.mark.parametrize(
    ("rotation", "like", "against"), [("x", "R", "L"), ("y", "U", "D"), ("z", "F", "B")]
)
@pytest.mark.parametrize(("suffix", "back"), [("", "'"), ("2", "2"), ("'", "")])
def test_a_rotation_turns_everything_as_its_face(
    rotation: str, like: str, against: str, suffix: str, back: str
) -> None:
    """WCA 12a4: x turns as R or L', y as U or D', z as F or B'; no piece moves against another."""
    whole = parse_move(rotation + suffix)
    assert whole.is_rotation
    assert whole.layers == geometry.WHOLE
    assert SOLVED.turn([whole]).is_solved()
    for face in (like + suffix, against + back):
        turned = permutation(parse_move(face))
        moved = [i for i in range(54) if turned[i] != i]
        assert [permutation(whole)[i] for i in moved] == [turned[i] for i in moved]


@pytest.mark.parametrize(("slice_", "as_faces"), [("M", "x' R L'"), ("E", "y' U D'")])
def test_slices_turn_the_middle_layer(slice_: str, as_faces: str) -> None:
    """M turns as L, E as D (common practice, no source)."""
    assert same(slice_, as_faces)
    assert parse_move(slice_).layers == frozenset((0,))


def test_the_slice_s_turns_as_f() -> None:
    """S turns as F (common practice, no source)."""
    assert same("S", "z F' B")


@pytest.mark.parametrize("letter", "fbrlud")
@pytest.mark.parametrize("suffix", ["", "2", "'", "2'"])
def test_lower_case_letters_are_wide_turns(letter: str, suffix: str) -> None:
    """r is Rw (common practice, no source)."""
    assert parse_move(letter + suffix) == parse_move(letter.upper() + "w" + suffix)


@pytest.mark.parametrize("prime", PRIMES)
def test_typographic_primes_are_read(prime: str) -> None:
    """Every common sign for a prime is one."""
    assert parse_line(f"R{prime} U2{prime} x{prime} Fw{prime}") == parse_line("R' U2 x' Fw'")


def test_the_common_typographic_primes_are_known() -> None:
    """Apostrophe, right and left quotation mark, prime, modifier primes, grave and acute accent."""
    assert set("'\u2019\u2018\u2032\u02b9\u02bc\u0060\u00b4") == set(PRIMES)


def test_a_half_turn_may_be_written_backwards() -> None:
    """R2' is R2."""
    assert parse_move("R2'") == parse_move("R2")


@pytest.mark.parametrize(
    "text", ["R U R' U'", "RUR'U'", "  R\tU\nR'U' ", "R U R\u2019 U\u2032", "R\u00a0U R'\u3000U'"]
)
def test_spaces_do_not_matter(text: str) -> None:
    """With or without blanks of any kind, the line is the same."""
    assert line_text(parse_line(text)) == "R U R' U'"


def test_nothing_is_the_empty_line() -> None:
    """An empty or blank text is a line of no moves."""
    assert parse_line("") == parse_line(" \n\t") == ()
    assert line_text(()) == ""


def test_there_are_54_moves() -> None:
    """Six faces, six wide, three slices, three rotations, three ways each; all different."""
    assert len(MOVES) == len(set(MOVES.values())) == 54
    assert len({permutation(move) for move in MOVES.values()}) == 54
    assert [m.name for m in FACE_MOVES[:4]] == ["F", "F2", "F'", "B"]
    assert [turned_face(m) for m in FACE_MOVES] == [f for f in FACES for _ in range(3)]


@given(lines(40))
def test_a_written_line_reads_back(line: tuple[Move, ...]) -> None:
    """`parse_line` undoes `line_text`, with and without the spaces."""
    text = line_text(line)
    assert parse_line(text) == line
    assert parse_line(text.replace(" ", "")) == line


@given(moves)
def test_a_move_is_its_repr(move: Move) -> None:
    """The repr of a move builds it again."""
    assert eval(repr(move), {"parse_move": parse_move}) == move


# -- what may not --------------------------------------------------------------------------------


REFUSED = [
    # WCA 12a2: a wide turn takes two layers of three, neither one nor all.
    ("R 1Rw U", f'unknown turn "1Rw"; {EXPECTED}', "R 1Rw U", "  ^^^"),
    ("3Rw", f'unknown turn "3Rw"; {EXPECTED}', "3Rw", "^^^"),
    ("2R U", f'unknown turn "2R"; {EXPECTED}', "2R U", "^^"),
    ("R U Q' U'", f'unknown turn "Q\'"; {EXPECTED}', "R U Q' U'", "    ^^"),
    ("RUQ'U'", f'unknown turn "Q\'"; {EXPECTED}', "RUQ'U'", "  ^^"),
    ("R (U R') U", '"(" is no turn; write turns with spaces only', "R (U R') U", "  ^"),
    ("R U) R'", '")" is no turn; write turns with spaces only', "R U) R'", "   ^"),
    ("[R U R']", '"[" is no turn; write turns with spaces only', "[R U R']", "^"),
    ("R U, R'", "a comma is no turn; write turns with spaces only", "R U, R'", "   ^"),
    ("R U.", '"." is no turn; write turns with spaces only', "R U.", "   ^"),
    ("R U'2", 'unknown turn "U\'2"; did you mean "U2"?', "R U'2", "  ^^^"),
    ("R3 U", 'unknown turn "R3"; did you mean "R\'"?', "R3 U", "^^"),
    ("u3 R", 'unknown turn "u3"; did you mean "u\'"?', "u3 R", "^^"),
    ("R m2 U", 'unknown turn "m2"; did you mean "M2"?', "R m2 U", "  ^^"),
    ("X R", 'unknown turn "X"; did you mean "x"?', "X R", "^"),
    ("R rw' U", 'unknown turn "rw\'"; did you mean "Rw\'"?', "R rw' U", "  ^^^"),
    ("RW2", 'unknown turn "RW2"; did you mean "Rw2"?', "RW2", "^^^"),
    ("U Mw", f'unknown turn "Mw"; {EXPECTED}', "U Mw", "  ^^"),
    ("Xw", f'unknown turn "Xw"; {EXPECTED}', "Xw", "^^"),
    ("R22", f'unknown turn "R22"; {EXPECTED}', "R22", "^^^"),
    ("R''", f"unknown turn \"R''\"; {EXPECTED}", "R''", "^^^"),
    ("R 2", f'unknown turn "2"; {EXPECTED}', "R 2", "  ^"),
    ("R w", f'unknown turn "w"; {EXPECTED}', "R w", "  ^"),
    ("R\tU\nQ", f'unknown turn "Q"; {EXPECTED}', "R U Q", "    ^"),
    ("R\x1b[2JU", f'unknown turn "?[2"; {EXPECTED}', "R [2JU", " ^^^"),
    # East Asian letters take two columns of a terminal, a combining accent none (UAX 11).
    ("R \uff35 U", f'unknown turn "\uff35"; {EXPECTED}', "R \uff35 U", "  ^^"),
    ("R\u3000\uff35", f'unknown turn "\uff35"; {EXPECTED}', "R \uff35", "  ^^"),
    ("F' q\u0301 Q", f'unknown turn "q"; {EXPECTED}', "F' q\u0301 Q", "   ^"),
    ("F'\u0301 Q", f'unknown turn "\u0301"; {EXPECTED}', "F'\u0301 Q", "  ^"),
    (
        "R" + " " * 90 + "Q" + " " * 90,
        f'unknown turn "Q"; {EXPECTED}',
        " " * 30 + "Q",
        " " * 30 + "^",
    ),
]


@pytest.mark.parametrize(("text", "problem", "shown", "caret"), REFUSED)
def test_what_is_no_turn_is_refused_with_a_caret(
    text: str, problem: str, shown: str, caret: str
) -> None:
    """The message is one line, then the offending text with a caret exactly under the fault."""
    with pytest.raises(NotationError) as refused:
        parse_line(text)
    assert str(refused.value) == f"{problem}\n    {shown}\n    {caret}"
    assert refused.value.text == text


def test_a_line_is_read_up_to_its_bounds() -> None:
    """A line of the most moves and of the most characters is read."""
    assert len(parse_line("R " * MAX_MOVES)) == MAX_MOVES
    assert parse_line("R" + " " * (MAX_TEXT - 1)) == parse_line("R")


def test_too_many_moves_are_refused_at_the_first_one_too_many() -> None:
    """One move over the bound is refused, with the caret under it."""
    with pytest.raises(NotationError, match="more than 400 moves; that is the most") as refused:
        parse_line("R " * MAX_MOVES + "U2")
    assert (refused.value.place, refused.value.length) == (2 * MAX_MOVES, 2)


def test_too_long_a_line_is_refused_unread() -> None:
    """A text over the bound is refused by its length, and the message stays short."""
    with pytest.raises(NotationError, match="5000 characters; a line has at most 4000") as refused:
        parse_line("Q" * 5000)
    assert refused.value.place == MAX_TEXT
    assert len(str(refused.value)) < 250


@given(st.text(max_size=80) | st.text(alphabet="RUFw2'x y(,mQ3\u2019", max_size=40))
def test_any_text_is_a_line_or_refused_in_three_lines(text: str) -> None:
    """No text does anything but parse, or be refused by a message and a caret that fit a screen."""
    try:
        line = parse_line(text)
    except NotationError as error:
        problem, shown, caret = str(error).split("\n")
        assert all(part.isprintable() for part in (problem, shown, caret))
        assert set(caret) == {" ", "^"}
        assert 0 <= error.place < len(text)
        parse_line(text[: error.place])  # what stands before the caret is a line
    else:
        assert parse_line(line_text(line)) == line


@pytest.mark.parametrize("text", ["", "R U"])
def test_one_move_is_one_move(text: str) -> None:
    """`parse_move` refuses none and two."""
    with pytest.raises(NotationError, match=r"^\d moves; expected one"):
        parse_move(text)


# -- what a turn does ----------------------------------------------------------------------------


def test_the_first_column_of_the_front_goes_where_a_hand_takes_it() -> None:
    """R takes F's right column up, U takes F's top row left, F takes U's bottom row right."""
    for move, from_, to in [
        ("R", ("F", 0, 2), ("U", 0, 2)),
        ("R", ("U", 0, 2), ("B", 2, 0)),
        ("U", ("F", 0, 0), ("L", 0, 0)),
        ("F", ("U", 2, 0), ("R", 0, 0)),
        ("F", ("F", 0, 0), ("F", 0, 2)),
        ("L", ("F", 0, 0), ("D", 0, 0)),
        ("D", ("F", 2, 0), ("R", 2, 0)),
        ("B", ("U", 0, 0), ("L", 2, 0)),
    ]:
        assert permutation(MOVES[move])[sticker(*from_)] == sticker(*to), move


@given(moves, cubes())
def test_a_move_and_its_inverse_do_nothing(move: Move, cube) -> None:
    """Every move is undone by its inverse."""
    assert cube.turn([move, move.inverse]) == cube
    assert move.inverse.inverse == move


def relabelling(
    ours: list[tuple[int, ...]], theirs: list[tuple[int, ...]]
) -> dict[int, int] | None:
    """Our point -> their point, such that each of our permutations becomes theirs; None if none.

    One point of each orbit is tried everywhere; where the others go then follows from the turns.
    """
    label: dict[int, int] = {}
    for start in range(len(ours[0])):
        if start in label:
            continue
        for target in set(range(len(theirs[0]))) - set(label.values()):
            orbit = {start: target}
            queue = [start]
            for point in queue:
                for a, b in zip(ours, theirs, strict=True):
                    if a[point] not in orbit:
                        orbit[a[point]] = b[orbit[point]]
                        queue.append(a[point])
            fits = all(
                orbit[a[p]] == b[orbit[p]] for p in orbit for a, b in zip(ours, theirs, strict=True)
            )
            images = set(orbit.values())
            if fits and len(images) == len(orbit) and not images & set(label.values()):
                label |= orbit
                break
        else:
            return None
    return label


def of_sympy(permutations: list[Permutation]) -> list[tuple[int, ...]]:
    return [tuple(p.array_form) for p in permutations]


def without_centres(p: tuple[int, ...]) -> tuple[int, ...]:
    """A turn of faces on the 48 stickers that move, renumbered in their order."""
    kept = [i for i in range(54) if i not in geometry.CENTRES.values()]
    return tuple(kept.index(p[i]) for i in kept)


def test_our_turns_are_the_published_generators() -> None:
    """SymPy's six generators (the cube of GAP's manual: U L F R B D) are ours, relabelled."""
    ours = [without_centres(permutation(MOVES[face])) for face in "ULFRBD"]
    theirs = of_sympy(rubik_cube_generators())
    label = relabelling(ours, theirs)
    assert label is not None
    assert sorted(label.values()) == list(range(48))
    for a, b in zip(ours, theirs, strict=True):
        assert all(label[a[i]] == b[label[i]] for i in range(48))


def test_a_wrong_generator_finds_no_relabelling() -> None:
    """The check can fail: with U turned the other way, no relabelling exists."""
    theirs = of_sympy(rubik_cube_generators())
    names = ("U'", "L", "F", "R", "B", "D")
    assert relabelling([without_centres(permutation(MOVES[n])) for n in names], theirs) is None


def test_our_slices_are_sympys_layers() -> None:
    """`rubik(3)` is front, right and bottom, each with the next layer, turned anticlockwise."""
    theirs = of_sympy(rubik(3))
    ours = [permutation(MOVES[name]) for name in ("F'", "S'", "R'", "M", "D'", "E'")]
    label = relabelling(ours, theirs)
    assert label is not None
    assert sorted(label.values()) == list(range(54))
