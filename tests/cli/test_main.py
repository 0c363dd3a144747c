"""The arguments, the exit codes, and what ends a command."""

from __future__ import annotations

import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from game import __version__
from game.cli import main
from game.cli.exits import MEANING, Exit
from game.friends.codes import invite_code
from tests.cli.running import COMMAND, ROOT, environment, one_line, run, run_apart
from tests.screens.friends import CONTEST

LOADED = """
import sys
from game.cli import main
code = main(sys.argv[1:])
print("loaded:", *sorted({"numpy", "textual", "rich", "sqlite3"} & set(sys.modules)))
sys.exit(code)
"""


@pytest.mark.parametrize("command", [[], ["par"], ["atlas"], ["check"], ["where"]])
def test_version_everywhere(command: list[str]) -> None:
    """Every command tells the version."""
    assert run(*command, "--version") == (0, f"pairwright {__version__}\n", "")


@pytest.mark.parametrize("command", [[], ["par"], ["atlas"], ["check"], ["where"]])
def test_help_everywhere(command: list[str]) -> None:
    """Every command explains itself and names the folder option."""
    code, out, err = run(*command, "--help")
    assert (code, err) == (0, "")
    assert out.startswith(" ".join(["usage: pairwright", *command]))
    assert "--data-dir DIR" in out


def test_help_tells_every_exit_code() -> None:
    """The table of exit codes in the help names each code that a command can return."""
    out = run("--help").out
    for code in Exit:
        assert f"\n  {code.value:<7}{MEANING[str(code.value)]}\n" in out


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["-x"], "unrecognized arguments: -x"),
        (["par"], "the following arguments are required: SETUP"),
        (["par", "--open"], "argument --open: expected one argument"),
        (["par", "--op", "FR", "R"], "unrecognized arguments: --op"),
        (["pour"], "invalid choice: 'pour'"),
        (["x" * 100_000], "invalid choice"),
        (["where", "now"], "unrecognized arguments: now"),
        ([b"\xff\x1b[31m"], "invalid choice"),
        (["--data-dir", "", "where"], "the data folder needs a name"),
    ],
)
def test_a_fault_in_the_arguments(arguments: list[str | bytes], told: str) -> None:
    """A fault in the arguments is told in one line of bounded length, with exit code 1."""
    code, out, err = run(*arguments)
    assert (code, out) == (Exit.FAULT, "")
    assert told in err
    assert one_line(err)
    assert len(err) < 300
    assert "\x1b" not in err


@pytest.mark.parametrize("first", [True, False])
def test_data_dir_on_both_sides(tmp_path: Path, first: bool) -> None:
    """The folder may be named before or after the command."""
    option = ["--data-dir", str(tmp_path / "mine")]
    code, out, _ = run(*option, "where") if first else run("where", *option)
    assert code == Exit.DONE
    assert f"{tmp_path / 'mine' / 'records.db'}" in out


@pytest.mark.parametrize(
    ("arguments", "loaded"),
    [
        (["--help"], ""),
        (["--version"], ""),
        (["where"], ""),
        (["par", "Q"], ""),
        (["par", "R U R'"], " numpy"),
        (["par", "--json", "R U R'"], " numpy"),
        (["check", "levels/00-first-turns.toml"], " numpy"),
    ],
)
def test_plain_commands_load_no_textual(data_dir: Path, arguments: list[str], loaded: str) -> None:
    """In a fresh process no plain command loads Textual; NumPy comes only with a search."""
    program = [sys.executable, "-c", LOADED, "--data-dir", str(data_dir), *arguments]
    ran = subprocess.run(
        program, capture_output=True, text=True, cwd=ROOT, env=environment(), check=False
    )
    assert ran.stdout.splitlines()[-1] == f"loaded:{loaded}"


