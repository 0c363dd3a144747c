"""What README and manual say is what the program does: examples run, tables are the program's."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

from game.cli.arguments import COMMANDS as PLAIN
from game.cli.exits import MEANING
from game.manual import INDEX, page, subjects
from game.packs import load_pack
from game.screens.shared.keys import COMMANDS
from tests.test_floors import FLOORS

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text("utf-8")
PAGES = {subject: page(subject) for subject in (INDEX, *subjects())}
ALL = "\n".join([README, *PAGES.values()])
"""README and manual, as one text."""
MOST_LINES = 150


def blocks(language: str) -> list[str]:
    """The fenced blocks of a language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", ALL, re.MULTILINE | re.DOTALL)


def marked(mark: str) -> str:
    """The fenced block below a mark."""
    found = re.findall(rf"^<!-- {mark} -->\n```\w+\n(.*?)^```$", ALL, re.MULTILINE | re.DOTALL)
    assert len(found) == 1, mark
    return str(found[0])


def table(heading: str) -> dict[str, str]:
    """First column -> second column of the table with that heading row."""
    below = ALL.split(f"\n{heading}\n", 1)[1].splitlines()[1:]
    rows = []
    for line in below:
        if not line.startswith("|"):
            break
        rows.append([cell.strip() for cell in line.strip("|").split("|")])
    return {row[0]: row[1] for row in rows}


def examples() -> list[tuple[str, str]]:
    """Every command of the console blocks, with what the README shows below it."""
    found = []
    for block in blocks("console"):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, shown = part.partition("\n")
            found.append((command, shown))
    return found


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the README's files in it and the command `pairwright` on the path."""
    folder = tmp_path_factory.mktemp("reader")
    for name in ("my-first.toml", "chat.txt"):
        (folder / name).write_text(marked(f"file: {name}"), "utf-8")
    command = folder / "bin" / "pairwright"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m game "$@"\n')
    command.chmod(0o755)
    return folder


def shell(command: str, home: Path) -> str:
    """What a shell shows that has a home of its own."""
    environment = {key: text for key, text in os.environ.items() if not key.startswith("XDG_")}
    environment |= {
        "HOME": str(home),
        "PATH": f"{home / 'bin'}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(ROOT),
        "COLUMNS": "80",
    }
    run = subprocess.run(
        ["bash", "-c", command],
        cwd=home,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    return run.stdout


def without_seconds(text: str) -> str:
    """The time that a search took is another each time."""
    return re.sub(r'"seconds": [0-9.]+', '"seconds": ...', text)


def test_there_are_examples() -> None:
    """The README shows the commands at work."""
    words = {command.split()[1] for command, _ in examples() if command.startswith("pairwright")}
    assert {"par", "check", "invite", "standings"} <= words


@pytest.mark.parametrize(("command", "shown"), examples())
def test_an_example_prints_what_the_readme_shows(command: str, shown: str, home: Path) -> None:
    """The command, run in a shell, prints the lines below it."""
    printed = shell(command, home)
    assert without_seconds(printed).rstrip() == without_seconds(shown).rstrip()


def test_the_pack_in_the_readme_shows_every_key(home: Path) -> None:
    """The example is a whole pack that uses every key of the table."""
    text = marked("file: my-first.toml")
    assert len(load_pack(home / "my-first.toml").levels) == 2
    told = {key for row in table("| key | meaning |") for key in re.findall(r"`(\w+)`", row)}
    assert told == set(re.findall(r"^(\w+) = ", text, re.MULTILINE))


def test_the_exit_codes_are_those_of_the_commands() -> None:
    """The README's table of exit codes is the one that `pairwright --help` prints."""
    assert table("| exit code | meaning |") == MEANING


def test_the_keys_are_those_of_the_game() -> None:
    """Every key in the README's table stands for a command of the playing screen."""
    shown = [command.shown for command in COMMANDS if command.screen == "play"]
    told = [
        keys for row in table("| keys | what they do |") for keys in re.findall(r"`(.+?)`", row)
    ]
    assert len(told) > 5
    assert [keys for keys in told if keys not in shown] == []


def test_the_help_of_every_command_is_told() -> None:
    """Each command of `--help` has its words in the README."""
    assert [c.NAME for c in PLAIN if f"`pairwright {c.NAME}" not in ALL] == []


def test_every_link_leads_somewhere() -> None:
    """Pictures and pages that the README and the contributors' page link are there."""
    pages = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "game/manual").glob("*.md")]
    assert len(pages) == 2 + len(PAGES)
    for path in pages:
        links = re.findall(r"\]\(([^)#]+?)(?:#[^)]*)?\)", path.read_text("utf-8"))
        missing = [x for x in links if "://" not in x and not (path.parent / x).exists()]
        assert missing == [], path.name


