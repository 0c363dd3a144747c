"""Packs: what is read, every fault as it is reported, what cannot be read, the puzzles in one."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import game
from game.atlas import CELLS, AtlasPuzzle, Spot
from game.cube.colours import HOME_COLOURS
from game.cube.symmetry import TWINS, twin
from game.drill.item import items
from game.errors import PackError
from game.packs import Level, Pack, all_packs, load_pack, load_packs, pack_folder, puzzles
from game.packs.reading import MAX_BYTES

HERE = Path(__file__).parent / "packs"
VALID = sorted((HERE / "valid").glob("*.toml"))
INVALID = sorted((HERE / "invalid").glob("*.toml"))

PACK = """format = 1
title = "Two in the top layer"
about = "Corner and edge both above, nothing trapped."
author = "A. Teacher"
licence = "CC0-1.0"
"""


def level(label: str = "top-first", **values: str) -> str:
    """A level of a pack's text; values are written as TOML, the label is its id and name."""
    keys = {
        "id": f'"{label}"',
        "name": f'"{label}"',
        "setup": '"R U R\'"',
        "par": "3",
        "note": '"."',
    }
    return "[[level]]\n" + "".join(f"{k} = {v}\n" for k, v in (keys | values).items())


def read(folder: Path, text: str | bytes) -> Pack:
    """The pack that a file of this text is."""
    path = folder / "a-pack.toml"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return load_pack(path)


def faults(folder: Path, text: str | bytes) -> list[str]:
    """The faults of a file of this text, without the file's name."""
    with pytest.raises(PackError) as refused:
        read(folder, text)
    return [str(fault).partition(".toml: ")[2] for fault in refused.value.faults]


# -- files that are right ------------------------------------------------------------------------


def test_there_are_files_to_test() -> None:
    """The folders of valid and of invalid packs are not empty, and each fault has its message."""
    assert len(VALID) >= 4
    assert len(INVALID) >= 30
    assert {p.stem for p in INVALID} == {p.stem for p in (HERE / "invalid").glob("*.txt")}


@pytest.mark.parametrize("path", VALID, ids=lambda path: path.stem)
def test_valid_packs_are_read(path: Path) -> None:
    """Every file in the folder of valid packs is read, and its puzzles can be set up."""
    pack = load_pack(path)
    assert pack.id == path.stem
    assert all(puzzle.position.text for puzzle in puzzles(pack))


def test_every_key_is_read() -> None:
    """Each key of the format comes out as it was written, prose on one line."""
    pack = load_pack(HERE / "valid" / "02-everything.toml")
    assert pack.title == "Every key there is"
    assert pack.about == "A pack may say what to look for on two lines of its file."
    assert (pack.author, pack.licence) == ("Ärzte & Œuvres", "CC-BY-4.0")
    assert pack.levels[0] == Level(
        id="9-lives",
        name="Hide and seek",
        setup="F U' R2 F2 U R2 F'",
        open=("FR", "FL"),
        faces="FRU",
        view="full",
        par=7,
        note="Turn {cross} away from {top}; {colour R} lies at the {back}, "
        "the {left} is free. {slot BR} keeps its pair: {turns R U R'}.",
        twins=("left-right", "front-back"),
    )


def test_optional_keys_have_defaults(tmp_path: Path) -> None:
    """Without the optional keys all four slots are solved, all faces turn, the view is focus."""
    only = read(tmp_path, PACK + level()).levels[0]
    assert (only.open, only.faces, only.view, only.twins) == ((), "FBRLUD", "focus", ())
    assert only.position.pairs == ("FR",)


def test_windows_line_ends_and_mark_are_read() -> None:
    """A byte order mark and CR LF change nothing."""
    (only,) = load_pack(HERE / "valid" / "03-windows.toml").levels
    assert only.note == "One line and another."