def test_a_reader_that_leaves(data_dir: Path) -> None:
    """When nobody reads the output any more, the command ends quietly and counts as done."""
    command = [*COMMAND, "par", "--data-dir", str(data_dir), "-"]
    program = subprocess.Popen(
        command,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=environment(),
    )
    assert program.stdin is not None
    assert program.stdout is not None
    assert program.stderr is not None
    program.stdin.write(b"R\n")
    program.stdin.flush()
    assert program.stdout.readline().startswith(b'{"setup": "R"')
    program.stdout.close()
    program.stdin.write(b"U\nR U\n")
    program.stdin.close()
    assert program.stderr.read() == b""
    assert program.wait() == Exit.DONE
    program.stderr.close()


def test_no_room_for_the_output(tmp_path: Path) -> None:
    """Output that finds no room is told in one line, with the code for that."""
    # No file may grow: the same as a full disk, without one.
    shell = f"ulimit -f 0; exec {COMMAND[0]} -B -m game where > {tmp_path / 'out'}"
    ran = subprocess.run(
        ["sh", "-c", shell],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env=environment(),
        check=False,
    )
    assert ran.returncode == Exit.CANNOT
    assert ran.stderr == "pairwright: cannot read or write: File too large\n"


def test_something_is_not_installed(tmp_path: Path) -> None:
    """Without a package that the search needs, one line names it, with the code for that."""
    program = "import sys; sys.modules['numpy'] = None; from game.cli import main; sys.exit(main())"
    ran = subprocess.run(
        [sys.executable, "-c", program, "--data-dir", str(tmp_path), "par", "--json", "R"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert ran.returncode == Exit.CANNOT
    assert ran.stderr == "pairwright: numpy is not installed\n"


def test_a_terminal_that_cannot_encode(data_dir: Path) -> None:
    """Where the output takes ASCII only, what it cannot show is escaped, not a crash."""
    code, out, err = run_apart(
        "par", "--data-dir", data_dir, "R", PYTHONIOENCODING="ascii", PYTHONUTF8="0"
    )
    assert (code, err) == (Exit.DONE, "")
    assert out.isascii()


@pytest.mark.parametrize("option", ["--help", "--version"])
@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_an_output_that_is_full(option: str, unbuffered: str) -> None:
    """Help and version that cannot be written are told in one line, with the code for that."""
    with Path("/dev/full").open("w") as full:
        ended = subprocess.run(
            [*COMMAND, option],
            stdout=full,
            stderr=subprocess.PIPE,
            cwd=ROOT,
            env=environment(PYTHONUNBUFFERED=unbuffered),
            check=False,
        )
    assert ended.returncode == Exit.CANNOT
    assert one_line(ended.stderr.decode())


@pytest.mark.parametrize(
    "arguments",
    [
        ["invite", "R U R'"],
        ["standings", "--no-par", "-"],
        ["where"],
        ["export", "--csv"],
        ["--version"],
    ],
)
def test_an_output_that_is_closed(arguments: list[str], tmp_path: Path) -> None:
    """It is told as one that is full is: what was asked for is nowhere to be seen."""
    command = shlex.join([*COMMAND, *arguments, "--data-dir", str(tmp_path)])
    ended = subprocess.run(
        ["sh", "-c", f"{command} >&-"],
        input=invite_code(CONTEST).encode(),
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=environment(),
        check=False,
    )
    assert ended.returncode == Exit.CANNOT
    assert one_line(ended.stderr.decode())


def test_what_nobody_foresaw_is_told_in_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """One line, the exit code 70, and a file with the traceback and without the arguments."""

    def raises(*_: object) -> int:
        raise RuntimeError("it broke")

    monkeypatch.setattr("game.cli.where.run", raises)
    assert main(["--data-dir", str(tmp_path), "where"]) == 70
    (path,) = (tmp_path / "mishaps").iterdir()
    assert capsys.readouterr().err == f"pairwright: something went wrong; told in {path}\n"
    text = path.read_text("utf-8")
    assert "RuntimeError: it broke" in text and "command: where\n" in text
