"""Par of a setup, asked on the command line."""

from __future__ import annotations

import io
import json
import re
import signal
import subprocess
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from game.cli import main
from game.cli.exits import Exit
from game.cli.par import MAX_BYTES
from game.cube.cube import SOLVED
from game.cube.line import obtm
from game.cube.moves import MAX_TEXT, parse_line
from game.cube.pair import SLOTS, is_goal
from tests.cli.running import (
    COMMAND,
    ROOT,
    Ran,
    ended,
    environment,
    one_line,
    run,
    run_apart,
    spawn,
)

LONG = "U R2 F B R B2 R U2 L B2 R U' D' R2 F R' L B2 U2 F2"
"""Every edge turned over: cross and all four pairs, a search of minutes."""
HOOK = "R B U2 B' R'"
"""Its own inverse; corner above FR with the cross colour up, edge at the top left: par five
(common practice, no source)."""


def par(data_dir: Path, *arguments: str | bytes, stdin: bytes = b"") -> Ran:
    return run("par", "--data-dir", data_dir, *arguments, stdin=stdin)


def found(data_dir: Path, *arguments: str) -> dict[str, Any]:
    """The JSON object for one setup."""
    code, out, err = par(data_dir, "--json", *arguments)
    assert (code, err) == (Exit.DONE, "")
    assert out.count("\n") == 1
    answer: dict[str, Any] = json.loads(out)
    return answer


def test_json_has_these_keys(data_dir: Path) -> None:
    """The object has the keys that are promised, in that order, with the types that are."""
    answer = found(data_dir, "--open", "bl,FL", "--faces", "ur", "R U R' U'")
    assert list(answer) == ["setup", "par", "solutions", "complete", "open", "faces", "seconds"]
    assert answer.pop("seconds") >= 0
    assert answer == {
        "setup": "R U R' U'",
        "par": 4,
        "solutions": ["U R U' R'", "U2 R U2 R'"],
        "complete": True,
        "open": ["FL", "BL"],
        "faces": "RU",
    }


@pytest.mark.parametrize("setup", [HOOK, "F R U R' U2 F' L", "Rw U x' M2 F", "y R U R' x"])
def test_every_solution_solves_in_par(data_dir: Path, setup: str) -> None:
    """Each line that is told solves cross and slots, in as many turns as par says."""
    answer = found(data_dir, setup)
    assert answer["solutions"]
    for solution in answer["solutions"]:
        line = parse_line(solution)
        assert obtm(line) == answer["par"]
        start = SOLVED.turn(parse_line(setup)).upright
        assert is_goal(start.turn(line), SLOTS)


def test_the_first_is_enough(data_dir: Path) -> None:
    """With --first there is one solution, of the same par, and the list is not called complete."""
    answer = found(data_dir, "--first", "R U R' U'")
    assert (answer["par"], len(answer["solutions"]), answer["complete"]) == (4, 1, False)


def test_pair_by_pair(data_dir: Path) -> None:
    """With --pairs the best total pair by pair is told too, in JSON with every step."""
    assert "pairs" not in found(data_dir, "F U F2 U F")
    assert found(data_dir, "--pairs", "F U F2 U F")["pairs"] == {
        "total": 6,
        "order": ["FR", "FL"],
        "cross": "",
        "steps": ["F' U' F", "F U' F'"],
    }
    assert found(data_dir, "--pairs", "R U R'")["pairs"] is None
    told = par(data_dir, "--pairs", "R U R'").out
    assert "only where two pairs or more are in play" in told


def test_no_solution_is_an_answer(data_dir: Path) -> None:
    """A position that the faces cannot solve has par null and a verdict, and the code for done."""
    answer = found(data_dir, "--faces", "U", "R U R'")
    assert list(answer)[-1] == "verdict"
    assert (answer["par"], answer["solutions"], answer["complete"]) == (None, [], True)
    assert answer["verdict"].startswith("no solution: turns of U ")
    code, out, _ = par(data_dir, "--faces", "U", "R U R'")
    assert code == Exit.DONE
    assert "No solution: turns of U " in out


def test_in_words(data_dir: Path) -> None:
    """For a reader there are the cube in letters, par, and each solution with its easiest grip."""
    code, out, err = par(data_dir, "--open", "BL", "B U B' U'")
    assert (code, err) == (Exit.DONE, "")
    picture, told, table = out.split("\n\n")[0], *re.split(r"\n\n+", out)[1:]
    assert set(picture) >= set("WYGBOR")
    assert "\x1b" not in out
    assert told == "Par 4; all 3 shortest solutions (BL open)"
    rows = [re.split(r"\s{2,}", row.strip()) for row in table.splitlines()]
    assert rows[0] == ["as the cube is held", "easiest grip"]
    for centres, grip in rows[1:]:
        held = parse_line(centres if grip == "the same" else grip)
        assert is_goal(SOLVED.turn(parse_line("B U B' U'")).turn(held), ("FR", "FL", "BR"))
    assert any(grip.startswith("y") for _, grip in rows[1:])


