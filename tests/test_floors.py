"""The floors of the program: who may import whom, each rule in one sentence.

A module imports only floors below its own, or its own floor without going round in a circle.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterable
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

GAME = Path(__file__).parent.parent / "game"

FLOORS = {
    "game": 0,
    "game.errors": 0,
    "game.modes": 0,
    "game.prose": 0,
    "game.foreign": 0,
    "game.manual": 1,
    "game.cube": 1,
    "game.search": 2,
    "game.draw": 2,
    "game.mishap": 2,
    "game.folders": 2,
    "game.settings": 2,
    "game.records": 2,
    "game.play": 3,
    "game.coach": 4,
    "game.packs": 4,
    "game.atlas": 4,
    "game.deal": 5,
    "game.engine": 5,
    "game.runs": 6,
    "game.friends": 6,
    "game.drill": 6,
    "game.keeping": 7,
    "game.screens": 8,
    "game.cli": 9,
    "game.__main__": 9,
}
"""Module, or package with all that is in it -> its floor. Every module has one."""

RULES = (
    "game.play",
    "game.coach",
    "game.packs",
    "game.atlas",
    "game.deal",
    "game.runs",
    "game.friends",
    "game.drill",
)
"""What is asked, what was done, what it is worth: no file, no clock and no screen."""
BASE = ("game", "game.errors", "game.modes", "game.prose", "game.foreign")
BELOW_THE_SCREENS = tuple(name for name, floor in FLOORS.items() if floor < FLOORS["game.screens"])

SCREENS = {
    "shared": 0,
    "lines": 1,
    "play": 2,
    "round": 3,
    "atlas": 4,
    "drill": 4,
    "runs": 4,
    "match": 4,
    "contests": 4,
    "statistics": 4,
    "home": 5,
}
"""Folder of screens -> its floor within them; what lies beside the folders stands above all."""

MOST_LINES = 400
MOST_OF_ITS_OWN = 8
"""Modules that lie in `game/` itself at most, `__init__` and `__main__` not counted."""


def modules() -> dict[str, Path]:
    """Every module under `game/` by its dotted name."""
    found = {}
    for path in sorted(GAME.rglob("*.py")):
        parts = path.relative_to(GAME.parent).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


MODULES = modules()


def part(module: str) -> str:
    """The line of `FLOORS` that a module belongs to: itself or the package it lies in."""
    return module if module in FLOORS else ".".join(module.split(".")[:2])


def floor(module: str) -> int:
    return FLOORS[part(module)]


def imports(path: Path) -> set[str]:
    """Dotted names that a module imports, anywhere in it, those that are for types included."""
    found: set[str] = set()
    waiting: list[ast.AST] = [ast.parse(path.read_text(encoding="utf-8"))]
    for node in waiting:
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: a relative import"
            assert node.module is not None
            for alias in node.names:
                name = f"{node.module}.{alias.name}"
                found.add(name if name in MODULES else node.module)
        else:
            waiting += ast.iter_child_nodes(node)
    return found


IMPORTS = {name: imports(path) for name, path in MODULES.items()}


def outsiders(module: str) -> set[str]:
    """Top names of what a module imports from outside the program."""
    return {name.split(".")[0] for name in IMPORTS[module]} - {"game"}


def insiders(module: str) -> set[str]:
    """What a module imports of the program; a package's own `__init__` goes without saying."""
    return {name for name in IMPORTS[module] if name in MODULES}


def within(*parts: str) -> list[str]:
    """Modules of these lines of `FLOORS`."""
    return [name for name in MODULES if part(name) in parts]


# -- the table -----------------------------------------------------------------------------------


def test_every_module_has_a_floor() -> None:
    """A new module under `game/` must be given its floor in the table above."""
    assert [name for name in MODULES if part(name) not in FLOORS] == []


def test_every_line_of_the_table_is_a_module() -> None:
    """The table names nothing that is not there."""
    assert [name for name in FLOORS if name not in MODULES] == []


def test_few_modules_lie_in_the_folder_of_the_game_itself() -> None:
    """A module has a folder that says what it belongs to."""
    own = [p.stem for p in GAME.glob("*.py") if p.stem not in ("__init__", "__main__")]
    assert len(own) <= MOST_OF_ITS_OWN, own