# -- faults --------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", INVALID, ids=lambda path: path.stem)
def test_faults_read_exactly(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each invalid pack gives the message that lies beside it."""
    monkeypatch.chdir(path.parent)
    with pytest.raises(PackError) as refused:
        load_pack(Path(path.name))
    assert str(refused.value) + "\n" == path.with_suffix(".txt").read_text("utf-8")


def test_the_file_is_named_from_the_working_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A pack below the working folder is named as from there, whatever path was given."""
    path = tmp_path / "levels" / "03-pairs.toml"
    path.parent.mkdir()
    path.write_text(PACK + level("follow-the-corner", setup="\"R U Q' U'\""))
    monkeypatch.chdir(tmp_path)
    with pytest.raises(PackError) as refused:
        load_pack(path)
    first, *caret = str(refused.value).split("\n")
    shown = str(Path("levels/03-pairs.toml"))
    assert first.startswith(f'{shown}: level "follow-the-corner": setup: unknown turn "Q\'"')
    assert caret == ["    R U Q' U'", "        ^^"]


def test_a_thousand_faults_are_counted(tmp_path: Path) -> None:
    """The error holds every fault, and writes out the first fifty."""
    text = PACK + "".join(level(f"l{i}", par="0", view='"fll"') for i in range(500))
    with pytest.raises(PackError) as refused:
        read(tmp_path, text)
    assert len(refused.value.faults) == 1000
    lines = str(refused.value).split("\n")
    assert len(lines) == 51
    assert lines[-1] == "and 950 more"


def test_levels_are_bounded(tmp_path: Path) -> None:
    """Five hundred levels are read, one more is refused."""
    five_hundred = PACK + "".join(level(f"l{i}") for i in range(500))
    assert len(read(tmp_path, five_hundred).levels) == 500
    more = five_hundred + level("l500")
    assert faults(tmp_path, more) == ["level: 501 levels; a pack has at most 500"]


ODD = """ 0 ; -1 ; 20 ; 1e400 ; nan ; true ; 0xffff ; 12:00:00 ; 1979-05-27 ; {} ; {a = 1}
"" ; "{" ; "FR" ; "full" ; "{cross}" ; "\\u0000" ; [] ; [[]] ; ["FR"] ; ["FR", 1] ; ["diagonal"]
"""
ODD_VALUES = [value for line in ODD.strip().split("\n") for value in line.split(" ; ")]
LEVEL_KEYS = ("id", "name", "setup", "open", "faces", "view", "par", "note", "twins")


@given(st.dictionaries(st.sampled_from(LEVEL_KEYS), st.sampled_from(ODD_VALUES)))
def test_any_level_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, values: dict[str, str]
) -> None:
    """A level with any values in place of some is one that can be set up, or it has faults."""
    try:
        pack = read(tmp_path_factory.getbasetemp(), PACK + level(**values))
    except PackError as error:
        assert all(fault.level for fault in error.faults)
    else:
        assert all(puzzle.position.text for puzzle in puzzles(pack))