def test_a_solved_setup(data_dir: Path) -> None:
    """A setup that leaves everything solved has par 0, in words as in JSON."""
    assert "Par 0: the setup leaves it solved\n" in par(data_dir, "U R R'").out
    answer = found(data_dir, "")
    assert (answer["par"], answer["solutions"], answer["complete"]) == (0, [""], True)


def test_more_than_one_argument(data_dir: Path) -> None:
    """A setup without quotes is refused with the quoting to use."""
    code, out, err = par(data_dir, "R", "U", "R'")
    assert (code, out) == (Exit.FAULT, "")
    assert """pairwright par "R U R' U'\"""" in err
    assert one_line(err)


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["R Q U"], 'unknown turn "Q"'),
        (["--open", "FR,BX", "R"], 'unknown slot "BX"'),
        (["--faces", "Q", "R"], 'unknown face "Q"'),
        (["--faces", "", "R"], "no face may turn"),
        (["--open", "FX", "-"], 'unknown slot "FX"'),
        (["R" * 5000], "5000 characters"),
        (["R " * 401], "more than 400 moves"),
        ([b"R\xff"], "unknown turn"),
        (["R\x1b[2J"], "unknown turn"),
    ],
)
def test_faults_in_words(data_dir: Path, arguments: list[str | bytes], told: str) -> None:
    """A fault is told in one line, with at most a caret under it, and nothing is printed."""
    code, out, err = par(data_dir, *arguments)
    assert (code, out) == (Exit.FAULT, "")
    assert told in err
    assert err.count("\n") in (1, 3)
    assert "Traceback" not in err
    assert "\x1b" not in err


def test_a_fault_in_json(data_dir: Path) -> None:
    """With --json a fault in the setup is an object too, with exit code 1."""
    code, out, err = par(data_dir, "--json", "R Q")
    assert (code, err) == (Exit.FAULT, "")
    answer = json.loads(out)
    assert list(answer) == ["setup", "error"]
    assert answer["setup"] == "R Q"
    assert answer["error"].startswith('unknown turn "Q"')


def test_lines_in_lines_out(data_dir: Path) -> None:
    """Each input line gives one object in its place, bad ones too, and then the exit code is 1."""
    lines = [
        b"R U R'",
        b"",
        b"Q",
        b"\xff\xfe",
        b"\x00",
        "R U R\u2019".encode(),
        b"R" * (MAX_TEXT + 1),
        b"R U " * MAX_BYTES,
        b"{}",
        b"R U R' U'\r",
        b"F",
    ]
    code, out, err = run_apart("par", "--data-dir", data_dir, "-", stdin=b"\n".join(lines))
    assert (code, err) == (Exit.FAULT, "")
    answers = [json.loads(line) for line in out.splitlines()]
    pars = [answer.get("par", "error") for answer in answers]
    assert pars == [3, 0, "error", "error", "error", 3, "error", "error", "error", 4, 1]
    assert answers[9]["setup"] == "R U R' U'"
    for answer in answers:
        assert ("error" in answer) != ("par" in answer)
    assert all(len(line) < 1500 for line in out.splitlines())


def test_good_lines_only(data_dir: Path) -> None:
    """When no line is bad the exit code is 0; no input is no output."""
    assert par(data_dir, "-", stdin=b"R\nU\n").code == Exit.DONE
    assert par(data_dir, "-", stdin=b"") == (Exit.DONE, "", "")


def test_a_byte_order_mark(data_dir: Path) -> None:
    """A mark that some editors put first in a file is not part of the setup."""
    out = par(data_dir, "-", stdin=b"\xef\xbb\xbfR\n").out
    assert json.loads(out)["setup"] == "R"