def test_no_module_is_longer_than_400_lines() -> None:
    """A module holds one concept; one that grows past the bound holds two."""
    lines = {name: len(path.read_text("utf-8").splitlines()) for name, path in MODULES.items()}
    assert {name: n for name, n in lines.items() if n > MOST_LINES} == {}


def test_every_module_is_used() -> None:
    """Nothing lies about unused: each module is imported by another, or is where one starts."""
    used = set().union(*(insiders(name) - {name} for name in MODULES))
    packages = {name for name, path in MODULES.items() if path.name == "__init__.py"}
    assert sorted(set(MODULES) - used - packages - {"game.__main__"}) == []


# -- who may import whom -------------------------------------------------------------------------


def test_a_module_imports_no_floor_above_its_own() -> None:
    """Imports point down, or along the same floor."""
    upward = [
        f"{name} (floor {floor(name)}) imports {other} (floor {floor(other)})"
        for name in MODULES
        for other in sorted(insiders(name))
        if floor(other) > floor(name)
    ]
    assert upward == []


def test_no_module_imports_itself_by_a_detour() -> None:
    """There are no import cycles at all, imports inside functions included."""
    graph = {name: insiders(name) - {name} for name in MODULES}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        pytest.fail("import cycle: " + " <- ".join(error.args[1]))


def test_the_parts_of_a_floor_do_not_depend_on_each_other_in_a_circle() -> None:
    """Seen from further away, packages have no cycles either."""
    graph: dict[str, set[str]] = {name: set() for name in FLOORS}
    for name in MODULES:
        graph[part(name)] |= {part(other) for other in insiders(name)} - {part(name)}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        pytest.fail("import cycle: " + " <- ".join(error.args[1]))


def test_the_drawing_knows_only_the_cube() -> None:
    """`draw/` turns a cube into cells: it knows no position, no rule, no file."""
    for name in within("game.draw"):
        assert {part(other) for other in insiders(name)} <= {
            "game.cube",
            "game.draw",
            "game.errors",
        }


def test_the_records_know_no_rule_and_no_search() -> None:
    """Files, records and settings hold plain values; what these mean is decided elsewhere."""
    for name in within("game.folders", "game.records", "game.settings"):
        parts = {part(other) for other in insiders(name)}
        assert parts.isdisjoint({"game.search", "game.engine", *RULES}), name


def area(module: str) -> str:
    """The folder of screens that a module lies in; "" for what lies beside them."""
    parts = module.split(".")
    return parts[2] if len(parts) > 2 and parts[2] in SCREENS else ""


def test_screens_import_only_what_lies_below_them() -> None:
    """A feature knows what is shared and where one plays; only home and the app know features."""
    upward = [
        f"{name} imports {other}"
        for name in within("game.screens")
        for other in sorted(insiders(name))
        if area(name) and part(other) == "game.screens" and area(other) != area(name)
        if not area(other) or SCREENS[area(other)] >= SCREENS[area(name)]
    ]
    assert [line for line in upward if not line.endswith("imports game.screens")] == []
    assert {p.name for p in (GAME / "screens").iterdir() if (p / "__init__.py").exists()} == set(
        SCREENS
    )


def test_only_the_command_starts_the_screens() -> None:
    """`game.screens` is imported by itself and by the command that starts the game."""
    users = {
        name
        for name in MODULES
        for other in insiders(name)
        if part(other) == "game.screens" and part(name) != "game.screens"
    }
    assert users == {"game.cli.play"}


def test_nothing_imports_the_command() -> None:
    """`game.cli` is where a run starts and is imported by nothing but `__main__`."""
    users = {
        name for name in MODULES for other in insiders(name) if part(other) == "game.cli"
    } - set(within("game.cli"))
    assert users == {"game.__main__"}