@given(st.binary(max_size=200))
def test_any_bytes_are_refused_with_a_line(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    """Bytes that are no pack raise a PackError and nothing else."""
    assert faults(tmp_path_factory.getbasetemp(), data)


# -- files that cannot be read -------------------------------------------------------------------


def test_a_large_file_is_refused_by_its_size(tmp_path: Path) -> None:
    """A file of a hundred megabytes is refused with both sizes."""
    path = tmp_path / "large.toml"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    with pytest.raises(PackError, match=f"100000000 bytes; a pack has at most {MAX_BYTES}$"):
        load_pack(path)


def test_a_missing_file_is_refused(tmp_path: Path) -> None:
    """A file that is not there is said to be so."""
    with pytest.raises(PackError, match=r"none\.toml: cannot be read: No such file"):
        load_pack(tmp_path / "none.toml")


def test_a_folder_is_no_pack(tmp_path: Path) -> None:
    """A folder is refused, whatever it is called."""
    (tmp_path / "folder.toml").mkdir()
    with pytest.raises(PackError, match=r"folder\.toml: is not a file$"):
        load_pack(tmp_path / "folder.toml")


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    """A named pipe, and a link to one, are refused and not opened."""
    os.mkfifo(tmp_path / "pipe.toml")
    (tmp_path / "link.toml").symlink_to("pipe.toml")
    for name in ("pipe.toml", "link.toml"):
        with pytest.raises(PackError, match=f"{name}: is not a file$"):
            load_pack(tmp_path / name)


def test_a_link_in_a_circle_is_refused(tmp_path: Path) -> None:
    """A link that leads to itself is said to be unreadable."""
    (tmp_path / "loop.toml").symlink_to("loop.toml")
    with pytest.raises(PackError, match=r"loop\.toml: cannot be read: "):
        load_pack(tmp_path / "loop.toml")


def test_odd_file_names_can_be_shown(tmp_path: Path) -> None:
    """A file name that a terminal would obey, or that is no text, is shown with question marks."""
    path = tmp_path / os.fsdecode(b"\x1b[2J\xff.toml")
    path.write_text(PACK + level())
    with pytest.raises(PackError) as refused:
        load_pack(path)
    assert "?[2J?.toml: the name of a pack's file" in str(refused.value)
    str(refused.value).encode()


# -- folders -------------------------------------------------------------------------------------


def test_packs_come_by_name_and_broken_ones_apart(tmp_path: Path) -> None:
    """Packs come in the order of their file names; a broken one stops none of the others."""
    for name, text in (("10-c", level()), ("02-b", "par ="), ("01-a", level())):
        (tmp_path / f"{name}.toml").write_text(PACK + text)
    (tmp_path / "notes.txt").write_text("no pack")
    packs, errors = load_packs(tmp_path)
    assert [pack.id for pack in packs] == ["01-a", "10-c"]
    assert ["02-b.toml: line 6" in str(error) for error in errors] == [True]


def test_a_folder_without_packs_is_said_to_be_so(tmp_path: Path) -> None:
    """An empty folder, and one that is not there, give one error each."""
    for folder, problem in (
        (tmp_path, "no packs in this folder"),
        (tmp_path / "none", "cannot be read"),
    ):
        packs, (error,) = load_packs(folder)
        assert packs == ()
        assert problem in str(error)


def test_own_packs_follow_those_of_the_program(tmp_path: Path) -> None:
    """They come after, whatever their names; a broken one is told, a taken name refused."""
    shipped, own = tmp_path / "shipped", tmp_path / "own"
    shipped.mkdir()
    (shipped / "10-a.toml").write_text(PACK + level())
    assert [pack.id for pack in all_packs(shipped, own)[0]] == ["10-a"]
    own.mkdir()
    assert all_packs(shipped, own)[1] == ()
    for name, text in (("01-mine", level()), ("10-a", level()), ("broken", "par =")):
        (own / f"{name}.toml").write_text(PACK + text)
    packs, errors = all_packs(shipped, own)
    assert [(pack.id, pack.path.parent) for pack in packs] == [("10-a", shipped), ("01-mine", own)]
    assert [str(error).partition(": ")[0] for error in errors] == [
        str(own / "broken.toml"),
        str(own / "10-a.toml"),
    ]
    assert "a pack of the program has that name" in str(errors[1])


def test_a_name_that_records_know_for_something_else_is_refused(tmp_path: Path) -> None:
    """No own pack can have the name that the atlas or a step of the drill puts before its keys."""
    spot = AtlasPuzzle(Spot(CELLS[0], "FR", CELLS[0].turns[0]), 6)
    names = {key.partition("/")[0] for key in (spot.key, *items())}
    (tmp_path / "shipped").mkdir()
    own = tmp_path / "own"
    own.mkdir()
    for name in names:
        (own / f"{name}.toml").write_text(PACK + level())
    packs, errors = all_packs(tmp_path / "shipped", own)
    assert packs == ()
    assert len(errors) == len(names) + 1  # and that the program has none


def test_the_programs_own_packs_lie_beside_it_or_inside() -> None:
    """The folder of packs belongs to the package that is running."""
    package = Path(game.__file__).resolve().parent
    assert pack_folder() in (package / "levels", package.parent / "levels")


# -- puzzles -------------------------------------------------------------------------------------


def test_twins_follow_their_level(tmp_path: Path) -> None:
    """Each level is followed by its twins, and every puzzle has a key of its own."""
    text = PACK + level("one", twins='["diagonal", "left-right"]') + level("two")
    keys = [puzzle.key for puzzle in puzzles(read(tmp_path, text))]
    assert keys == [
        "a-pack/one",
        "a-pack/one~left-right",
        "a-pack/one~diagonal",
        "a-pack/two",
    ]


@pytest.mark.parametrize(
    ("setup", "slot"),
    [("R U R'", "FR"), ("L' U L", "FL"), ("L U L'", "BL"), ("R' U R", "BR")],
)
def test_twins_mirror_the_position(tmp_path: Path, setup: str, slot: str) -> None:
    """A twin's position is the level's mirror image; the diagonal one keeps the slot."""
    text = PACK + level(setup=f'"{setup}"', open='["FL"]' if slot != "FL" else "[]", faces='"RUF"')
    text += "twins = ['left-right', 'front-back', 'diagonal']\n"
    itself, *twins = puzzles(read(tmp_path, text))
    assert itself.position.pairs == (slot,)
    for puzzle, name in zip(twins, TWINS, strict=True):
        mirror = twin(name, slot)
        assert puzzle.position == itself.position.image(mirror)
        assert puzzle.position.image(mirror) == itself.position
        assert puzzle.par == itself.par
    assert twins[-1].position.pairs == (slot,)


def test_notes_are_true_of_twins(tmp_path: Path) -> None:
    """The line that a note gives solves the level and each of its twins."""
    text = PACK + level(setup='"R U R\'"', note="\"{slot FR}: {turns R U' R'}\"")
    text += "twins = ['left-right', 'front-back', 'diagonal']\n"
    notes = [puzzle.note(HOME_COLOURS) for puzzle in puzzles(read(tmp_path, text))]
    assert notes == ["FR: R U' R'", "FL: L' U L", "BR: R' U R", "FR: F' U F"]
