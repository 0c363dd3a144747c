"""What is built and installed: the packs travel along, nothing foreign takes their place."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
import tarfile
import zipfile
from collections.abc import Iterable
from email import message_from_bytes
from pathlib import Path

import pytest
import tomli

ROOT = Path(__file__).parent.parent
PROJECT = tomli.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
PACKS = {path.name for path in (ROOT / "levels").glob("*.toml")}
FIND_PACKS = """
from pathlib import Path
import game
from game.packs import load_packs, pack_folder
packs, errors = load_packs(pack_folder())
print(Path(game.__file__).parent, pack_folder(), *(pack.path.name for pack in packs), sep="\\n")
assert not errors, errors
"""


def build(source: Path, target: str, into: Path) -> Path:
    """The one distribution that the build back end makes of a source tree."""
    command = [sys.executable, "-m", "hatchling", "build", "-t", target, "-d", str(into)]
    subprocess.run(command, cwd=source, capture_output=True, check=True)
    (built,) = into.iterdir()
    return built


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> zipfile.ZipFile:
    """The wheel, built from the checkout."""
    return zipfile.ZipFile(build(ROOT, "wheel", tmp_path_factory.mktemp("wheel")))


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The source distribution, unpacked."""
    built = build(ROOT, "sdist", tmp_path_factory.mktemp("sdist"))
    folder = tmp_path_factory.mktemp("source")
    with tarfile.open(built) as archive:
        archive.extractall(folder, filter="data")
    (unpacked,) = folder.iterdir()
    return unpacked


def packs_found(path: Path, folder: Path) -> tuple[Path, Path, set[str]]:
    """Where a fresh process in a folder has the package and the packs, and which packs."""
    run = subprocess.run(
        [sys.executable, "-c", FIND_PACKS],
        cwd=folder,
        env=os.environ | {"PYTHONPATH": str(path)},
        capture_output=True,
        text=True,
        check=True,
    )
    package, packs, *names = run.stdout.splitlines()
    return Path(package), Path(packs), set(names)


@pytest.fixture
def elsewhere(tmp_path: Path) -> Path:
    """A working folder in which a foreign folder `levels` lies, with something else in it."""
    foreign = tmp_path / "elsewhere" / "levels"
    foreign.mkdir(parents=True)
    (foreign / "other.toml").write_text('title = "not ours"\n')
    return foreign.parent


def test_there_are_packs() -> None:
    """The packs lie in `levels/`."""
    assert PACKS


def test_the_wheel_holds_the_packs_and_the_program_alone(wheel: zipfile.ZipFile) -> None:
    """All packs are in `game/levels`, all modules, stylesheets and pages in `game`, no tests."""
    names = {name for name in wheel.namelist() if ".dist-info/" not in name}
    packs = {f"game/levels/{name}" for name in PACKS}
    program = {
        path.relative_to(ROOT).as_posix()
        for path in (ROOT / "game").rglob("*")
        if path.suffix in (".py", ".tcss", ".md")
    }
    assert names == packs | program


def test_the_wheel_tells_what_it_needs(wheel: zipfile.ZipFile) -> None:
    """Name, version, Python, packages and the command are in the wheel's own description."""
    (name,) = (n for n in wheel.namelist() if n.endswith("/METADATA"))
    told = message_from_bytes(wheel.read(name))
    assert told["Name"] == "pairwright"
    assert re.search(rf'^__version__ = "{re.escape(told["Version"])}"$', init(), re.MULTILINE)
    assert told["Requires-Python"] == ">=3.11"
    required = {part for part in told.get_all("Requires-Dist", []) if "extra ==" not in part}
    assert {distribution(part) for part in required} == set(map(distribution, DEPENDENCIES))
    (name,) = (n for n in wheel.namelist() if n.endswith("/entry_points.txt"))
    assert "pairwright = game.cli:main" in wheel.read(name).decode().splitlines()


