"""Prints the table of what takes how long: `python -m tests.bench [module ...]`."""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path

from tests.bench.table import HEADINGS, Row, widths, written


def main(wanted: list[str]) -> None:
    """Runs all modules of this package that have rows, or those that are named."""
    names = sorted(path.stem for path in Path(__file__).parent.glob("[!_]*.py"))
    modules = [import_module(f"{__package__}.{name}") for name in wanted or names]
    rows: list[Row] = []
    for module in modules:
        if wanted and not hasattr(module, "rows"):
            sys.exit(f"{module.__name__} has no rows")
        if hasattr(module, "rows"):
            print(f"{module.__name__} ...", file=sys.stderr)
            rows += module.rows()
    lines = [HEADINGS, *(row.cells() for row in rows)]
    width = widths(lines)
    for line in lines:
        print(written(line, width))


if __name__ == "__main__":
    main(sys.argv[1:])