def test_the_readme_is_read_in_three_minutes() -> None:
    """It is short; the rest is the manual's."""
    assert len(README.splitlines()) < MOST_LINES


def test_every_page_is_in_the_index() -> None:
    """No page lies about that nobody finds."""
    files = {path.stem for path in (ROOT / "game/manual").glob("*.md")}
    assert files == set(PAGES)


def test_both_commands_are_one_line() -> None:
    """One line installs and starts the game, one installs and runs the tests."""
    for mark in ("command: play", "command: test"):
        assert marked(mark).count("\n") == 1
        assert marked(mark).startswith("python3 -m venv .venv && ")


def test_the_check_run_takes_the_readmes_test_command() -> None:
    """`.ci/run` has no test command of its own: the same extraction finds the README's line."""
    script = (ROOT / ".ci" / "run").read_text("utf-8")
    found = re.search(r"^command=\$\((awk .*)\)$", script, re.MULTILINE)
    assert found is not None
    run = subprocess.run(["bash", "-c", found[1]], cwd=ROOT, capture_output=True, check=True)
    assert run.stdout.decode() == marked("command: test")
    assert "pytest" not in script


def test_the_map_of_modules_is_true() -> None:
    """Every file that DEVELOPERS.md names is there, and no floor's module is left out."""
    page = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    named = set(re.findall(r"`((?:game|tests|levels)/[\w/.]+)`", page))
    assert len(named) > 30
    assert [name for name in sorted(named) if not (ROOT / name).exists()] == []
    parts = [name.removeprefix("game.") for name in FLOORS if name != "game"]
    assert [part for part in parts if not re.search(rf"`{part}/?`", page)] == []


def test_the_tree_of_folders_is_true() -> None:
    """Every folder of the game stands in the contributors' tree, with its own first line."""
    page = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    tree = re.search(r"## The folders\n.*?```text\n(.*?)```", page, re.DOTALL)
    assert tree is not None
    told = [line.split("/", 1) for line in tree[1].splitlines()]
    shown = {(name.strip(), " ".join(words.split())) for name, words in told}
    for path in (ROOT / "game").rglob("__init__.py"):
        words = (ast.get_docstring(ast.parse(path.read_text("utf-8"))) or "").split("\n\n")[0]
        assert (path.parent.name, " ".join(words.split())) in shown, path


def test_the_words_are_where_they_are_said_to_be() -> None:
    """Every name in the table of words can be imported."""
    page = (ROOT / "DEVELOPERS.md").read_text("utf-8").split("## Words\n")[1].split("\n## ")[0]
    names = re.findall(r"`((?:\w+\.)+\w+)`", page)
    assert len(names) > 15
    for name in names:
        *parts, last = name.split(".")
        assert _is_there("game." + ".".join(parts), last), name


def _is_there(module: str, name: str) -> bool:
    try:
        return hasattr(import_module(module), name) or bool(import_module(f"{module}.{name}"))
    except ModuleNotFoundError:
        outer, _, inner = module.rpartition(".")
        return bool(outer) and hasattr(getattr(import_module(outer), inner, None), name)