def init() -> str:
    return (ROOT / "game" / "__init__.py").read_text("utf-8")


def test_an_installed_wheel_finds_its_packs(
    wheel: zipfile.ZipFile, tmp_path: Path, elsewhere: Path
) -> None:
    """Installed, the packs inside the package are found, whatever lies in the working folder."""
    installed = tmp_path / "installed"
    wheel.extractall(installed)
    (installed / "levels").mkdir()  # another distribution may bring a folder of that name
    package, packs, names = packs_found(installed, elsewhere)
    assert package == installed / "game"
    assert packs == package / "levels"
    assert names == PACKS


def test_a_checkout_finds_its_packs(elsewhere: Path) -> None:
    """From a checkout, and so from an editable install, `levels/` beside the package is found."""
    package, packs, names = packs_found(ROOT, elsewhere)
    assert package == ROOT / "game"
    assert packs == ROOT / "levels"
    assert names == PACKS


def test_the_module_runs_in_a_checkout() -> None:
    """`python -m game` is the command, without anything installed."""
    run = subprocess.run(
        [sys.executable, "-m", "game", "--version"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.startswith("pairwright ")
    assert f'"{run.stdout.split()[1]}"' in init()


def test_the_source_distribution_holds_packs_and_tests(source: Path) -> None:
    """Packs, tests, pages and pictures travel along with the sources, and nothing is missing."""
    kept = {path.relative_to(source).as_posix() for path in source.rglob("*") if path.is_file()}
    wanted = {"README.md", "DEVELOPERS.md", "pyproject.toml", ".ci/run"}
    for folder in ("game", "levels", "tests", ".pictures"):
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                wanted.add(path.relative_to(ROOT).as_posix())
    assert wanted - kept == set()


def test_the_source_distribution_builds_the_same_wheel(
    wheel: zipfile.ZipFile, source: Path, tmp_path: Path
) -> None:
    """A wheel built from the source distribution holds what one from the checkout holds."""
    again = zipfile.ZipFile(build(source, "wheel", tmp_path))
    assert set(again.namelist()) == set(wheel.namelist())


# -- what is declared ----------------------------------------------------------------------------

DEPENDENCIES: list[str] = PROJECT["dependencies"]
TEST_DEPENDENCIES: list[str] = PROJECT["optional-dependencies"]["test"]
BROUGHT_BY_TEXTUAL = {"rich"}
"""Textual's line API takes the segments and styles of this package and requires it itself."""
RUN_AS_PROGRAMS = {"pytest-asyncio", "pytest-xdist", "ruff", "mypy", "hatchling"}
"""Packages of the tests that no test imports: plug-ins and commands."""


def distribution(requirement: str) -> str:
    """The name at the start of a requirement."""
    return re.split(r"[^A-Za-z0-9_.-]", requirement, maxsplit=1)[0].lower()


def packages_imported(paths: Iterable[Path]) -> set[str]:
    """Top names of what the modules import from outside the standard library and this project."""
    found: set[str] = set()
    for path in paths:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Import):
                found |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                found.add(node.module.split(".")[0])
    return found - set(sys.stdlib_module_names) - {"game", "tests"}


def test_the_program_imports_what_it_declares() -> None:
    """Nothing is imported that is not declared, and nothing declared that is not imported."""
    imported = packages_imported((ROOT / "game").rglob("*.py"))
    assert imported - BROUGHT_BY_TEXTUAL == set(map(distribution, DEPENDENCIES))


def test_the_tests_import_what_they_declare() -> None:
    """The extra `test` holds what the tests import and run, beyond what the program needs."""
    imported = packages_imported((ROOT / "tests").rglob("*.py"))
    declared = set(map(distribution, TEST_DEPENDENCIES))
    needed = imported - BROUGHT_BY_TEXTUAL
    assert needed <= declared | set(map(distribution, DEPENDENCIES))
    assert declared - imported == RUN_AS_PROGRAMS