def test_each_answer_comes_at_once(data_dir: Path) -> None:
    """A program that talks to the command has each answer before it sends the next line."""
    with subprocess.Popen(
        [*COMMAND, "par", "--data-dir", str(data_dir), "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        cwd=ROOT,
        env=environment(),
        text=True,
    ) as program:
        assert program.stdin is not None
        assert program.stdout is not None
        for setup, turns in (("R", 1), ("R U R'", 3), ("U", 0)):
            program.stdin.write(f"{setup}\n")
            program.stdin.flush()
            assert json.loads(program.stdout.readline())["par"] == turns
        program.stdin.close()
        assert program.wait() == Exit.DONE


def test_no_standard_input(data_dir: Path) -> None:
    """Without any standard input, - is refused in one line."""
    shell = f"{COMMAND[0]} -m game par --data-dir {data_dir} - <&-"
    ran = subprocess.run(["sh", "-c", shell], capture_output=True, text=True, cwd=ROOT, check=False)
    assert ran.returncode == Exit.CANNOT
    assert one_line(ran.stderr)


@settings(max_examples=200)
@given(
    st.lists(
        st.text(max_size=30) | st.sampled_from(["R2'", "Rw", "M", "x", "R3", "F ", ","]), max_size=5
    )
)
def test_whatever_the_setup(data_dir: Path, words: list[str]) -> None:
    """Any text at all gives one object with par or with an error, and the exit code of it."""
    setup = "".join(words)
    assume(setup != "-")
    out = io.StringIO()
    with redirect_stdout(out):
        code = main(["--data-dir", str(data_dir), "par", "--first", "--json", "--", setup])
    answer = json.loads(out.getvalue())
    assert answer["setup"] == setup[: len(answer["setup"])]
    assert code == (Exit.FAULT if "error" in answer else Exit.DONE)
    assert "error" in answer or isinstance(answer["par"], int)


# -- in a terminal -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("env", "sequence"),
    [
        ({"COLORTERM": "truecolor"}, "\x1b[48;2;"),
        ({}, "\x1b[48;5;"),
        ({"TERM": "xterm"}, "\x1b[4"),
        ({"NO_COLOR": "1"}, ""),
        ({"TERM": "dumb"}, ""),
    ],
)
def test_colours_of_the_terminal(data_dir: Path, env: dict[str, str], sequence: str) -> None:
    """The cube is drawn in as many colours as there are, in none under NO_COLOR."""
    terminal = spawn("par", "--data-dir", str(data_dir), "R U R' U'", env=env)
    terminal.expect("Par 4; all 3 shortest solutions")
    before = terminal.before or ""
    assert ("\x1b[" in before) == bool(sequence)
    assert sequence in before
    assert ended(terminal) == Exit.DONE


def test_a_narrow_terminal(data_dir: Path) -> None:
    """In a narrow terminal no line of the picture is wider than that."""
    terminal = spawn("par", "--data-dir", str(data_dir), "R", columns=24, env={"TERM": "xterm"})
    terminal.expect("Par 1")
    picture = (terminal.before or "").split("\r\n\r\n")[0]
    plain = re.sub(r"\x1b\[[0-9;]*m", "", picture)
    assert max(map(len, plain.splitlines())) <= 24
    assert ended(terminal) == Exit.DONE


@pytest.mark.parametrize("json_too", [False, True])
def test_stopping_a_long_search(data_dir: Path, json_too: bool) -> None:
    """Progress is shown, and Ctrl-C stops the search with what is proven so far."""
    option = ["--json"] if json_too else []
    terminal = spawn("par", "--data-dir", str(data_dir), *option, LONG)
    terminal.expect(r"par is at least (\d+);.* M nodes; \d+ s; Ctrl-C stops")
    shown = int(terminal.match[1])
    terminal.sendintr()
    said = (
        r'"verdict": "stopped; par is at least (\d+)"'
        if json_too
        else "Stopped; par is at least (\\d+)"
    )
    terminal.expect(said)
    proven = int(terminal.match[1])
    assert shown <= proven <= 20
    assert ended(terminal) == Exit.STOPPED


def heed_interrupts() -> None:
    """A run of the tests in the background may have been told to ignore them, for all below it."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


def test_stopping_while_waiting_for_input(data_dir: Path) -> None:
    """Interrupted between two lines, the command ends without a word more."""
    with subprocess.Popen(
        [*COMMAND, "par", "--data-dir", str(data_dir), "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=environment(),
        text=True,
        preexec_fn=heed_interrupts,  # noqa: PLW1509 - no threads run here
    ) as program:
        assert program.stdin is not None
        assert program.stdout is not None
        assert program.stderr is not None
        program.stdin.write("R\n")
        program.stdin.flush()
        assert json.loads(program.stdout.readline())["par"] == 1
        program.send_signal(signal.SIGINT)
        assert program.wait() == Exit.STOPPED
        assert program.stdout.read() == ""
        assert program.stderr.read() == ""


def test_bytes_that_are_no_text_are_told_in_json(data_dir: Path) -> None:
    """A setup of such bytes is answered with JSON that every reader takes: no half characters."""
    code, out, _ = run("--data-dir", data_dir, "par", "--json", b"R\xff")
    assert code == Exit.FAULT
    assert json.loads(out)["setup"].encode() == b"R\\udcff"