# -- what a floor never touches ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("parts", "never"),
    [
        pytest.param(
            (*BASE, "game.cube", "game.search", *RULES), {"time"}, id="no rule has a clock"
        ),
        pytest.param(
            (*BASE, "game.cube", "game.search", *RULES), {"sqlite3"}, id="no rule has files"
        ),
        pytest.param(BELOW_THE_SCREENS, {"textual", "rich"}, id="below the screens there are none"),
        pytest.param((*BASE, "game.cube"), {"os", "pathlib", "io"}, id="the cube reads no file"),
        pytest.param((*BASE, "game.cube"), {"numpy"}, id="the cube is plain Python"),
        pytest.param(
            (*BASE, "game.cube", "game.search", *RULES),
            {"random", "secrets"},
            id="rules and search throw no dice",
        ),
        pytest.param(
            tuple(FLOORS), {"socket", "http", "urllib", "ssl"}, id="nothing uses a network"
        ),
        pytest.param(
            tuple(FLOORS), {"pickle", "marshal", "shelve"}, id="nothing read is ever executed"
        ),
    ],
)
def test_parts_never_import(parts: tuple[str, ...], never: set[str]) -> None:
    """What these parts are for makes these imports a mistake."""
    found = {name: outsiders(name) & never for name in within(*parts)}
    assert {name: names for name, names in found.items() if names} == {}


@pytest.mark.parametrize("name", within(*BASE, "game.cube", "game.search", *RULES))
def test_no_rule_asks_what_time_it_is(name: str) -> None:
    """A rule takes moments and dates; it never looks one up."""
    calls = {
        node.func.attr
        for node in ast.walk(ast.parse(MODULES[name].read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
    }
    assert calls.isdisjoint({"now", "today", "utcnow", "monotonic", "perf_counter"})


def test_only_the_cache_reads_files_for_the_search() -> None:
    """The search itself reads and writes nothing."""
    touching = {"pathlib", "io", "tempfile", "shutil", "mmap", "fcntl"}
    users = {name for name in within("game.search") if outsiders(name) & touching}
    assert users == {"game.search.cache", "game.search.files"}


def test_only_the_records_open_a_database() -> None:
    """SQLite is spoken in `records/` alone."""
    users = {name for name in MODULES if "sqlite3" in outsiders(name)}
    assert users
    assert users <= set(within("game.records"))


# -- what a fresh process loads ------------------------------------------------------------------


def loaded_after(modules_: Iterable[str]) -> set[str]:
    """Top names and program modules in a fresh process after importing these."""
    program = f"import sys, {', '.join(modules_)}; print(*sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", program],
        cwd=GAME.parent,
        capture_output=True,
        text=True,
        check=True,
    )
    return set(run.stdout.split())


def test_the_core_is_reachable_without_the_screens() -> None:
    """All rules and the search load in a fresh process without screens, records or a database."""
    loaded = loaded_after(within(*BASE, "game.cube", "game.search", *RULES))
    assert "game.search.shortest" in loaded
    assert loaded.isdisjoint({"textual", "rich", "sqlite3", "game.screens", "game.records"})


def test_rules_load_without_numpy() -> None:
    """Cube, positions, packs, attempts and scores start up without the weight of NumPy."""
    loaded = loaded_after(within(*BASE, "game.cube", *RULES))
    assert "game.play.attempt" in loaded
    assert loaded.isdisjoint({"numpy", "textual", "sqlite3"})


def test_the_plain_commands_load_no_screens() -> None:
    """Every command but the game itself loads without Textual."""
    commands = [name for name in within("game.cli") if name != "game.cli.play"]
    loaded = loaded_after(commands)
    assert "game.cli.main" in loaded
    assert loaded.isdisjoint({"textual", "game.screens"})


def test_the_first_picture_needs_no_numpy() -> None:
    """The game starts and draws a cube at rest before NumPy is loaded."""
    assert "numpy" not in loaded_after(["game.screens.app", "game.draw.drawing"])


def test_home_waits_for_nothing_that_its_words_do_not_need() -> None:
    """The game at a later start loads no other command, no search, no drawing, no coach."""
    loaded = loaded_after(["game.cli.play", "game.screens.launch", "game.screens.home.screen"])
    late = {"argparse", "game.cli.arguments", "game.coach", "game.draw.look", "game.engine.engine"}
    assert loaded.isdisjoint({*late, "game.search", "importlib.metadata", "json", "numpy"})


def test_the_imports_are_really_read(tmp_path: Path) -> None:
    """The rules can fail: imports are seen at the top, in functions, and those for types."""
    module = tmp_path / "module.py"
    module.write_text(
        "import time\n"
        "from typing import TYPE_CHECKING\n"
        "from game.cube import pair\n"
        "if TYPE_CHECKING:\n    import sqlite3\nelse:\n    import io\n"
        "def late():\n    from textual.app import App\n"
    )
    assert imports(module) == {"time", "typing", "game.cube.pair", "sqlite3", "io", "textual.app"}
